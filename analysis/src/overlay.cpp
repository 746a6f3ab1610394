#include "overlay.h"

#include <algorithm>
#include <cmath>
#include <sstream>

#include <opencv2/imgproc.hpp>

#include "cell_map.h"
#include "pictures.h"

namespace loafmark::analysis {
namespace {

// R, G, B. Told apart by people who do not see red or green, and from any bread (which is warm).
const cv::Scalar cell_colour(0, 140, 255);
const cv::Scalar outline_colour(204, 51, 153);
const cv::Scalar small_colour(90, 90, 90);
const cv::Scalar crust_cell_colour(0, 158, 115);
const cv::Scalar crust_colour(240, 240, 240);
const cv::Scalar ink(40, 36, 32);
const cv::Scalar paper(250, 247, 240);

constexpr double band_height = 92;  // units

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
          margin_(input.legend ? static_cast<int>(34 / u_) : 0),
          canvas_(make_canvas()),
          below_ring_(8 / u_) {}

    Picture finished() {
        crust();
        cells();
        polyline(input_.outline, outline_colour, 3);
        if (input_.whole) height();
        if (input_.legend) {
            ring();
            legend();
            scale_bar();
        }
        return picture_of(canvas_);
    }

  private:
    // The slice with a band of paper to its right for what is drawn at true scale; a low slice
    // stands on paper too, so that the band has room for the ring, the legend and the bar.
    cv::Mat make_canvas() const {
        const int rows = std::max(input_.rgb.rows, static_cast<int>(band_height / u_));
        cv::Mat canvas(rows, input_.rgb.cols + margin_, CV_8UC3, paper);
        input_.rgb.copyTo(canvas(cv::Rect({0, 0}, input_.rgb.size())));
        return canvas;
    }

    void polyline(const Polyline& line, const cv::Scalar& colour, int width) {
        std::vector<cv::Point> points;
        for (const cv::Point2d& p : line)
            points.emplace_back(static_cast<int>(std::lround(p.x)),
                                static_cast<int>(std::lround(p.y)));
        cv::polylines(canvas_, points, true, colour, width, cv::LINE_AA);
    }

    // Sparse stripes over what lies inside the outline and is no crumb.
    void crust() {
        const cv::Mat face = filled(input_.outline, input_.rgb.size());
        const int stripe = std::max(6, static_cast<int>(1.0 / u_));
        for (int y = 0; y < face.rows; ++y)
            for (int x = 0; x < face.cols; ++x) {
                if (!face.at<uchar>(y, x) || input_.crumb.at<uchar>(y, x)) continue;
                ++left_out_;
                if ((x + 2 * y) % (2 * stripe) < 2) paint(x, y, crust_colour);
            }
    }

    // Why a cell is drawn as it is.
    enum class Fate { counted, small, in_crust };

    [[nodiscard]] Fate fate_of(const Cell& cell) const {
        if (cell.counted) return Fate::counted;
        return cell.equivalent_diameter < input_.limit ? Fate::small : Fate::in_crust;
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
                const Fate fate = fate_of(cell);
                const bool cavity = fate == Fate::counted && cell.equivalent_diameter >= cavity_mm;
                if (!is_rim(labels, x, y) && !(cavity && (x + y) % stripe < 2)) continue;
                paint(x, y,
                      fate == Fate::counted ? cell_colour
                      : fate == Fate::small ? small_colour
                                            : crust_cell_colour);
                (fate == Fate::small      ? any_small_
                 : fate == Fate::in_crust ? any_in_crust_
                                          : any_counted_) = true;
                any_cavity_ = any_cavity_ || cavity;
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
        if (!input_.has_scale) return;
        const std::string words = number(input_.shape.height * u_, 1) + " mm";
        const double wide =
            cv::getTextSize(words, cv::FONT_HERSHEY_SIMPLEX, haloed_size(), 8, {}).width;
        cv::Point2d at =
            (input_.shape.crown + input_.shape.crown_foot) / 2 + cv::Point2d(1 / u_, 0);
        if (at.x + wide > input_.rgb.cols) at.x -= wide + 2 / u_;
        text(words, at, true);
    }

