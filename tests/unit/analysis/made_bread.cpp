#include "made_bread.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis::made {
namespace {

constexpr int samples = 3;  // each pixel is the mean of 3 x 3
const cv::Scalar crust_colour(128, 78, 40), crumb_colour(224, 206, 172), cell_colour(122, 98, 70);

std::vector<cv::Point2f> in_floats(const Polyline& line) {
    return {line.begin(), line.end()};
}

// Millimetres to samples, their centres at integers.
cv::Matx33d samples_from_mm(const Table& table) {
    const double k = table.pixels_per_mm * samples;
    return {k, 0, -0.5, 0, k, -0.5, 0, 0, 1};
}

cv::Vec3b mixed(const cv::Scalar& from, const cv::Scalar& to, float share) {
    const cv::Scalar c = from + (to - from) * static_cast<double>(share);
    return {cv::saturate_cast<uchar>(c[0]), cv::saturate_cast<uchar>(c[1]),
            cv::saturate_cast<uchar>(c[2])};
}

void paint(cv::Mat& canvas, const Bread& bread, const Table& table) {
    const cv::Matx33d to_canvas = samples_from_mm(table);
    const double k = table.pixels_per_mm * samples;
    const cv::Mat face = filled(mapped(to_canvas, bread.outline), canvas.size());
    // Where the photo cuts the slice, the crust does not follow its edge.
    cv::Mat wide, depth;
    const int border = static_cast<int>(2 * bread.crust * k) + 2;
    cv::copyMakeBorder(face, wide, border, border, border, border, cv::BORDER_REPLICATE);
    cv::distanceTransform(wide, depth, cv::DIST_L2, cv::DIST_MASK_PRECISE);
    // As in bread, crust passes into crumb gradually: it is half-way there at `crust`.
    // A band of one colour round the crumb would be the loaf's side, seen aslant.
    cv::Mat share = depth(cv::Rect({border, border}, canvas.size())) / (1.2 * bread.crust * k);
    share = cv::min(cv::max(share - 1 / 3.0, 0.0), 1.0);
    share = share.mul(share).mul(3 - 2 * share);
    for (int y = 0; y < canvas.rows; ++y)
        for (int x = 0; x < canvas.cols; ++x)
            if (face.at<uchar>(y, x))
                canvas.at<cv::Vec3b>(y, x) =
                    mixed(crust_colour, crumb_colour, share.at<float>(y, x));
    constexpr int shift = 4;
    for (const Disc& cell : bread.cells) {
        const cv::Point2d c = mapped(to_canvas, cell.centre) * (1 << shift);
        cv::circle(canvas, {static_cast<int>(std::lround(c.x)), static_cast<int>(std::lround(c.y))},
                   static_cast<int>(std::lround(cell.diameter / 2 * k * (1 << shift))), cell_colour,
                   cv::FILLED, cv::LINE_8, shift);
    }
}

}  // namespace

Polyline dome(double width, double height) {
    Polyline line;
    for (int i = 0; i <= 180; ++i) {
        const double a = i * std::numbers::pi / 180;
        line.emplace_back(-width / 2 * std::cos(a), -height * std::sin(a));
    }
    return resampled(line, 0.5);
}

Polyline tin_loaf(double width, double height) {
    const double shoulder = 0.7 * height;
    Polyline line = {{-width / 2, 0}};
    for (int i = 0; i <= 180; ++i) {
        const double a = i * std::numbers::pi / 180;
        line.emplace_back(-width / 2 * std::cos(a), -shoulder - (height - shoulder) * std::sin(a));
    }
    line.emplace_back(width / 2, 0);
    return resampled(line, 0.5);
}

Polyline placed(const Polyline& outline, cv::Point2d at, double turn_deg) {
    const double a = turn_deg * std::numbers::pi / 180;
    return mapped({std::cos(a), -std::sin(a), at.x, std::sin(a), std::cos(a), at.y, 0, 0, 1},
                  outline);
}

std::vector<Disc> scattered(const Polyline& outline, const DiscPlan& plan, std::uint64_t seed) {
    const std::vector<cv::Point2f> polygon = in_floats(outline);
    const cv::Rect2f box = cv::boundingRect(polygon);
    cv::RNG random(seed);
    std::vector<Disc> discs;
    for (int tries = 0; tries < 60 * plan.count; ++tries) {
        if (static_cast<int>(discs.size()) == plan.count) break;
        const Disc disc{{random.uniform(box.x, box.br().x), random.uniform(box.y, box.br().y)},
                        random.uniform(plan.least_diameter, plan.most_diameter)};
        const double inside = cv::pointPolygonTest(polygon, disc.centre, true);
        if (inside < plan.clear_of_outline + disc.diameter / 2) continue;
        const bool free = std::none_of(discs.begin(), discs.end(), [&](const Disc& other) {
            return cv::norm(other.centre - disc.centre) <
                   (other.diameter + disc.diameter) / 2 + 0.6;
        });
        if (free) discs.push_back(disc);
    }
    return discs;
}

Bread bread_of(const Polyline& outline, std::uint64_t seed) {
    DiscPlan plan;
    plan.count = static_cast<int>(area_inside(outline) / 12);
    return {outline, 3, scattered(outline, plan, seed)};
}

cv::Matx33d photo_from_mm(const Table& table) {
    const double k = table.pixels_per_mm;
    return {k, 0, -0.5, 0, k, -0.5, 0, 0, 1};
}

cv::Mat photo_of_bread(const Table& table, const std::vector<Bread>& slices) {
    cv::Mat canvas(table.photo * samples, CV_8UC3,
                   cv::Scalar(table.ground[0], table.ground[1], table.ground[2]));
    for (const Bread& bread : slices)
        paint(canvas, bread, table);
    cv::Mat photo, noise(table.photo, CV_16SC3);
    cv::resize(canvas, photo, table.photo, 0, 0, cv::INTER_AREA);
    cv::RNG(7).fill(noise, cv::RNG::NORMAL, 0, table.noise);
    cv::add(photo, noise, photo, cv::noArray(), CV_8U);
    return photo;
}

double overlap(const Polyline& a, const Polyline& b, double cell) {
    const std::vector<cv::Point2f> pa = in_floats(a), pb = in_floats(b);
    const cv::Rect box = cv::boundingRect(pa) | cv::boundingRect(pb);
    const cv::Matx33d grid_from_units(1 / cell, 0, -box.x / cell, 0, 1 / cell, -box.y / cell, 0, 0,
                                      1);
    const cv::Size size(static_cast<int>(box.width / cell) + 2,
                        static_cast<int>(box.height / cell) + 2);
    const cv::Mat in_a = filled(mapped(grid_from_units, a), size);
    const cv::Mat in_b = filled(mapped(grid_from_units, b), size);
    return static_cast<double>(cv::countNonZero(in_a & in_b)) / cv::countNonZero(in_a | in_b);
}

Distance distance(const Polyline& line, const Polyline& other) {
    const std::vector<cv::Point2f> polygon = in_floats(other);
    Distance result;
    for (const cv::Point2d& p : line) {
        const double d = std::abs(cv::pointPolygonTest(polygon, p, true));
        result.mean += d / static_cast<double>(line.size());
        result.most = std::max(result.most, d);
    }
    return result;
}

}  // namespace loafmark::analysis::made
