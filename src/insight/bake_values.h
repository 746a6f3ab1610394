// One bake's numbers for statistics over bakes.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "analysis/measures.h"
#include "journal/measured.h"
#include "journal/poor_readings.h"
#include "journal/records.h"

namespace loafmark::insight {

// Whether slices cut at an end of the loaf count: they are lower and closer than the rest.
enum class EndSlices { left_out, taken_in };

// The mean of a measure over a bake's slices, and over how many; nothing where no slice has it.
// Slices of one loaf are averaged first, then loaves: a loaf that was cut more often weighs no
// more. Poor readings do not count.
struct BakeMean {
    double value = 0;
    int slices = 0;
};
[[nodiscard]] std::optional<BakeMean> bake_mean(const journal::BakeEntry& bake, Measure measure,
                                                EndSlices ends = EndSlices::left_out);

// The same of one loaf.
[[nodiscard]] std::optional<BakeMean> loaf_mean(const journal::LoafEntry& loaf, Measure measure,
                                                EndSlices ends = EndSlices::left_out);

// The same of what was read of a bake for a whole journal's trend; slices by loaf, poor ones left
// out.
[[nodiscard]] std::optional<BakeMean> bake_mean(std::span<const journal::MeasuredSlice> slices,
                                                EndSlices ends = EndSlices::left_out);

// The unweighted mean of several; nothing of none.
[[nodiscard]] std::optional<BakeMean> mean_of(const std::vector<BakeMean>& parts);

// The measure of each slice of a loaf that has it; what was weighed of the whole loaf, once.
[[nodiscard]] std::vector<double> slice_values(const journal::LoafEntry& loaf, Measure measure,
                                               EndSlices ends = EndSlices::left_out);

// Codes of the warnings of a reading that is too poor to count.
[[nodiscard]] std::span<const std::string_view> poor_warnings();

using journal::is_poor;

// Slices whose reading is poor.
[[nodiscard]] int poor_readings(const journal::BakeEntry& bake);

// Slices that have the measure and were cut at an end.
[[nodiscard]] int end_slices(const journal::BakeEntry& bake, Measure measure);

// The flour with the largest share, by which bakes are grouped; of equal shares, the first as
// recorded. Null for a bake without flours. Lives as long as `bake`.
[[nodiscard]] const journal::FlourShare* main_flour(const journal::BakeEntry& bake);

}  // namespace loafmark::insight
