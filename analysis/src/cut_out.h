// From a slice's core to its rough outline, crust included.
#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "geometry2d.h"
#include "slice_features.h"

namespace loafmark::analysis {

struct RoughSlice {
    Polyline outline;  // closed, pixels of the features
    bool cut_by_frame = false;
};

// `core` is CV_8U, nonzero in the core; `not_this` marks what belongs to other slices or is no
// bread. Where everything beside the core that is unlike the ground makes one solid piece, that
// piece is the slice; where bread and ground resemble each other, a graph cut over colour and
// texture decides (Rother, Kolmogorov and Blake 2004). None where nothing is left.
[[nodiscard]] std::optional<RoughSlice> cut_out(const SliceFeatures& features, const cv::Mat& core,
                                                const cv::Mat& not_this);

// The same where `ground` (nonzero) shows what the slice lies on, a mat's margins: the piece round
// the core that is unlike it, coarsely, however small the core. None where ground and bread are
// alike.
[[nodiscard]] std::optional<RoughSlice> cut_out_on(const cv::Mat& ground,
                                                   const SliceFeatures& features,
                                                   const cv::Mat& core, const cv::Mat& not_this);

}  // namespace loafmark::analysis
