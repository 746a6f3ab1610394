#include "charts/frame.h"

#include "charts/svg_text.h"

namespace loafmark::charts {
namespace {

// Colours are given as plain rules, not as CSS variables, which many viewers of SVG do not know.
// The six differ in lightness as well as in hue, and every series has a shape of its own besides.
constexpr std::string_view light_style = R"(
.chart text{fill:currentColor;font-family:"Iowan Old Style","Palatino Linotype",Palatino,"Book Antiqua",Georgia,serif;font-size:13px}
.chart .title{font-size:16px}
.chart .axis-name{font-style:italic}
.chart .tick{font-size:12px;fill-opacity:.8}
.chart .whisker{fill:none;stroke-width:1.3;stroke-opacity:.5}
.chart .border{stroke:currentColor;stroke-opacity:.45;stroke-width:1;stroke-dasharray:2 3}
.chart a:hover *,.chart a:focus *,.chart a:target *{stroke:currentColor;stroke-width:2.5}
.chart .hair{stroke:currentColor;stroke-opacity:.16;stroke-width:1}
.chart .base{stroke:currentColor;stroke-opacity:.75;stroke-width:1.2}
.chart polyline.mean{fill:none;stroke-width:1.8}
.chart polygon.band{fill-opacity:.13;stroke:none}
.chart .open{fill-opacity:0;stroke-width:2}
.chart .bar{fill:#a65a2a;fill-opacity:.78}
.chart .mark{stroke:currentColor;stroke-width:1.2;stroke-dasharray:3 3}
.chart .s1{fill:#1f4f7a;stroke:#1f4f7a}
.chart .s2{fill:#c0571c;stroke:#c0571c}
.chart .s3{fill:#2e8b74;stroke:#2e8b74}
.chart .s4{fill:#7a2f5f;stroke:#7a2f5f}
.chart .s5{fill:#b8890f;stroke:#b8890f}
.chart .s6{fill:#5c87b5;stroke:#5c87b5}
.chart text.name{stroke:none}
)";
constexpr std::string_view dark_style = R"(
@media screen and (prefers-color-scheme:dark){
.chart .bar{fill:#d79363}
.chart .s1{fill:#86b6e2;stroke:#86b6e2}
.chart .s2{fill:#ee9159;stroke:#ee9159}
.chart .s3{fill:#5cc3a8;stroke:#5cc3a8}
.chart .s4{fill:#d48abb;stroke:#d48abb}
.chart .s5{fill:#e3bd55;stroke:#e3bd55}
.chart .s6{fill:#b9cfe6;stroke:#b9cfe6}
}
)";
constexpr std::string_view standalone_style = R"(
svg.chart{color:#2d2420}
.chart .ground{fill:#fbf6ec}
@media screen and (prefers-color-scheme:dark){svg.chart{color:#ece2d3}.chart .ground{fill:#1e1915}}
)";

std::string named(const Axis& axis) {
    return axis.unit.empty() ? axis.name : axis.name + ", " + axis.unit;
}

std::string standalone_parts(std::string_view title, double height) {
    std::string parts = "<style>";
    parts.append(standalone_style);
    parts += chart_style() + "</style>\n";
    parts += "<rect class=\"ground\"" + attribute("y", -30) + attribute("width", sheet_width) +
             attribute("height", height + 30) + "/>\n";
    return parts + text_element(fitted(title, 280), {8, -8, "start", "title"});
}

}  // namespace

std::string chart_style() {
    std::string style(light_style);
    return style.append(dark_style);
}

std::string sheet(std::string_view title, std::string_view description, const std::string& content,
                  Embedding embedding, double height) {
    const bool standalone = embedding == Embedding::standalone;
    const double top = standalone ? -30 : 0;
    std::string svg = standalone ? "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" : "";
    svg += "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"chart\" role=\"img\" viewBox=\"0 " +
           coordinate(top) + " " + coordinate(sheet_width) + " " + coordinate(height - top) + "\"";
    if (standalone)
        svg += attribute("width", 2 * sheet_width) + attribute("height", 2 * (height - top));
    svg += ">\n<title>" + xml_escaped(title) + "</title>\n<desc>" + xml_escaped(description) +
           "</desc>\n";
    if (standalone) svg += standalone_parts(title, height);
    return svg + content + "</svg>\n";
}

std::string empty_sheet(std::string_view title, std::string_view description, Embedding embedding) {
    constexpr double height = 60;
    return sheet(title, description,
                 text_element("nothing to show yet",
                              {sheet_width / 2, height / 2 + 4, "middle", "axis-name"}),
                 embedding, height);
}

std::string y_axis(const Plot& plot, const Axis& axis, const std::vector<Tick>& ticks,
                   const Scaling& y) {
    std::string svg = text_element(named(axis), {8, 15, "start", "axis-name"});
    for (const Tick& tick : ticks) {
        svg += line_element(plot.left, y(tick.value), plot.right, y(tick.value), "hair");
        svg += text_element(tick.label, {plot.left - 6, y(tick.value) + 4, "end", "tick"});
    }
    return svg;
}

std::string x_axis(const Plot& plot, const Axis& axis, const std::vector<Tick>& ticks,
                   const Scaling& x) {
    std::string svg = line_element(plot.left, plot.bottom, plot.right, plot.bottom, "base");
    for (const Tick& tick : ticks) {
        svg += line_element(x(tick.value), plot.bottom, x(tick.value), plot.bottom + 5, "base");
        svg += text_element(tick.label, {x(tick.value), plot.bottom + 19, "middle", "tick"});
    }
    return svg + text_element(named(axis), {plot.right, plot.bottom + 37, "end", "axis-name"});
}

}  // namespace loafmark::charts