    [[nodiscard]] double text_size() const { return 2.2 / u_ / 22; }
    [[nodiscard]] double haloed_size() const { return 1.4 * text_size(); }

    struct Entry {
        cv::Scalar colour;
        bool striped = false;
        std::vector<std::string> words;
    };

    // What is drawn, and what was left out and why, in words.
    [[nodiscard]] std::vector<Entry> entries() const {
        const std::string smallest =
            input_.has_scale ? number(input_.limit, 2) + " mm" : "4 photo pixels";
        std::vector<Entry> list = {{outline_colour, false, {"edge of the slice"}}};
        if (any_counted_) list.push_back({cell_colour, false, {"cell, counted"}});
        if (any_cavity_)
            list.push_back({cell_colour, true, {"cavity: a cell of", "10 mm and more"}});
        if (any_small_)
            list.push_back({small_colour,
                            false,
                            {"left out: smaller", "than " + smallest + ",", "taken as bread"}});
        if (any_in_crust_)
            list.push_back(
                {crust_cell_colour, false, {"not counted: its", "middle lies in the", "crust"}});
        if (left_out_ > 0)
            list.push_back({crust_colour, true, {"left out: crust"}});
        else
            list.push_back({crust_colour, true, {"no crust told", "from the crumb"}});
        return list;
    }

    void legend() {
        const std::vector<Entry> list = entries();
        double lines = 0;
        for (const Entry& entry : list)
            lines += static_cast<double>(entry.words.size()) + 0.5;
        const double room = (canvas_.rows - 15 / u_ - below_ring_) / lines;
        const double pitch = std::clamp(room, 1.6 / u_, 3.0 / u_);
        const double left = input_.rgb.cols + 1.5 / u_, swatch = 3 / u_;
        double y = below_ring_ + pitch;
        for (const Entry& entry : list) {
            const cv::Rect box(static_cast<int>(left), static_cast<int>(y - 0.75 * pitch),
                               static_cast<int>(swatch), static_cast<int>(0.8 * pitch));
            sample(box & cv::Rect({0, 0}, canvas_.size()), entry);
            for (const std::string& line : entry.words) {
                cv::putText(canvas_, line, cv::Point2d(left + swatch + 1 / u_, y),
                            cv::FONT_HERSHEY_SIMPLEX, pitch / 40, ink, 1, cv::LINE_AA);
                y += pitch;
            }
            y += pitch / 2;
        }
    }

    void sample(const cv::Rect& box, const Entry& entry) {
        if (entry.striped) {
            const bool pale = entry.colour == crust_colour;
            for (int y = box.y; y < box.br().y; ++y)
                for (int x = box.x; x < box.br().x; ++x)
                    if (pale || (x + y) % 6 < 2)
                        paint(x, y,
                              pale && (x + 2 * y) % 10 >= 3 ? cv::Scalar(150, 120, 90)
                                                            : entry.colour);
        }
        cv::rectangle(canvas_, box,
                      entry.striped && entry.colour == crust_colour ? ink : entry.colour, 2);
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
        below_ring_ = line + 1 / u_;
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
        const double size = haloed ? haloed_size() : text_size();
        if (haloed)
            cv::putText(canvas_, words, at, cv::FONT_HERSHEY_SIMPLEX, size, paper, 8, cv::LINE_AA);
        cv::putText(canvas_, words, at, cv::FONT_HERSHEY_SIMPLEX, size, ink, 2, cv::LINE_AA);
    }

    const OverlayInput& input_;
    double u_;
    int margin_;
    cv::Mat canvas_;
    bool any_counted_ = false, any_cavity_ = false, any_small_ = false, any_in_crust_ = false;
    int left_out_ = 0;  // pixels of crust
    double below_ring_ = 0;
};

}  // namespace

Picture draw_overlay(const OverlayInput& input) {
    return Drawing(input).finished();
}

}  // namespace loafmark::analysis
