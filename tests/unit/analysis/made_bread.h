// Photos of bread seen from straight above, drawn from numbers that the tests then look for.
#pragma once

#include <cstdint>
#include <vector>

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis::made {

// Outlines of loaves, in mm, y down: the middle of the base is the origin, and points are about
// half a millimetre apart. The dome is half an ellipse; the tin loaf has upright sides below one.
[[nodiscard]] Polyline dome(double width, double height);
[[nodiscard]] Polyline tin_loaf(double width, double height);

// The outline turned about its origin (clockwise as seen) and then moved to `at`.
[[nodiscard]] Polyline placed(const Polyline& outline, cv::Point2d at, double turn_deg = 0);

struct Disc {
    cv::Point2d centre;
    double diameter = 0;
};

struct DiscPlan {
    int count = 0;
    double least_diameter = 1, most_diameter = 3;
    double clear_of_outline = 5;  // from a disc's rim
};

// Discs within `outline` that keep 0.6 mm from each other; fewer than `count` where they do not
// fit.
[[nodiscard]] std::vector<Disc> scattered(const Polyline& outline, const DiscPlan& plan,
                                          std::uint64_t seed);

// In mm from the photo's top-left corner.
struct Bread {
    Polyline outline;
    double crust = 3;
    std::vector<Disc> cells;  // darker than the crumb
};

// A loaf with some hundred round cells of 1 to 3 mm.
[[nodiscard]] Bread bread_of(const Polyline& outline, std::uint64_t seed = 1);

struct Table {
    cv::Size photo{800, 700};
    double pixels_per_mm = 6;
    cv::Vec3b ground{232, 234, 236};
    double noise = 1.5;  // standard deviation, of 255
};

// Millimetres to photo pixels, whose centres are at integers.
[[nodiscard]] cv::Matx33d photo_from_mm(const Table& table);

// CV_8UC3, R G B.
[[nodiscard]] cv::Mat photo_of_bread(const Table& table, const std::vector<Bread>& slices);

// Area that both cover over area that either does, on a grid of `cell` units.
[[nodiscard]] double overlap(const Polyline& a, const Polyline& b, double cell);

// How far points of `line` lie from the closed polyline `other`: the mean and the most.
struct Distance {
    double mean = 0, most = 0;
};
[[nodiscard]] Distance distance(const Polyline& line, const Polyline& other);

}  // namespace loafmark::analysis::made
