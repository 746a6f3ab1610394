#include <cmath>

#include "approved.h"
#include "catch.h"
#include "charts/chart.h"
#include "markup.h"

using namespace loafmark;
using namespace loafmark::charts;

namespace {

ScatterChart openness_by_water() {
    ScatterChart chart;
    chart.title = "Openness against water";
    chart.description = "Openness rises with water.";
    chart.x = {"water", "%", AxisKind::number};
    chart.y = {"openness", "", AxisKind::number};
    Series rye{"Dark rye", {{60, 0.12, "1 March"}, {70, 0.18, ""}, {80, 0.30, ""}}, {}};
    for (const double x : {60.0, 70.0, 80.0})
        rye.line.push_back(
            {x, 0.11 + 0.009 * (x - 60), {{0.07 + 0.009 * (x - 60), 0.15 + 0.009 * (x - 60)}}});
    Series spelt{"Spelt", {{60, 0.22, ""}, {80, 0.44, ""}}, {{60, 0.24, {}}, {80, 0.42, {}}}};
    chart.series = {rye, spelt};
    return chart;
}

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++n;
    return n;
}

}  // namespace

TEST_CASE("a stand-alone chart looks as approved") {
    const std::string svg = scatter_svg(openness_by_water(), Embedding::standalone);
    CHECK(markup_fault(svg, Markup::xml) == "");
    check_approved("charts/scatter.svg", svg);
}

TEST_CASE("a chart for a page brings neither declaration nor styles") {
    const std::string svg = scatter_svg(openness_by_water(), Embedding::in_page);
    CHECK(svg.starts_with("<svg "));
    CHECK(svg.find("<style") == std::string::npos);
    CHECK(markup_fault(svg, Markup::xml) == "");
}

TEST_CASE("every point is marked and every series named") {
    const std::string svg = scatter_svg(openness_by_water(), Embedding::in_page);
    CHECK(count(svg, "<circle class=\"s1\"") == 3 + 1);  // one beside its name
    CHECK(count(svg, "<rect class=\"s2\"") == 2 + 1);
    CHECK(count(svg, ">Dark rye</text>") == 1);
    CHECK(count(svg, "<polyline") == 2);
    CHECK(count(svg, "class=\"band s1\"") == 1);
    CHECK(count(svg, "class=\"band s2\"") == 0);  // it has no interval
    CHECK(count(svg, "<title>1 March</title>") == 1);
}

TEST_CASE("names of series never meet, however many") {
    ScatterChart chart = openness_by_water();
    chart.series.clear();
    for (int i = 0; i < 12; ++i)
        chart.series.push_back({"Flour " + std::to_string(i), {{70, 0.3, ""}, {75, 0.31, ""}}, {}});
    const std::string svg = scatter_svg(chart, Embedding::in_page);
    std::vector<double> heights;
    for (std::size_t at = svg.find("class=\"name"); at != std::string::npos;
         at = svg.find("class=\"name", at + 1))
        heights.push_back(std::stod(svg.substr(svg.find(" y=\"", at) + 4)));
    REQUIRE(heights.size() == 12);
    std::sort(heights.begin(), heights.end());
    for (std::size_t i = 1; i < heights.size(); ++i)
        CHECK(heights[i] - heights[i - 1] >= 14.9);
    CHECK(heights.front() > 10);
    CHECK(heights.back() < 300);
}

TEST_CASE("texts in charts are escaped") {
    ScatterChart chart = openness_by_water();
    chart.title = chart.description = chart.x.name = chart.series[0].name =
        chart.series[0].points[0].note = "<script>alert('&')</script>";
    for (const Embedding embedding : {Embedding::standalone, Embedding::in_page}) {
        const std::string svg = scatter_svg(chart, embedding);
        CHECK(svg.find("<script") == std::string::npos);
        CHECK(markup_fault(svg, Markup::xml) == "");
    }
}

TEST_CASE("what is not finite is left out, and nothing at all is said") {
    ScatterChart chart = openness_by_water();
    chart.series[0].points[1].y = NAN;
    chart.series[1].points[0].x = INFINITY;
    const std::string svg = scatter_svg(chart, Embedding::in_page);
    CHECK(svg.find("nan") == std::string::npos);
    CHECK(svg.find("inf") == std::string::npos);
    CHECK(count(svg, "<circle class=\"s1\"") == 2 + 1);
    chart.series.clear();
    CHECK(scatter_svg(chart, Embedding::in_page).find("nothing to show yet") != std::string::npos);
}

TEST_CASE("one single point makes a chart") {
    ScatterChart chart = openness_by_water();
    chart.series = {{"rye", {{70, 0.3, ""}}, {}}};
    const std::string svg = scatter_svg(chart, Embedding::in_page);
    CHECK(svg.find("nan") == std::string::npos);
    CHECK(markup_fault(svg, Markup::xml) == "");
}

TEST_CASE("intervals of points are hairs, and marks can be led back to") {
    ScatterChart chart = openness_by_water();
    ScatterPoint& point = chart.series[0].points[0];
    point.x_interval = Interval(58, 62);
    point.y_interval = Interval(0.1, 0.14);
    point.link = "#bake-7";
    point.id = "mark-3";
    const std::string svg = scatter_svg(chart, Embedding::in_page);
    CHECK(count(svg, "class=\"whisker s1\"") == 1);
    CHECK(count(svg, "<a href=\"#bake-7\" id=\"mark-3\"><circle") == 1);
    CHECK(markup_fault(svg, Markup::xml) == "");
}

TEST_CASE("what is never below zero has no axis there") {
    ScatterChart chart = openness_by_water();
    for (LinePoint& point : chart.series[0].line)
        point.interval = Interval(point.y - 0.5, point.y + 0.5);
    CHECK(scatter_svg(chart, Embedding::in_page).find(">-") == std::string::npos);
}

TEST_CASE("an axis of ratios gives equal ratios equal lengths") {
    ScatterChart chart;
    chart.x = {"coarseness", "mm", AxisKind::ratio};
    chart.series = {{"rye", {{1, 0.1, ""}, {2, 0.1, ""}, {4, 0.1, ""}, {-1, 0.1, ""}}, {}}};
    const std::string svg = scatter_svg(chart, Embedding::in_page);
    std::vector<double> places;
    for (std::size_t at = svg.find(" cx=\""); at != std::string::npos;
         at = svg.find(" cx=\"", at + 1))
        places.push_back(std::stod(svg.substr(at + 5)));
    REQUIRE(places.size() == 3 + 1);  // one beside its name
    CHECK(places[1] - places[0] == Approx(places[2] - places[1]).margin(0.2));
}

TEST_CASE("a long name stands in two lines rather than being cut") {
    ScatterChart chart = openness_by_water();
    chart.series[0].name = "Emmer wholemeal";
    const std::string svg = scatter_svg(chart, Embedding::in_page);
    CHECK(count(svg, ">Emmer</text>") == 1);
    CHECK(count(svg, ">wholemeal</text>") == 1);
}
