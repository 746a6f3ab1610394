#include "size_distribution.h"

#include "catch.h"

namespace loafmark::analysis {
namespace {

TEST_CASE("quantiles by number interpolate between order statistics, type 7") {
    // Values: scipy 1.10.1 on a small invented data set.
    const SizeSummary s =
        summary_by_number({12.1, 13.4, 11.8, 15.2, 14.4, 12.9, 13.7, 30.5, 12.2, 14.0});
    CHECK(s.d10 == Approx(12.07).epsilon(1e-12));
    CHECK(s.d50 == Approx(13.55).epsilon(1e-12));
    CHECK(s.d90 == Approx(16.729999999999993).epsilon(1e-12));
    CHECK(s.mean == Approx(15.02).epsilon(1e-12));
}

TEST_CASE("by area every cell counts by its area") {
    // Areas as 1, 4, 9, 16 of 30: a tenth (3) is reached at 2, half (15) and nine tenths at 4.
    const SizeSummary s = summary_by_area({3, 1, 4, 2});
    CHECK(s.d10 == 2);
    CHECK(s.d50 == 4);
    CHECK(s.d90 == 4);
    CHECK(s.mean == Approx(100.0 / 30));
}

TEST_CASE("a share that is reached exactly is reached, in whatever unit") {
    // 9 + 16 of 50 is exactly half.
    CHECK(summary_by_area({3, 4, 5}).d50 == 4);
    CHECK(summary_by_area({0.3, 0.4, 0.5}).d50 == 0.4);
    CHECK(summary_by_area({0.03, 0.04, 0.05}).d50 == 0.04);
}

TEST_CASE("the mean by area is the Sauter diameter, that by number the plain mean") {
    // Values: moments of ISO 9276-2 for these classes, closed form.
    std::vector<double> diameters;
    const std::vector<std::pair<double, int>> classes = {{0.5, 40}, {1, 60}, {1.5, 50},
                                                         {2, 30},   {3, 15}, {5, 5}};
    for (const auto& [diameter, count] : classes)
        diameters.insert(diameters.end(), static_cast<std::size_t>(count), diameter);
    CHECK(summary_by_number(diameters).mean == Approx(1.425).epsilon(1e-12));
    CHECK(summary_by_area(diameters).mean == Approx(2.6733333333333333).epsilon(1e-12));
}

TEST_CASE("a single cell is its own distribution") {
    for (const SizeSummary& s : {summary_by_number({2.5}), summary_by_area({2.5})}) {
        CHECK(s.d10 == 2.5);
        CHECK(s.d50 == 2.5);
        CHECK(s.d90 == 2.5);
        CHECK(s.mean == Approx(2.5));
    }
}

}  // namespace
}  // namespace loafmark::analysis
