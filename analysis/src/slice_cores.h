// Where slices may lie: the places whose texture is crumb's.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "slice_features.h"

namespace loafmark::analysis {

struct SliceCore {
    cv::Mat mask;  // CV_8U, 0 or 1, of the features' size; filled
    double area = 0;
    double texture = 0;  // mean, L* a pixel
    double rank = 0;     // how likely it is a slice, against others of the same photo
};

struct CoreSearch {
    double least_radius = 0;  // pixels; a core holds a disc of it
    double most_area = 0;     // square pixels; no slice is larger
    double share = 0.75;      // of the slice's own upper texture, where its core ends
};

// The cores of slices, the likeliest first; the others resemble it in texture and size.
[[nodiscard]] std::vector<SliceCore> slice_cores(const SliceFeatures& features,
                                                 const CoreSearch& search);

}  // namespace loafmark::analysis
