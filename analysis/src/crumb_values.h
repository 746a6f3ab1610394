// Openness, cell counts and cell sizes of one slice's crumb.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "analysis/reading.h"
#include "cell_segmenter.h"
#include "crumb.h"

namespace loafmark::analysis {

struct CrumbInput {
    const Openings& openings;
    const Crumb& crumb;
    const cv::Mat& visible;  // CV_8U, 1 where the photo shows the frame's plane
    double unit_per_pixel = 0.1;
    double limit = 0.5;       // the resolved limit, working units
    double length_error = 0;  // relative standard error of the scale
    KnownError known_error;   // the segmenter's own
    bool cut_by_frame = false;
};

struct CrumbResult {
    MeasureValues values;     // lengths in working units under the keys of millimetres
    std::vector<Cell> cells;  // in working units
    cv::Mat labels;           // CV_32S, the cells' ids
};

[[nodiscard]] CrumbResult crumb_values(const CrumbInput& input);

}  // namespace loafmark::analysis
