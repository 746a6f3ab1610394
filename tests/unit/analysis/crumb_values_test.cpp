#include "crumb_values.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <opencv2/imgproc.hpp>

#include "catch.h"

namespace loafmark::analysis {
namespace {

struct Disc {
    double x, y, diameter;  // mm
};

constexpr int px_per_mm = 10;

// A crumb of 30 x 20 mm, 5 mm from the frame's sides, with round openings.
struct Face {
    Openings openings;
    Crumb crumb;
    cv::Mat visible;
    KnownError known;
    double limit = 0.5;

    explicit Face(const std::vector<Disc>& discs, cv::Size size_mm = {40, 30}) {
        const cv::Size size = size_mm * px_per_mm;
        openings.probability = cv::Mat::zeros(size, CV_32F);
        for (const Disc& disc : discs)
            openings.probability.setTo(1, drawn(disc));
        cv::distanceTransform(openings.probability > 0.5, openings.parting, cv::DIST_L2, 5);
        crumb.mask = cv::Mat::zeros(size, CV_8U);
        const int rim = 5 * px_per_mm;
        crumb.mask(cv::Rect(rim, rim, size.width - 2 * rim, size.height - 2 * rim)).setTo(1);
        crumb.area = 0.01 * cv::countNonZero(crumb.mask);
        visible = cv::Mat::ones(size, CV_8U);
    }

