// What is told of one slice's crumb: every measure of its cells, with its intervals.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "analysis/reading.h"
#include "base_frame.h"
#include "cell_segmenter.h"
#include "crumb.h"
#include "unfold_spheres.h"

namespace loafmark::analysis {

struct CrumbInput {
    const Openings& openings;
    const Crumb& crumb;
    const cv::Mat& visible;   // CV_8U, 1 where the photo shows the frame's plane
    const BaseFrame& frame;   // its unit_per_pixel is the crumb's
    double limit = 0.5;       // the resolved limit, working units
    double length_error = 0;  // relative standard error of the scale
    KnownError known_error;   // the segmenter's own
    bool cut_by_frame = false;
    // Without a scale: the widths that the slice may as well have, over the assumed one. What hangs
    // on a length (tiles, cavities) is worked out for each.
    std::vector<double> other_widths;
};

struct CrumbResult {
    MeasureValues values;     // lengths in working units under the keys of millimetres
    std::vector<Cell> cells;  // in working units
    std::vector<SphereClass> spheres;
    cv::Mat labels;  // CV_32S, the cells' ids
};

// Measures by face_measures(). Each value's interval of this cut face joins, as roots of sums of
// squares: the segmenter's known error; how far the value moves when pixels count as open that are
// less, or only such as are more probable; how far it moves when the crust is taken half a
// millimetre thicker; the scale's error; and without a scale what hangs on the assumed width.
// `loaf_low`, `loaf_high` come of loaf_ranges() and are kept apart.
[[nodiscard]] CrumbResult crumb_values(const CrumbInput& input);

}  // namespace loafmark::analysis
