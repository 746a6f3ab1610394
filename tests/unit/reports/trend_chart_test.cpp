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

TEST_CASE("no bakes make a chart that says so") {
    const std::string svg = reports::trend_svg(insight::find_trend({}, {}));
    CHECK(svg.find("nothing to show yet") != std::string::npos);
}
