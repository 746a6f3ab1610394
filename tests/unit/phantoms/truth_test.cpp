#include "phantoms/truth.h"

#include <cmath>

#include "catch.h"

using namespace loafmark;
using namespace loafmark::phantoms;

namespace {

constexpr int side = 201;

Section discs(const std::vector<std::array<double, 3>>& row_column_radius, double mm_per_pixel) {
    std::vector<std::uint8_t> open(side * side, 0);
    for (const auto& [row, column, radius] : row_column_radius)
        for (int j = 0; j < side; ++j)
            for (int i = 0; i < side; ++i)
                if ((j - row) * (j - row) + (i - column) * (i - column) <= radius * radius)
                    open[static_cast<std::size_t>(j * side + i)] = 1;
    Section section = label_openings(open, side, side, mm_per_pixel, {0, 0}, 0);
    section.crumb.assign(open.size(), 1);
    return section;
}

}  // namespace

// Pixel counts, centroids and equivalent diameters of digitised discs on a 201 x 201 grid, computed
// with scikit-image 0.19.3 regionprops.
TEST_CASE("digitised discs have their known area, centroid and equivalent diameter") {
    struct Known {
        double radius, row, column;
        int area;
        double diameter, centroid_row, centroid_column;
    };
    const std::vector<Known> known{
        {3, 100, 100, 29, 6.076507779746499, 100, 100},
        {10, 100.37, 99.62, 318, 20.12188299403865, 100.37106918238993, 99.62893081761007},
        {40, 100.37, 99.62, 5030, 80.0274634735968, 100.38270377733599, 99.59701789264413}};
    for (const Known& k : known) {
        const Section section = discs({{k.row, k.column, k.radius}}, 1);
        REQUIRE(section.list.size() == 1);
        CHECK(section.list[0].area == k.area);
        CHECK(section.list[0].diameter == Approx(k.diameter).epsilon(1e-12));
        CHECK(section.list[0].centre.y == Approx(k.centroid_row).epsilon(1e-9));
        CHECK(section.list[0].centre.x == Approx(k.centroid_column).epsilon(1e-9));
    }
}

TEST_CASE("openings that touch at a corner alone are two cells") {
    const std::vector<std::uint8_t> open{1, 1, 0, 0,  //
                                         1, 0, 1, 0,  //
                                         0, 1, 1, 0};
    CHECK(label_openings(open, 4, 3, 1, {0, 0}, 0).list.size() == 2);
}

TEST_CASE("cells below the limit count as bread in every measure") {
    // Discs of 29, 317 and 5025 pixels (scikit-image) at 0.1 mm per pixel.
    const Section section = discs({{20, 20, 3}, {20, 180, 10}, {100, 100, 40}}, 0.1);
    const TrueMeasures all = crumb_measures(section, section.crumb, 0.5);
    CHECK(all.at(Measure::cell_count) == 3);
    CHECK(all.at(Measure::openness) == Approx((29 + 317 + 5025) / double(side * side)));
    CHECK(all.at(Measure::crumb_area) == Approx(side * side * 0.01));
    CHECK(all.at(Measure::cells_per_cm2) == Approx(3 / (side * side * 1e-4)));
    const TrueMeasures coarse = crumb_measures(section, section.crumb, 1.0);
    CHECK(coarse.at(Measure::cell_count) == 2);
    CHECK(coarse.at(Measure::openness) == Approx((317 + 5025) / double(side * side)));
    CHECK(coarse.at(Measure::coarseness) == Approx(7.998767850296815));
    CHECK(coarse.at(Measure::cell_diameter_number_d50) ==
          Approx((2.0090219901261573 + 7.998767850296815) / 2));
}

TEST_CASE("only the mask's crumb is judged, a cell counting where its centroid lies in it") {
    const Section section = discs({{100, 50, 20.5}, {100, 150, 20.5}}, 0.1);
    std::vector<std::uint8_t> left(side * side, 0);
    for (int j = 0; j < side; ++j)
        for (int i = 0; i < 140; ++i)
            left[static_cast<std::size_t>(j * side + i)] = 1;
    const TrueMeasures m = crumb_measures(section, left, 0.5);
    CHECK(m.at(Measure::cell_count) == 1);
    CHECK(m.at(Measure::openness) > 1313.0 / (140 * side));  // the cut-off cell adds its part
    CHECK(m.at(Measure::openness) < 2 * 1313.0 / (140 * side));
}

TEST_CASE("a crumb without cells has openness 0 and no diameters") {
    const Section section = discs({}, 0.1);
    const TrueMeasures m = crumb_measures(section, section.crumb, 0.5);
    CHECK(m.at(Measure::openness) == 0);
    CHECK_FALSE(m.contains(Measure::coarseness));
    CHECK_FALSE(m.contains(Measure::mean_free_path));
}

TEST_CASE("quantiles by number interpolate and quantiles by weight do not") {
    CHECK(quantile({1, 2, 3, 4}, 0.5) == Approx(2.5));
    CHECK(quantile({4, 1, 3, 2}, 0.1) == Approx(1.3));
    CHECK(weighted_quantile({{1, 1}, {2, 1}, {10, 8}}, 0.1) == 1);
    CHECK(weighted_quantile({{1, 1}, {2, 1}, {10, 8}}, 0.2) == 2);
    CHECK(weighted_quantile({{1, 1}, {2, 1}, {10, 8}}, 0.5) == 10);
}
