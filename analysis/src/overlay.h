// The picture that shows a baker what was measured.
#pragma once

#include <string>

#include <opencv2/core.hpp>

#include "analysis/picture.h"
#include "crumb_values.h"
#include "frame.h"
#include "shape.h"

namespace loafmark::analysis {

struct OverlayInput {
    const cv::Mat& rgb;  // rectified, CV_8UC3
    const Frame& frame;
    const Polyline& outline;  // frame pixels
    const cv::Mat& crumb;     // CV_8U
    const CrumbResult& cells;
    const BaseLine& base;    // frame pixels
    const Shape& shape;      // frame pixels
    double limit = 0;        // the resolved limit, working units
    bool has_scale = false;  // else nothing is written in mm
    bool whole = true;       // false: the frame cuts the slice; no height is drawn
    bool legend = true;      // false: no margin, and nothing that stands there
};

// The rectified slice with its outline, base line and height; every counted cell outlined in one
// colour, cavities of 10 mm and up hatched; in colours of their own cells below the limit and such
// whose middle lies in the crust; the crust striped. In the margin a ring at true scale (half of
// all opening lies in cells wider than it), a legend that says in words what was left out and why,
// and a scale bar.
[[nodiscard]] Picture draw_overlay(const OverlayInput& input);

}  // namespace loafmark::analysis
