// Parting bread from its ground where neither colour nor texture alone does.
#pragma once

#include <opencv2/core.hpp>

namespace loafmark::analysis {

// The slice round `core` (CV_8U, nonzero inside; `hull` is its convex hull), CV_8U 0 or 255, by a
// graph cut over lightness, warmth and texture with mixtures learned from core and surroundings
// (Rother, Kolmogorov and Blake 2004). `whole`: the slice ends within the picture. Empty where the
// core is too thin to learn from. All of one size; cost grows faster than linearly with it.
[[nodiscard]] cv::Mat graph_cut(const cv::Mat& lab, const cv::Mat& texture, const cv::Mat& core,
                                const cv::Mat& hull, const cv::Mat& excluded, bool whole);

}  // namespace loafmark::analysis
