// Readings as people see them at a terminal.
#pragma once

#include <cstddef>
#include <string>

#include "analysis/reading.h"

namespace loafmark::commands {

// "98.2", with as many decimals as the measure's catalogue row says; `nothing` where it is absent.
[[nodiscard]] std::string value_text(const MeasureValues& values, Measure measure,
                                     const std::string& nothing = "-");

// "of cells of 0.5 mm and up"; without a scale, "of cells of four pixels of the photo and up".
[[nodiscard]] std::string limit_text(const MeasureValues& values);

// Measures with units, 95 % intervals and, where known, how far another cut may differ, a line
// each; below them the profile, which wide openings there are none of, and the limit.
[[nodiscard]] std::string measures_text(const MeasureValues& values);

// A photo: where its scale is from, its slices, then the warnings with their remedies, those that
// only name measures to come in one line.
[[nodiscard]] std::string photo_text(const PhotoReading& reading);

}  // namespace loafmark::commands
