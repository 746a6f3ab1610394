#include "overlay.h"

#include <algorithm>
#include <cmath>
#include <sstream>

#include <opencv2/imgproc.hpp>

#include "pictures.h"

namespace loafmark::analysis {
namespace {

// R, G, B. Told apart by people who do not see red or green, and from any bread (which is warm).
const cv::Scalar cell_colour(0, 140, 255);
const cv::Scalar outline_colour(204, 51, 153);
const cv::Scalar left_out_colour(150, 150, 150);
const cv::Scalar ink(40, 36, 32);
const cv::Scalar paper(250, 247, 240);
constexpr double cavity_units = 10;

std::string number(double value, int decimals) {
    std::ostringstream text;
    text.setf(std::ios::fixed);
    text.precision(decimals);
    text << value;
    return text.str();
}

class Drawing {
  public:
    explicit Drawing(const OverlayInput& input)
        : input_(input),
          u_(input.frame.unit_per_pixel),
          margin_(static_cast<int>(26 / u_)),
          canvas_(make_canvas()) {}

    Picture finished() {
        cells();
        polyline(input_.outline, outline_colour, 3);
        if (input_.whole) height();
        ring();
        scale_bar();
        return picture_of(canvas_);
    }

  private:
    // The slice with a band of paper to its right for what is drawn at true scale.
    cv::Mat make_canvas() const {
        cv::Mat canvas(input_.rgb.rows, input_.rgb.cols + margin_, CV_8UC3, paper);
        input_.rgb.copyTo(canvas.colRange(0, input_.rgb.cols));
        return canvas;
    }

    void polyline(const Polyline& line, const cv::Scalar& colour, int width) {
        std::vector<cv::Point> points;
        for (const cv::Point2d& p : line)
            points.emplace_back(static_cast<int>(std::lround(p.x)),
                                static_cast<int>(std::lround(p.y)));
        cv::polylines(canvas_, points, true, colour, width, cv::LINE_AA);
    }

    void cells() {
        const cv::Mat& labels = input_.cells.labels;
        const auto& list = input_.cells.cells;
        const int stripe = std::max(4, static_cast<int>(1.2 / u_));
        for (int y = 0; y < labels.rows; ++y)
            for (int x = 0; x < labels.cols; ++x) {
                const int label = labels.at<int>(y, x);
                if (label == 0) continue;
                const Cell& cell = list[static_cast<std::size_t>(label - 1)];
                if (!cell.counted) continue;
                const bool rim = is_rim(labels, x, y);
                const bool hatch = cell.equivalent_diameter >= cavity_units && (x + y) % stripe < 2;
                if (rim || hatch) paint(x, y, cell_colour);
            }
    }

    static bool is_rim(const cv::Mat& labels, int x, int y) {
        const int label = labels.at<int>(y, x);
        return x == 0 || y == 0 || x + 1 == labels.cols || y + 1 == labels.rows ||
               labels.at<int>(y, x - 1) != label || labels.at<int>(y, x + 1) != label ||
               labels.at<int>(y - 1, x) != label || labels.at<int>(y + 1, x) != label;
    }

    void paint(int x, int y, const cv::Scalar& colour) {
        canvas_.at<cv::Vec3b>(y, x) = {static_cast<uchar>(colour[0]), static_cast<uchar>(colour[1]),
                                       static_cast<uchar>(colour[2])};
    }

    void height() {
        cv::line(canvas_, input_.base.left, input_.base.right, outline_colour, 2, cv::LINE_AA);
        cv::arrowedLine(canvas_, input_.shape.crown_foot, input_.shape.crown, outline_colour, 2,
                        cv::LINE_AA, 0, 0.03);
        cv::arrowedLine(canvas_, input_.shape.crown, input_.shape.crown_foot, outline_colour, 2,
                        cv::LINE_AA, 0, 0.03);
        if (input_.has_scale)
            text(number(input_.shape.height * u_, 1) + " mm",
                 (input_.shape.crown + input_.shape.crown_foot) / 2 + cv::Point2d(1 / u_, 0), true);
    }

    void ring() {
        const auto found = input_.cells.values.find(Measure::coarseness);
        if (found == input_.cells.values.end()) return;
        const double radius = found->second.value / 2 / u_;
        const double x = input_.rgb.cols + margin_ / 2.0;
        const double y = 16 / u_;
        const double left = input_.rgb.cols + 1.5 / u_;
        double line = y + 5 / u_;
        const auto say = [&](const std::string& words) {
            text(words, {left, line}, false);
            line += 3.6 / u_;
        };
        // A ring wider than the margin would run over the slice and out of the picture.
        const bool fits = radius < std::min(y, margin_ / 2.0) - 1 / u_;
        if (fits) {
            cv::circle(canvas_, cv::Point2d(x, y), static_cast<int>(std::lround(radius)),
                       cell_colour, 3, cv::LINE_AA);
            line += std::max(radius, 3 / u_);
        }
        say("half of the");
        say("opening lies");
        if (fits || input_.has_scale) {
            say("in cells wider");
            say("than this");
            if (input_.has_scale) say(number(found->second.value, 2) + " mm");
        } else {
            say("in a few cells,");
            say("too wide to");
            say("draw here");
        }
    }

    void scale_bar() {
        if (!input_.has_scale) return;
        const double length = 20 / u_;
        const cv::Point2d from(input_.rgb.cols + (margin_ - length) / 2, canvas_.rows - 8 / u_);
        cv::line(canvas_, from, from + cv::Point2d(length, 0), ink, 5, cv::LINE_AA);
        text("20 mm", from + cv::Point2d(0, 5 / u_), false);
    }

    // `haloed`: over the photo, where ink alone would drown.
    void text(const std::string& words, cv::Point2d at, bool haloed) {
        const double size = 2.2 / u_ / 22;
        if (haloed)
            cv::putText(canvas_, words, at, cv::FONT_HERSHEY_SIMPLEX, size * 1.4, paper, 8,
                        cv::LINE_AA);
        cv::putText(canvas_, words, at, cv::FONT_HERSHEY_SIMPLEX, haloed ? size * 1.4 : size, ink,
                    2, cv::LINE_AA);
    }

    const OverlayInput& input_;
    double u_;
    int margin_;
    cv::Mat canvas_;
};

}  // namespace

Picture draw_overlay(const OverlayInput& input) {
    return Drawing(input).finished();
}

}  // namespace loafmark::analysis
