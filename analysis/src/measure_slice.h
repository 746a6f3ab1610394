// One slice, from its rough outline to its reading and pictures.
#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "analysis/measure.h"
#include "cell_segmenter.h"
#include "find_slices.h"
#include "scale.h"

namespace loafmark::analysis {

struct MeasuredSlice {
    SliceReading reading;
    std::vector<Warning> warnings;  // without the slice's number
    std::optional<Picture> overlay;
    std::optional<SliceMaps> maps;
    std::optional<SlicePicture> picture;
};

// `plane` holds for this slice. Nothing is measured of a find too small to be bread.
[[nodiscard]] MeasuredSlice measure_slice(const cv::Mat& photo_rgb, const FoundSlice& found,
                                          const WorkingPlane& plane, const MeasureOptions& options,
                                          const CellSegmenter& segmenter);

// Its outline, shape and crust alone, without a look at its cells.
[[nodiscard]] MeasuredSlice measure_outline(const cv::Mat& photo_rgb, const FoundSlice& found,
                                            const WorkingPlane& plane,
                                            const MeasureOptions& options);

// The slice's width along its base by its refined outline, in the plane's unit: what a known width
// is held against.
[[nodiscard]] double refined_width(const cv::Mat& photo_rgb, const FoundSlice& found,
                                   const WorkingPlane& plane, const MeasureOptions& options);

}  // namespace loafmark::analysis
