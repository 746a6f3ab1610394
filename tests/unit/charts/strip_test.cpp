#include <cmath>

#include "approved.h"
#include "catch.h"
#include "charts/chart.h"
#include "markup.h"

using namespace loafmark;
using namespace loafmark::charts;

namespace {

StripChart heights() {
    StripChart chart;
    chart.title = "Loaf height by flour";
    chart.description = "Wheat stands taller.";
    chart.x = {"loaf height", "mm", AxisKind::number};
    chart.rows = {{"Wheat", {{90, "1 March", "#bake-1", Interval(89, 91)}, {94, ""}, {95, ""}}},
                  {"Emmer <wholemeal>", {{71, "", "", Interval(70, 72.5)}}}};
    chart.borders = {75, 92};
    chart.words = {"low", "middling", "tall"};
    return chart;
}

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++n;
    return n;
}

// Of the first element that holds `part`.
double number_after(const std::string& svg, const std::string& part, const std::string& name) {
    const std::size_t at = svg.find(part);
    const std::size_t begin = svg.rfind('<', at);
    return std::stod(svg.substr(svg.find(name + "=\"", begin) + name.size() + 2));
}

}  // namespace

TEST_CASE("a strip chart looks as approved") {
    const std::string svg = strip_svg(heights(), Embedding::standalone);
    CHECK(markup_fault(svg, Markup::xml) == "");
    check_approved("charts/strip.svg", svg);
}

TEST_CASE("a strip has a mark a value, a hair an interval, and leads where it is told") {
    const std::string svg = strip_svg(heights(), Embedding::in_page);
    CHECK(count(svg, "<circle class=\"s1\"") == 3);
    CHECK(count(svg, "<rect class=\"s2\"") == 1);
    CHECK(count(svg, "class=\"whisker s1\"") == 1);
    CHECK(count(svg, "class=\"whisker s2\"") == 1);
    CHECK(count(svg, "<a href=\"#bake-1\">") == 1);
    CHECK(count(svg, "Emmer &lt;wholemeal&gt;") == 1);
    StripChart chart = heights();
    chart.look = 1;
    CHECK(count(strip_svg(chart, Embedding::in_page), "<circle") == 0);
}

TEST_CASE("the parts of a strip are named without their names meeting") {
    const std::string svg = strip_svg(heights(), Embedding::in_page);
    const double low = number_after(svg, ">low<", "x");
    const double middling = number_after(svg, ">middling<", "x");
    const double tall = number_after(svg, ">tall<", "x");
    CHECK(low < middling);
    CHECK(middling < tall);
    StripChart narrow = heights();
    narrow.borders = {80, 80.1};
    const std::string squeezed = strip_svg(narrow, Embedding::in_page);
    CHECK(number_after(squeezed, ">tall<", "x") - number_after(squeezed, ">middling<", "x") > 56);
}

TEST_CASE("values close together stand aside of each other") {
    StripChart chart = heights();
    chart.rows = {{"rye", {{70, ""}, {70.01, ""}, {90, ""}}}};
    const std::string svg = strip_svg(chart, Embedding::in_page);
    std::vector<std::string> heights_of_marks;
    for (std::size_t at = svg.find("cy=\""); at != std::string::npos;
         at = svg.find("cy=\"", at + 1))
        heights_of_marks.push_back(svg.substr(at + 4, svg.find('"', at + 4) - at - 4));
    REQUIRE(heights_of_marks.size() == 3);
    CHECK(heights_of_marks[0] != heights_of_marks[1]);
    CHECK(heights_of_marks[0] == heights_of_marks[2]);
}

TEST_CASE("a strip of nothing says so, and what is not finite is left out") {
    StripChart chart = heights();
    chart.rows[0].points[0].x = NAN;
    chart.rows[1].points[0].interval = Interval(-INFINITY, 1);
    const std::string svg = strip_svg(chart, Embedding::in_page);
    CHECK(count(svg, "<circle") == 2);
    CHECK(count(svg, "Emmer") == 0);
    CHECK(svg.find("nan") == std::string::npos);
    chart.rows.clear();
    CHECK(strip_svg(chart, Embedding::in_page).find("nothing to show yet") != std::string::npos);
}

TEST_CASE("a row keeps its look where the one before has nothing to show") {
    StripChart chart = heights();
    const std::string both = strip_svg(chart, Embedding::in_page);
    chart.rows[0].points.clear();
    const std::string svg = strip_svg(chart, Embedding::in_page);
    CHECK(count(svg, "<circle") == 0);
    CHECK(count(svg, "<rect class=\"s2\"") == 1);
    CHECK(count(svg, "Wheat</text>") == 0);
    // It takes no room: Emmer's name stands where Wheat's stood.
    CHECK(number_after(svg, "Emmer", "y") == number_after(both, ">Wheat<", "y"));
}

TEST_CASE("on a ratio axis a hair that reaches to nought ends at the axis, and its mark stays") {
    StripChart chart = heights();
    chart.x.kind = AxisKind::ratio;
    chart.borders.clear();
    chart.words.clear();
    chart.rows = {{"Wheat", {{2, "", "", Interval(-1, 4)}, {10, "", "", Interval(8, 12)}}}};
    const std::string svg = strip_svg(chart, Embedding::in_page);
    CHECK(count(svg, "<circle") == 2);
    CHECK(count(svg, "d=\"M14 ") == 1);
    CHECK(svg.find("nan") == std::string::npos);
}

TEST_CASE("hairs that would be one grey are left out") {
    StripChart chart = heights();
    chart.rows[0].points.assign(151, {90, "", "", Interval(89, 91)});
    const std::string svg = strip_svg(chart, Embedding::in_page);
    CHECK(count(svg, "<circle") == 151);
    CHECK(count(svg, "whisker") == 0);
}
