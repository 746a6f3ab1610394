#include "crumb.h"

#include <cmath>

#include <opencv2/imgproc.hpp>

#include "catch.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

constexpr double unit_per_pixel = 0.1;

made::Table frame_sized() {
    made::Table table;
    table.photo = {900, 700};
    table.pixels_per_mm = 1 / unit_per_pixel;
    return table;
}

made::Bread loaf(double crust) {
    made::Bread bread = made::bread_of(made::placed(made::dome(70, 50), {45, 60}));
    bread.crust = crust;
    return bread;
}

struct Found {
    Crumb crumb;
    double mean_crust = 0, thickest = 0, thinnest = 1e9;  // mm, away from the base's two corners
};

Found crumb_of(const made::Bread& bread) {
    const made::Table table = frame_sized();
    const cv::Mat photo = made::photo_of_bread(table, {bread});
    const Polyline outline = mapped(made::photo_from_mm(table), bread.outline);
    Found found;
    found.crumb = find_crumb(photo, outline, unit_per_pixel);
    std::vector<std::vector<cv::Point>> rims;
    cv::findContours(found.crumb.mask, rims, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    REQUIRE(rims.size() == 1);
    const std::vector<cv::Point2f> polygon(outline.begin(), outline.end());
    int count = 0;
    for (const cv::Point& p : rims.front()) {
        // Averaged along 10 mm, the crust of a sharp corner is that of both its sides.
        if (std::abs(p.x - 450) > 250) continue;
        const double depth = cv::pointPolygonTest(polygon, p, true) * unit_per_pixel;
        found.mean_crust += (depth - found.mean_crust) / ++count;
        found.thickest = std::max(found.thickest, depth);
        found.thinnest = std::min(found.thinnest, depth);
    }
    return found;
}

TEST_CASE("a crust of known thickness ends within 0.3 mm of its end") {
    for (const double crust : {1.5, 3.0, 5.0}) {
        CAPTURE(crust);
        const Found found = crumb_of(loaf(crust));
        CHECK(found.mean_crust == Approx(crust).margin(0.2));
        CHECK(found.thinnest > crust - 0.3);
        CHECK(found.thickest < crust + 0.3);
        CHECK(found.crumb.crust_seen);
        REQUIRE(found.crumb.crust_depth.size() == found.crumb.rim.size());
    }
}

TEST_CASE("the crumb's area is that of its pixels, in square millimetres") {
    const Found found = crumb_of(loaf(3));
    CHECK(found.crumb.area == Approx(cv::countNonZero(found.crumb.mask) * 0.01));
    CHECK(found.crumb.area < area_inside(loaf(3).outline));
}

TEST_CASE("a slice whose crust was cut away is crumb to its edge") {
    made::Bread bread = loaf(0);
    const Found found = crumb_of(bread);
    CHECK(found.crumb.area == Approx(area_inside(bread.outline)).epsilon(0.02));
    CHECK_FALSE(found.crumb.crust_seen);
}

TEST_CASE("cells below the crust do not pass for crust") {
    made::Bread bread = loaf(2);
    // A row of wide dark cells right below the crown's crust.
    for (int i = -2; i <= 2; ++i)
        bread.cells.push_back({{45.0 + 7 * i, 17.5 + 0.6 * i * i}, 5});
    const Found found = crumb_of(bread);
    CHECK(found.mean_crust == Approx(2).margin(0.2));
    CHECK(found.thickest < 2.6);
}

}  // namespace
}  // namespace loafmark::analysis
