#include "measure_all.h"

#include <atomic>
#include <exception>
#include <mutex>
#include <stdexcept>
#include <thread>

#include "analysis/error.h"

namespace loafmark::accuracy {
namespace {

namespace fs = std::filesystem;

// Calls work(i) for i in [0, count), each once, on several threads; the first exception is passed
// on.
void in_parallel(std::size_t count, int threads, const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next{0};
    std::exception_ptr failure;
    std::mutex lock;
    const auto run = [&] {
        try {
            for (std::size_t i = next++; i < count; i = next++)
                work(i);
        } catch (...) {
            const std::lock_guard guard(lock);
            if (!failure) failure = std::current_exception();
        }
    };
    {
        std::vector<std::jthread> crew;
        for (int i = 1; i < threads; ++i)
            crew.emplace_back(run);
        run();
    }
    if (failure) std::rethrow_exception(failure);
}

PhotoComparison compare_photo(const Truth& truth) {
    try {
        return compare(truth, analysis::measure_photo(truth.photo, typed_options(truth)));
    } catch (const analysis::Error& error) {
        return not_measured(truth, error.what());
    }
}

PhotoReading reading_of(const fs::path& photo, const VariantSet& set) {
    analysis::MeasureOptions options;
    if (set.thickness) options.thickness = {*set.thickness};
    return analysis::measure_photo(photo, options).reading;
}

std::vector<VariantComparison> compare_set(const VariantSet& set) {
    const PhotoReading first = reading_of(set.photo, set);
    std::vector<VariantComparison> compared;
    if (first.slices.size() != 1) {
        // Nothing to hold the others to: the first photo itself is the failure.
        compared.push_back({set.photo.filename().string(),
                            "the first photo itself, not measured",
                            1,
                            {"one slice"}});
        return compared;
    }
    for (const VariantSet::Variant& variant : set.variants)
        compared.push_back(compare_variant(variant, first, reading_of(variant.photo, set)));
    return compared;
}

}  // namespace

std::vector<PhotoComparison> compare_folder(const fs::path& folder, int threads,
                                            const Progress& progress) {
    const std::vector<fs::path> files = truth_files(folder);
    std::vector<PhotoComparison> photos(files.size());
    std::mutex lock;
    in_parallel(files.size(), threads, [&](std::size_t i) {
        photos[i] = compare_photo(read_truth(files[i]));
        const std::lock_guard guard(lock);
        progress(photos[i].photo);
    });
    return photos;
}

std::vector<VariantComparison> compare_variants(const fs::path& folder, int threads,
                                                const Progress& progress) {
    const std::vector<fs::path> files = variant_files(folder);
    std::vector<std::vector<VariantComparison>> sets(files.size());
    std::mutex lock;
    in_parallel(files.size(), threads, [&](std::size_t i) {
        sets[i] = compare_set(read_variants(files[i]));
        const std::lock_guard guard(lock);
        progress(files[i].filename().string());
    });
    std::vector<VariantComparison> all;
    for (const auto& set : sets)
        all.insert(all.end(), set.begin(), set.end());
    return all;
}

}  // namespace loafmark::accuracy
