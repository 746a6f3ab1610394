// Measuring several photos at once.
#pragma once

#include <exception>
#include <filesystem>
#include <functional>
#include <vector>

#include "analysis/measure.h"

namespace loafmark::commands {

// analysis::measure_photo, or what a test puts in its place. Called from several threads.
using MeasurePhoto = std::function<analysis::Measurement(const std::filesystem::path&,
                                                         const analysis::MeasureOptions&)>;

struct PhotoJob {
    std::filesystem::path photo;
    analysis::MeasureOptions options;
};

// Measures the photos, one a core at a time, and hands each on in the order of `jobs`, on the
// calling thread: deliver(index, measurement), or failed(index, exception) for one that could not
// be read. Holds at most one measurement a core in memory.
void measure_photos(const std::vector<PhotoJob>& jobs, const MeasurePhoto& measure,
                    const std::function<void(std::size_t, analysis::Measurement)>& deliver,
                    const std::function<void(std::size_t, std::exception_ptr)>& failed);

}  // namespace loafmark::commands
