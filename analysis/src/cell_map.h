// The cells of one cut face, and what every pixel of its crumb is.
#pragma once

#include <cstdint>
#include <vector>

#include <opencv2/core.hpp>

#include "cell_segmenter.h"
#include "region_measures.h"

namespace loafmark::analysis {

// What lies at a pixel, for measures of area: cells below the resolved limit are solid.
enum class Matter : std::uint8_t { outside, solid, cell, cavity };

inline constexpr double cavity_mm = 10;  // a cell of this diameter and up is a cavity

struct CellMap {
    cv::Mat labels;               // CV_32S, 0 or the cell's number
    std::vector<Region> regions;  // cell k at k - 1
    // By number, 0 first (false): at or above the resolved limit; that, and its centroid in the
    // crumb.
    std::vector<std::uint8_t> resolved, counted;
    cv::Mat matter;  // CV_8U, a Matter a pixel
    double unit_per_pixel = 0.1;
    double cavity = cavity_mm;  // working units

    [[nodiscard]] double area(int label) const;
    [[nodiscard]] double diameter(int label) const;
    // Of counted cells, in the order of their numbers.
    [[nodiscard]] std::vector<double> counted_diameters() const;
};

// Cells of the pixels more probable than `level`, parted by the openings' rule. `crumb`: CV_8U,
// nonzero in the crumb. `limit` in working units.
[[nodiscard]] CellMap cell_map(const Openings& openings, double level, const cv::Mat& crumb,
                               double limit, double unit_per_pixel);

// The same cells with their edges drawn at another level: pixels no more probable than it leave
// their cell, more probable ones that touch a cell join it. What would part or join stays as it is.
[[nodiscard]] CellMap redrawn_at(const CellMap& cells, const cv::Mat& probability, double level,
                                 const cv::Mat& crumb, double limit);

// The same cells in another crumb, or with cavities from another diameter up.
[[nodiscard]] CellMap within(const CellMap& cells, const cv::Mat& crumb, double cavity);

}  // namespace loafmark::analysis
