#include "median_line.h"

#include "catch.h"

namespace loafmark::analysis {
namespace {

TEST_CASE("the median line runs through most points and heeds no notch") {
    std::vector<cv::Point2d> points;
    for (int x = 0; x < 40; ++x)
        points.emplace_back(x, x > 20 && x < 30 ? 50 : 3 + 0.5 * x);
    const MedianLine line = line_of_medians(points);
    CHECK(line.slope == Approx(0.5));
    CHECK(line.level == Approx(3));
    CHECK(line.above({2, 0}) == Approx(4));
}

TEST_CASE("no point, and a single one, have a level line") {
    CHECK(line_of_medians({}).slope == 0);
    CHECK(line_of_medians({}).level == 0);
    CHECK(line_of_medians({{7, 4}}).slope == 0);
    CHECK(line_of_medians({{7, 4}}).level == Approx(4));
}

}  // namespace
}  // namespace loafmark::analysis
