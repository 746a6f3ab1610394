// Photos of printed targets from a camera whose every number is known. The projection is written
// here anew, so that it can judge the one under test.
#pragma once

#include <array>
#include <vector>

#include <opencv2/core.hpp>

#include "analysis/target_layout.h"
#include "find_target.h"

namespace loafmark::analysis::made {

// Looks at the paper from `height_mm` above `foot_mm`, tilted about the photo's x axis and then
// turned in its own plane. Paper: x right, y down, z into the table.
struct Camera {
    cv::Size photo{800, 1000};
    double focal_35mm = 26;  // by the frame's diagonal, 43.27 mm
    double tilt_deg = 0;
    double turn_deg = 0;
    double height_mm = 420;
    cv::Point2d foot_mm{83, 126};  // of the point in the photo's middle

    [[nodiscard]] double focal_px() const;
    // 3x4: paper and height above it to photo pixels, (x, y, height, 1) in mm.
    [[nodiscard]] cv::Matx34d projection() const;
    [[nodiscard]] cv::Point2d seen(cv::Point2d on_paper_mm, double height_mm = 0) const;
};

// A target lying on the paper's plane, its first marker's centre at `at_mm`.
struct LaidTarget {
    std::vector<int> ids;
    cv::Point2d at_mm{0, 0};
    double print_scale = 1;  // printed length over nominal length
};

// Black markers on white paper, each pixel's light the mean of 4 x 4 samples; CV_8UC1.
[[nodiscard]] cv::Mat photo_of(const std::vector<LaidTarget>& targets, const Camera& camera);

// A photo, grey or colour, through a lens that blurs: what mixes is light, not its codes.
[[nodiscard]] cv::Mat out_of_focus(const cv::Mat& photo, double sigma_px);

// Where a marker's corners lie in that photo.
[[nodiscard]] std::array<cv::Point2d, 4> true_corners(int id, const LaidTarget& target,
                                                      const Camera& camera);

// What a perfect finder would hand on.
[[nodiscard]] SeenTarget perfectly_seen(const LaidTarget& target, const Camera& camera);

}  // namespace loafmark::analysis::made
