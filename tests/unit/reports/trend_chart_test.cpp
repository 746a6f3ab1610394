#include "reports/trend_chart.h"

#include "catch.h"
#include "made_up_bakes.h"
#include "markup.h"

using namespace loafmark;

namespace {

std::vector<journal::BakeEntry> five_bakes() {
    std::vector<journal::BakeEntry> bakes;
    for (int i = 0; i < 5; ++i)
        bakes.push_back(made_up::bake(i + 1, {2026, 3 + i, 1}, "Rye & spelt", 1, 60 + 5 * i,
                                      0.2 + 0.04 * i + (i % 2 ? 0.02 : 0)));
    return bakes;
}

}  // namespace

TEST_CASE("a trend's chart names axes, units and flours, and has line and band") {
    const std::string svg = reports::trend_svg(insight::find_trend(five_bakes(), {}));
    CHECK(markup_fault(svg, Markup::xml) == "");
    CHECK(svg.find(">water, %</text>") != std::string::npos);
    CHECK(svg.find(">openness</text>") != std::string::npos);
    CHECK(svg.find(">Rye &amp; spelt</text>") != std::string::npos);
    CHECK(svg.find("<polyline") != std::string::npos);
    CHECK(svg.find("class=\"band s1\"") != std::string::npos);
    CHECK(svg.find("<desc>Openness rises by") != std::string::npos);
    CHECK(svg.find("1 March 2026, Bake 1: 0.200") != std::string::npos);
}

TEST_CASE("a trend over time has months on its axis") {
    const std::string svg =
        reports::trend_svg(insight::find_trend(five_bakes(), {.against = insight::Against::date}));
    CHECK(svg.find(">date</text>") != std::string::npos);
    CHECK(svg.find(">Mar 2026</text>") != std::string::npos);
}

TEST_CASE("a chart that leaves flours out says how many it shows") {
    std::vector<journal::BakeEntry> bakes;
    for (int flour = 1; flour <= 10; ++flour)
        for (int i = 0; i < 3; ++i)
            bakes.push_back(made_up::bake(3 * flour + i, {2026, 3, i + 1},
                                          "Flour " + std::to_string(flour), flour, 60 + 5 * i,
                                          0.2 + 0.04 * i));
    const auto words = [&] { return reports::trend_words(insight::find_trend(bakes, {})); };
    CHECK(words().find("The chart shows") == std::string::npos);
    bakes.push_back(made_up::bake(99, {2026, 4, 1}, "Rarely", 11, 70, 0.3));
    CHECK(words().ends_with(". The chart shows 10 of 11 flours, those with most bakes."));
    const std::string svg = reports::trend_svg(insight::find_trend(bakes, {}));
    CHECK(svg.find("The chart shows 10 of 11 flours") != std::string::npos);
    CHECK(svg.find("Rarely") == std::string::npos);
}

TEST_CASE("no bakes make a chart that says so") {
    const std::string svg = reports::trend_svg(insight::find_trend({}, {}));
    CHECK(svg.find("nothing to show yet") != std::string::npos);
}
