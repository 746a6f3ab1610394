#include <cmath>

#include "approved.h"
#include "catch.h"
#include "charts/chart.h"
#include "markup.h"

using namespace loafmark;
using namespace loafmark::charts;

TEST_CASE("weights share out over classes of ratio 10^0.1, counts stand beside") {
    // Edges: 0.794, 1, 1.259, 1.585.
    const std::vector<HistogramClass> classes = log_classes({0.9, 1.0, 1.1, 1.3}, {1, 2, 3, 4});
    REQUIRE(classes.size() == 3);
    CHECK(classes[0].low == Approx(std::pow(10, -0.1)));
    CHECK(classes[0].high == Approx(1));
    CHECK(classes[0].share == Approx(0.1));
    CHECK(classes[1].share == Approx(0.5));
    CHECK(classes[1].count == 2);
    CHECK(classes[2].share == Approx(0.4));
}

TEST_CASE("a class between two others may be empty") {
    const std::vector<HistogramClass> classes = log_classes({1.05, 1.7}, {1, 1});
    REQUIRE(classes.size() == 3);
    CHECK(classes[1].count == 0);
    CHECK(classes[1].share == 0);
}

TEST_CASE("values that are no size are left out") {
    CHECK(log_classes({0, -1, NAN, INFINITY}, {1, 1, 1, 1}).empty());
    CHECK(log_classes({}, {}).empty());
    CHECK_THROWS_AS(log_classes({1}, {}), std::invalid_argument);
}

TEST_CASE("a histogram looks as approved") {
    Histogram histogram;
    histogram.title = "Cell sizes";
    histogram.description = "Share of opening by cell diameter.";
    histogram.x = {"cell diameter", "mm", AxisKind::number};
    histogram.y = {"share of all opening", "%", AxisKind::number};
    histogram.classes = log_classes({0.6, 0.8, 0.9, 1.2, 1.3, 2, 2.2, 3.1, 4.5, 7},
                                    {1, 2, 2, 4, 4, 10, 12, 20, 30, 25});
    histogram.median = 4.5;
    histogram.median_name = "half of it up to 4.5 mm";
    const std::string svg = histogram_svg(histogram, Embedding::standalone);
    CHECK(markup_fault(svg, Markup::xml) == "");
    check_approved("charts/histogram.svg", svg);
    histogram.classes.clear();
    CHECK(histogram_svg(histogram, Embedding::in_page).find("nothing to show yet") !=
          std::string::npos);
}
