// Measures photos of known truth and prints how far off each reading is, as Markdown.
#include <charconv>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <iostream>
#include <stdexcept>
#include <string>
#include <vector>

#include "markdown.h"
#include "measure_all.h"
#include "truth.h"
#include "worst_pictures.h"

namespace {

namespace fs = std::filesystem;
using namespace loafmark::accuracy;

constexpr const char* usage =
    "usage: loafmark-accuracy [--threads T] [--each] [--pictures DIR] FOLDER...\n"
    "Each folder holds photos beside the truth about them, or variants of photos\n"
    "(docs/phantoms.md).\n"
    "--threads T     photos measured at once (default 2)\n"
    "--each          a row for every slice, too\n"
    "--pictures DIR  small overlays of each folder's three worst photos\n";

struct Options {
    int threads = 2;
    bool each = false;
    fs::path pictures;
    std::vector<fs::path> folders;
};

Options parse(const std::vector<std::string>& words) {
    Options options;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const bool more = i + 1 < words.size();
        if (words[i] == "--each") {
            options.each = true;
        } else if (words[i] == "--pictures" && more) {
            options.pictures = words[++i];
        } else if (words[i] == "--threads" && more) {
            const std::string& text = words[++i];
            const auto [end, error] =
                std::from_chars(text.data(), text.data() + text.size(), options.threads);
            if (error != std::errc() || end != text.data() + text.size() || options.threads < 1)
                throw std::invalid_argument("--threads '" + text +
                                            "' is not a whole number from 1");
        } else if (words[i].starts_with("--")) {
            throw std::invalid_argument("'" + words[i] + "' is no option, or wants a value");
        } else {
            options.folders.emplace_back(words[i]);
        }
    }
    if (options.folders.empty()) throw std::invalid_argument("say which folders to measure");
    return options;
}

void show_worst(const fs::path& folder, const std::vector<PhotoComparison>& photos,
                const fs::path& pictures) {
    constexpr std::size_t worst_shown = 3;
    const std::vector<fs::path> files = truth_files(folder);
    std::cout << "\nWorst photos, with what was found drawn in:\n\n";
    for (const std::size_t i : worst_photos(photos, worst_shown)) {
        std::cout << "- " << photos[i].photo << " (" << photos[i].look << "):";
        const std::vector<std::string> names = write_overlays(read_truth(files[i]), pictures);
        for (const std::string& name : names)
            std::cout << ' ' << name;
        std::cout << (names.empty() ? " no slice found\n" : "\n");
    }
    const std::vector<std::size_t> crumbs = worst_crumbs(photos, worst_shown);
    if (crumbs.empty()) return;
    std::cout
        << "\nWorst cells: blue found, vermilion missed, yellow none there, black a wall that "
           "one of both lacks:\n\n";
    for (const std::size_t i : crumbs)
        for (const std::string& name : write_error_map(read_truth(files[i]), pictures))
            std::cout << "- " << photos[i].photo << " (" << photos[i].look << "): " << name << '\n';
}

// Returns what was compared; nothing where the folder holds variants.
std::vector<PhotoComparison> report(const fs::path& folder, const Options& options) {
    const Progress progress = [](const std::string& photo) { std::cerr << photo << '\n'; };
    if (!variant_files(folder).empty()) {
        std::cout << markdown_of_invariance(compare_variants(folder, options.threads, progress))
                  << '\n';
        return {};
    }
    const std::vector<PhotoComparison> photos = compare_folder(folder, options.threads, progress);
    std::cout << markdown_of_set(folder.filename().string(), photos,
                                 options.each ? Detail::slices : Detail::misses);
    if (!options.pictures.empty()) show_worst(folder, photos, options.pictures);
    std::cout << '\n';
    return photos;
}

void report_all(const Options& options) {
    std::vector<PhotoComparison> all;
    std::size_t sets = 0;
    for (const fs::path& folder : options.folders) {
        const std::vector<PhotoComparison> photos = report(folder, options);
        all.insert(all.end(), photos.begin(), photos.end());
        sets += photos.empty() ? 0 : 1;
    }
    if (sets > 1) std::cout << markdown_of_set("All of these sets", all, Detail::medians) << '\n';
}

}  // namespace

int main(int argc, char* argv[]) {
    Options options;
    try {
        options = parse(std::vector<std::string>(argv + 1, argv + argc));
    } catch (const std::invalid_argument& error) {
        std::cerr << "loafmark-accuracy: error: " << error.what() << "\n\n" << usage;
        return 2;
    }
    // Photos are measured side by side; within one, OpenCV's own threads would get in their way.
    setenv("OPENCV_FOR_THREADS_NUM", "1", 0);
    try {
        if (!options.pictures.empty()) fs::create_directories(options.pictures);
        report_all(options);
    } catch (const std::exception& error) {
        std::cerr << "loafmark-accuracy: error: " << error.what() << '\n';
        return 1;
    }
    return 0;
}
