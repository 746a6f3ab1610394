// From openings to cells: each opening parted where a wall stands between two basins.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

namespace loafmark::analysis {

struct PartingRule {
    // Two basins are one cell when the saddle between them is at least this share of the lower
    // basin's height...
    double saddle_share = 0.75;
    // ...or when the lower basin rises less than this above the saddle, in units of `height`.
    double least_rise = 1.0;
};

// Labels the open pixels: CV_32S, 0 solid, 1..n cells, each 4-connected. Floods `height` (CV_32F,
// high inside cells) from its peaks; where two floods meet, they join or a wall stays between them,
// as the rule says (watershed by flooding, Vincent and Soille 1991; joining by depth). The wall
// itself has no width: every open pixel belongs to a cell. `open`: CV_8U, nonzero = open.
[[nodiscard]] cv::Mat part_cells(const cv::Mat& open, const cv::Mat& height,
                                 const PartingRule& rule);

}  // namespace loafmark::analysis
