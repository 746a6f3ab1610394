// One photo's reading against its truth.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "analysis/measure.h"
#include "figures.h"
#include "truth.h"
#include "yardsticks.h"

namespace loafmark::accuracy {

// One figure of one slice.
struct Outcome {
    bool asked = false;           // the truth knows it and the analysis claims to measure it
    std::optional<double> error;  // signed; of a score or a distance its value; none: missed
    // Whether the 95 % interval holds the truth; none where the figure has no interval.
    std::optional<bool> covered;
    double half_width = 0;  // of that interval; relative where the error is
};

struct SliceComparison {
    std::optional<std::string> failure;  // why figures are missing, in words
    std::array<Outcome, figure_count> outcomes;
    // The same of the ordinary pipelines, in the order of `yardsticks`: crumb figures alone,
    // without intervals. Nothing is asked of them where the crumb is not judged.
    std::array<std::array<Outcome, figure_count>, yardsticks.size()> beside;
};

struct PhotoComparison {
    std::string photo;
    std::string look;
    std::size_t found = 0;                // slices in the reading
    std::vector<SliceComparison> slices;  // one for each true slice
    // As many slices found as there are, each where one is.
    [[nodiscard]] bool all_found() const;
};

// A measured value against the true one.
[[nodiscard]] Outcome outcome_of(const Figure& figure, double truth, const Estimate& measured);

// The options that the truth's user would type, with maps where the crumb is judged.
[[nodiscard]] analysis::MeasureOptions typed_options(const Truth& truth);

// Every true slice is compared with the found one that overlaps it most, at an IoU of a half or
// more; each found one is used once. Crumb figures are judged inside the crumb that the analysis
// found, of cells at or above its resolved limit.
[[nodiscard]] PhotoComparison compare(const Truth& truth, const analysis::Measurement& measured);

// A photo that could not be measured at all: every figure is missed.
[[nodiscard]] PhotoComparison not_measured(const Truth& truth, const std::string& reason);

}  // namespace loafmark::accuracy
