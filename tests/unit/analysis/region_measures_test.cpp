#include "region_measures.h"

#include <cmath>
#include <functional>
#include <numbers>

#include "catch.h"

namespace loafmark::analysis {
namespace {

using Rule = std::function<bool(double row, double column)>;

// On the grid of the reference: 201 x 201, tested at whole rows and columns.
Region region_of(const Rule& inside) {
    cv::Mat labels = cv::Mat::zeros(201, 201, CV_32S);
    for (int row = 0; row < labels.rows; ++row)
        for (int column = 0; column < labels.cols; ++column)
            if (inside(row, column)) labels.at<int>(row, column) = 1;
    const std::vector<Region> regions = regions_of(labels);
    REQUIRE(regions.size() == 1);
    return regions.front();
}

Rule disc(double radius, double centre_row, double centre_column) {
    return [=](double row, double column) {
        const double dr = row - centre_row, dc = column - centre_column;
        return dr * dr + dc * dc <= radius * radius;
    };
}

Rule ellipse(double a, double b, double degrees, double centre_row, double centre_column) {
    const double t = degrees * std::numbers::pi / 180;
    return [=](double row, double column) {
        const double dx = column - centre_column, dy = row - centre_row;
        const double u = dx * std::cos(t) + dy * std::sin(t);
        const double v = -dx * std::sin(t) + dy * std::cos(t);
        return std::pow(u / a, 2) + std::pow(v / b, 2) <= 1;
    };
}

struct Expected {
    const char* shape;
    Rule inside;
    int area;
    double diameter, centre_row, centre_column;
};

// Values: scikit-image 0.19.3, regionprops of masks by the same rules.
TEST_CASE("digitised shapes have the areas, diameters and centroids of scikit-image") {
    const std::vector<Expected> table = {
        {"disc 3", disc(3, 100, 100), 29, 6.076507779746499, 100, 100},
        {"disc 3, off the grid", disc(3, 100.37, 99.62), 30, 6.180387232371033, 100.36666666666666,
         99.63333333333334},
        {"disc 10", disc(10, 100, 100), 317, 20.090219901261573, 100, 100},
        {"disc 40, off the grid", disc(40, 100.37, 99.62), 5030, 80.0274634735968,
         100.38270377733599, 99.59701789264413},
        {"disc 80, off the grid", disc(80, 100.37, 99.62), 20114, 160.03106011897523,
         100.37357064731033, 99.62081137516158},
        {"ellipse 60 x 30 at 30 degrees", ellipse(60, 30, 30, 100.25, 99.5), 5655,
         84.85381326420955, 100.22917771883289, 99.48753315649867},
        {"ellipse 70 x 14 at 75 degrees", ellipse(70, 14, 75, 100, 100.3), 3080, 62.62250232771205,
         99.97240259740259, 100.26493506493506},
        {"rectangle",
         [](double row, double column) {
             return row >= 50 && row <= 90 && column >= 60 && column <= 140;
         },
         3321, 65.02636794459211, 70, 100},
        {"annulus",
         [](double row, double column) {
             const double f = std::pow(row - 100, 2) + std::pow(column - 100, 2);
             return f > 400 && f <= 1600;
         },
         3768, 69.26446855756632, 100, 100},
        {"half disc",
         [](double row, double column) { return disc(40, 100, 100)(row, column) && column >= 100; },
         2553, 57.01386285552726, 100, 116.71680376028202}};
    for (const Expected& expected : table) {
        CAPTURE(expected.shape);
        const Region region = region_of(expected.inside);
        CHECK(region.pixels == expected.area);
        CHECK(equivalent_diameter(region.pixels) == Approx(expected.diameter).epsilon(1e-9));
        CHECK(region.centroid.y == Approx(expected.centre_row).epsilon(1e-9));
        CHECK(region.centroid.x == Approx(expected.centre_column).epsilon(1e-9));
    }
}

TEST_CASE("regions stand at their numbers, and a number that no pixel bears is empty") {
    cv::Mat labels = cv::Mat::zeros(3, 4, CV_32S);
    labels.at<int>(0, 1) = 3;
    labels.at<int>(2, 3) = 3;
    labels.at<int>(1, 0) = 1;
    const std::vector<Region> regions = regions_of(labels);
    REQUIRE(regions.size() == 3);
    CHECK(regions[0].pixels == 1);
    CHECK(regions[1].pixels == 0);
    CHECK(regions[2].pixels == 2);
    CHECK(regions[2].centroid == cv::Point2d(2, 1));
    CHECK(regions_of(cv::Mat::zeros(3, 4, CV_32S)).empty());
}

TEST_CASE("the disc of a disc's area has its diameter") {
    CHECK(equivalent_diameter(std::numbers::pi * 25) == Approx(10));
    CHECK(equivalent_diameter(0) == 0);
}

}  // namespace
}  // namespace loafmark::analysis
