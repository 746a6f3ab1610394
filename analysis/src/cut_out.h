// From a slice's core to its rough outline, crust included.
#pragma once

#include <optional>
#include <vector>

#include <opencv2/core.hpp>

#include "geometry2d.h"
#include "slice_features.h"

namespace loafmark::analysis {

struct RoughSlice {
    Polyline outline;  // closed, pixels of the features
    bool cut_by_frame = false;
    bool sure = false;   // unlike its ground by hue alone
    double texture = 0;  // of its core, L* a pixel
};

// `core` is CV_8U, nonzero in the core; `not_this` marks what belongs to other slices or is no
// bread. Where everything beside the core that is unlike the ground makes one solid piece, that
// piece is the slice; where bread and ground resemble each other, a graph cut over colour and
// texture decides (Rother, Kolmogorov and Blake 2004). None where nothing is left.
[[nodiscard]] std::optional<RoughSlice> cut_out(const SliceFeatures& features, const cv::Mat& core,
                                                const cv::Mat& not_this);

// Where `ground` (nonzero) shows what the slices lie on: the solid pieces unlike it, coarsely,
// however few cells they have. `cores` (nonzero in any core) tells what bread looks like. Empty
// where bread and ground are alike, or the ground is too busy.
[[nodiscard]] std::vector<RoughSlice> pieces_on(const cv::Mat& ground,
                                                const SliceFeatures& features, const cv::Mat& cores,
                                                const cv::Mat& no_bread);

}  // namespace loafmark::analysis
