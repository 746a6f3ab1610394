// A cut face drawn by hand: openings whose measures are known without the analysis.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "base_frame.h"
#include "cell_map.h"

namespace loafmark::analysis::drawn {

inline constexpr int px_per_mm = 10;
inline constexpr double unit = 1.0 / px_per_mm;

// Rectangle of crumb, its lower left corner the origin, heights upwards; all in mm.
class Face {
  public:
    Face(double width, double height)
        : width_(width),
          height_(height),
          probability_(cv::Mat::zeros(rows(height), rows(width), CV_32F)) {
        crumb_ = cv::Mat::ones(probability_.size(), CV_8U);
    }

    // Pixels whose centre lies in the ellipse; `turn` counter-clockwise, radians.
    Face& ellipse(double x, double y, double major, double minor, double turn = 0) {
        return where(
            [&](double px, double py) {
                const double dx = px - x, dy = py - y;
                const double a = dx * std::cos(turn) + dy * std::sin(turn);
                const double b = -dx * std::sin(turn) + dy * std::cos(turn);
                return a * a * 4 / (major * major) + b * b * 4 / (minor * minor) <= 1;
            },
            {x - major, y - major, 2 * major, 2 * major});
    }
    Face& disc(double x, double y, double diameter) { return ellipse(x, y, diameter, diameter); }
    Face& box(double x, double y, double w, double h) {
        return where(
            [&](double px, double py) { return px >= x && px < x + w && py >= y && py < y + h; });
    }
    // Asked of the pixels of the box alone.
    template <class Inside>
    Face& where(const Inside& inside, const cv::Rect2d& box = {-1e6, -1e6, 2e6, 2e6}) {
        for (int r = 0; r < probability_.rows; ++r) {
            const double y = height_ - (r + 0.5) * unit;
            if (y < box.y || y > box.y + box.height) continue;
            const int from = std::max(0, static_cast<int>(std::max(-1.0, box.x / unit) - 1));
            for (int c = from; c < probability_.cols && c * unit <= box.x + box.width; ++c)
                if (inside((c + 0.5) * unit, y)) probability_.at<float>(r, c) = 1;
        }
        return *this;
    }
    // No crumb there.
    Face& without(double x, double y, double w, double h) {
        crumb_(cv::Rect(rows(x), rows(height_ - y - h), rows(w), rows(h))).setTo(0);
        return *this;
    }

    [[nodiscard]] CellMap cells(double limit = 0.5) const {
        Openings openings = this->openings();
        return cell_map(openings, openings.level, crumb_, limit, unit);
    }
    [[nodiscard]] Openings openings() const {
        return {probability_, probability_ * 10, 0.5, PartingRule{}};
    }
    [[nodiscard]] BaseFrame frame() const {
        BaseFrame frame;
        frame.middle = {width_ / 2 * px_per_mm - 0.5, height_ * px_per_mm - 0.5};
        frame.unit_per_pixel = unit;
        frame.height = height_, frame.width = width_;
        return frame;
    }
    [[nodiscard]] const cv::Mat& probability() const { return probability_; }
    [[nodiscard]] const cv::Mat& crumb() const { return crumb_; }

  private:
    static int rows(double mm) { return static_cast<int>(std::lround(mm * px_per_mm)); }
    double width_, height_;
    cv::Mat probability_, crumb_;
};

}  // namespace loafmark::analysis::drawn
