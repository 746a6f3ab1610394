// The seam between a program and the analysis module: one table of functions, fetched by one C
// symbol.
#pragma once

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <vector>

#include "analysis/measure.h"

namespace loafmark::analysis {

struct Engine {
    std::string (*version)();
    void (*check)(const MeasureOptions& options);
    Measurement (*measure)(const std::filesystem::path& photo, const MeasureOptions& options);
    std::vector<std::uint8_t> (*jpeg)(const Picture& picture, int quality);
    std::vector<std::uint8_t> (*png)(const Picture& picture);
    std::vector<std::uint8_t> (*map_png)(const LabelMap& map);
    Picture (*from_jpeg)(std::span<const std::uint8_t> file, int shrink);
};

// What the module exports, by this name.
inline constexpr const char* engine_symbol = "loafmark_analysis_engine";
using EngineFunction = const Engine& (*)();

}  // namespace loafmark::analysis
