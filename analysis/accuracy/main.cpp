// Measures photos of known truth and prints how far off each reading is, as Markdown.
//
//     loafmark-accuracy [--overlays DIR] FOLDER...
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>
#include <vector>

#include "compare.h"
#include "table.h"
#include "truth.h"

namespace {

namespace fs = std::filesystem;
using namespace loafmark;
using namespace loafmark::accuracy;

void write_overlay(const analysis::Measurement& measured, const fs::path& folder) {
    if (measured.overlays.empty()) return;
    const std::vector<std::uint8_t> bytes = analysis::encode_jpeg(measured.overlays.front());
    const fs::path stem = fs::path(measured.reading.photo).stem();
    std::ofstream file(folder / (stem.string() + ".overlay.jpg"), std::ios::binary);
    file.write(reinterpret_cast<const char*>(bytes.data()),
               static_cast<std::streamsize>(bytes.size()));
    if (!file) throw std::runtime_error("an overlay cannot be written in " + folder.string());
}

std::vector<Comparison> compare_folder(const fs::path& folder, const fs::path& overlays) {
    std::vector<Comparison> comparisons;
    for (const fs::path& file : truth_files(folder)) {
        std::cerr << file.filename().string() << '\n';
        const Truth truth = read_truth(file);
        analysis::MeasureOptions options = typed_options(truth);
        options.overlay = !overlays.empty();
        const analysis::Measurement measured = analysis::measure_photo(truth.photo, options);
        if (!overlays.empty()) write_overlay(measured, overlays);
        comparisons.push_back(compare(truth, measured));
    }
    return comparisons;
}

}  // namespace

int main(int argc, char* argv[]) {
    fs::path overlays;
    std::vector<fs::path> folders;
    for (int i = 1; i < argc; ++i) {
        const std::string word = argv[i];
        if (word == "--overlays" && i + 1 < argc)
            overlays = argv[++i];
        else
            folders.emplace_back(word);
    }
    if (folders.empty()) {
        std::cerr << "usage: loafmark-accuracy [--overlays DIR] FOLDER...\n"
                     "Each folder holds photos beside the truth about them (docs/phantoms.md).\n";
        return 2;
    }
    try {
        if (!overlays.empty()) fs::create_directories(overlays);
        for (const fs::path& folder : folders)
            std::cout << markdown_table(folder.filename().string(),
                                        compare_folder(folder, overlays))
                      << '\n';
    } catch (const std::exception& error) {
        std::cerr << "loafmark-accuracy: error: " << error.what() << '\n';
        return 1;
    }
    return 0;
}