    [[nodiscard]] cv::Mat drawn(const Disc& disc) const {
        cv::Mat mask = cv::Mat::zeros(openings.probability.size(), CV_8U);
        for (int y = 0; y < mask.rows; ++y)
            for (int x = 0; x < mask.cols; ++x)
                if (std::hypot(x - disc.x * px_per_mm, y - disc.y * px_per_mm) <=
                    disc.diameter / 2 * px_per_mm)
                    mask.at<uchar>(y, x) = 255;
        return mask;
    }
    // What of those discs lies in the crumb, pixel by pixel, in mm2.
    [[nodiscard]] double area_of(const std::vector<Disc>& discs) const {
        double area = 0;
        for (const Disc& disc : discs)
            area += 0.01 * cv::countNonZero(drawn(disc) & (crumb.mask > 0));
        return area;
    }
    [[nodiscard]] CrumbResult values(double length_error = 0, bool cut_by_frame = false) const {
        BaseFrame frame;
        frame.middle = {crumb.mask.cols / 2.0, crumb.mask.rows - 5.0 * px_per_mm};
        frame.unit_per_pixel = 1.0 / px_per_mm;
        if (!cut_by_frame) {
            frame.height = crumb.mask.rows / 10.0 - 10;
            frame.width = crumb.mask.cols / 10.0 - 10;
        }
        return crumb_values(
            {openings, crumb, visible, frame, limit, length_error, known, cut_by_frame, {}});
    }
};

double value(const CrumbResult& result, Measure measure) {
    return result.values.at(measure).value;
}

TEST_CASE("openness, count and sizes of discs are those that were drawn") {
    const std::vector<Disc> discs = {{10, 10, 4}, {20, 10, 4}, {25, 18, 6}};
    const Face face(discs);
    const CrumbResult result = face.values();
    CHECK(value(result, Measure::crumb_area) == Approx(600));
    CHECK(value(result, Measure::openness) == Approx(face.area_of(discs) / 600));
    CHECK(value(result, Measure::cell_count) == 3);
    CHECK(value(result, Measure::cells_per_cm2) == Approx(0.5));
    CHECK(value(result, Measure::cell_diameter_number_d50) == Approx(4).epsilon(0.01));
    CHECK(value(result, Measure::cell_diameter_number_mean) == Approx(14.0 / 3).epsilon(0.01));
    CHECK(value(result, Measure::cell_diameter_area_d10) == Approx(4).epsilon(0.01));
    // Areas as 16, 16 and 36: more than half lies in the largest.
    CHECK(value(result, Measure::cell_diameter_area_d50) == Approx(6).epsilon(0.01));
    CHECK(value(result, Measure::cell_diameter_area_mean) == Approx(344.0 / 68).epsilon(0.01));
    CHECK(result.values.at(Measure::coarseness) ==
          result.values.at(Measure::cell_diameter_area_d50));
}

TEST_CASE("each cell has its area, diameter and centre under its number in the label map") {
    const CrumbResult result = Face({{10, 10, 4}, {26, 14, 6}}).values();
    REQUIRE(result.cells.size() == 2);
    for (const Cell& cell : result.cells) {
        CHECK(cell.area == Approx(cv::countNonZero(result.labels == cell.id) * 0.01));
        CHECK(cell.equivalent_diameter == Approx(std::sqrt(4 * cell.area / std::numbers::pi)));
        CHECK(cell.counted);
    }
    CHECK(result.cells[0].id == 1);
    CHECK(result.cells[0].centre.x == Approx(10));
    CHECK(result.cells[0].centre.y == Approx(10));
    CHECK(result.cells[1].centre.x == Approx(26));
    CHECK(result.cells[1].centre.y == Approx(14));
}

TEST_CASE("cells below the limit count as solid") {
    const std::vector<Disc> large = {{10, 10, 4}};
    Face face({{10, 10, 4}, {20, 10, 0.4}, {25, 18, 0.3}});
    const CrumbResult result = face.values();
    REQUIRE(result.cells.size() == 3);
    CHECK(std::count_if(result.cells.begin(), result.cells.end(),
                        [](const Cell& cell) { return cell.counted; }) == 1);
    CHECK(value(result, Measure::cell_count) == 1);
    CHECK(value(result, Measure::openness) == Approx(face.area_of(large) / 600));
    face.limit = 5;
    CHECK(value(face.values(), Measure::cell_count) == 0);
}

TEST_CASE("a cell with its centroid in the crust is not counted, its part in the crumb is open") {
    const Disc inside{20, 15, 4}, outside{4, 15, 4};  // the crumb starts at 5
    const Face face({inside, outside});
    const CrumbResult result = face.values();
    CHECK(value(result, Measure::cell_count) == 1);
    CHECK(value(result, Measure::openness) == Approx(face.area_of({inside, outside}) / 600));
}

TEST_CASE("a crumb without cells has an openness and a count of 0, and no sizes") {
    const CrumbResult result = Face({}).values();
    CHECK(value(result, Measure::openness) == 0);
    CHECK(value(result, Measure::cell_count) == 0);
    CHECK(value(result, Measure::cells_per_cm2) == 0);
    CHECK_FALSE(result.values.contains(Measure::coarseness));
    CHECK_FALSE(result.values.contains(Measure::cell_diameter_number_d50));
}

TEST_CASE("intervals span what the segmenter is known to miss") {
    Face face({{10, 10, 4}, {25, 15, 4}});
    face.known = {.openness_below = 0.01,
                  .openness_above = 0.3,
                  .density_least = 0.5,
                  .density_most = 2,
                  .diameter_least = 0.8,
                  .diameter_most = 1.5};
    const CrumbResult result = face.values();
    const Estimate openness = result.values.at(Measure::openness);
    CHECK(openness.low == Approx(openness.value - 0.01));
    CHECK(openness.high == Approx(openness.value + 0.3).epsilon(1e-3));  // and the crust
    const Estimate density = result.values.at(Measure::cells_per_cm2);
    CHECK(density.low == Approx(0.5 * density.value));
    CHECK(density.high == Approx(2 * density.value).epsilon(0.01));
    const Estimate coarseness = result.values.at(Measure::coarseness);
    CHECK(coarseness.low == Approx(0.8 * coarseness.value));
    CHECK(coarseness.high == Approx(1.5 * coarseness.value));

    face.known.openness_below = face.known.openness_above = 2;
    const Estimate bounded = face.values().values.at(Measure::openness);
    CHECK(bounded.low == 0);
    CHECK(bounded.high == 1);
}

TEST_CASE("an uncertain scale widens lengths once, densities twice and counts not at all") {
    const CrumbResult result = Face({{10, 10, 4}, {25, 15, 4}}).values(0.01);
    const auto half_width = [&](Measure measure) {
        const Estimate& e = result.values.at(measure);
        return (e.value - e.low) / e.value;  // a thicker crust moves these upwards only
    };
    CHECK(half_width(Measure::coarseness) == Approx(0.0196).epsilon(1e-3));
    CHECK(half_width(Measure::cells_per_cm2) == Approx(0.0392).epsilon(1e-3));
    CHECK(half_width(Measure::cell_count) == 0);
}

TEST_CASE("where the frame cuts a pattern, its density is the true one on average") {
    // Discs 5 mm apart: 4 a cm2. The window's place on them is left to chance.
    constexpr double truth = 4;
    constexpr int places = 5;
    double corrected = 0;
    for (int place = 0; place < places; ++place) {
        std::vector<Disc> pattern;
        for (double y = -5; y < 40; y += 5)
            for (double x = -5; x < 50; x += 5)
                pattern.push_back({x + place * 1.0, y + place * 2.0, 3});
        Face face(pattern);
        face.crumb.mask.setTo(1);
        face.crumb.area = 1200;
        corrected += value(face.values(0, true), Measure::cells_per_cm2);
    }
    CHECK(corrected / places == Approx(truth).epsilon(0.03));
}

}  // namespace
}  // namespace loafmark::analysis
