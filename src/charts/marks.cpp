#include "charts/marks.h"

#include "charts/svg_text.h"

namespace loafmark::charts {
namespace {

constexpr std::size_t colours = 6;
constexpr std::size_t shapes = 7;  // prime to the colours, so that 42 series differ
constexpr double r = 4.5;

std::string circle(double x, double y, std::string_view classes) {
    return opening("circle", classes) + attribute("cx", x) + attribute("cy", y) +
           attribute("r", r) + ">";
}

std::string square(double x, double y, std::string_view classes) {
    return opening("rect", classes) + attribute("x", x - r) + attribute("y", y - r) +
           attribute("width", 2 * r) + attribute("height", 2 * r) + ">";
}

std::string upright(double x, double y, std::string_view classes) {
    return polygon_tag({{x, y - 1.3 * r}, {x + 1.2 * r, y + r}, {x - 1.2 * r, y + r}}, classes);
}

std::string upside_down(double x, double y, std::string_view classes) {
    return polygon_tag({{x, y + 1.3 * r}, {x + 1.2 * r, y - r}, {x - 1.2 * r, y - r}}, classes);
}

std::string diamond(double x, double y, std::string_view classes) {
    return polygon_tag({{x, y - 1.4 * r}, {x + 1.4 * r, y}, {x, y + 1.4 * r}, {x - 1.4 * r, y}},
                       classes);
}

struct Shape {
    std::string_view element;
    std::string (*draw)(double, double, std::string_view);
    bool open;
};

constexpr std::array<Shape, shapes> shape_of = {{{"circle", circle, false},
                                                 {"rect", square, false},
                                                 {"polygon", upright, false},
                                                 {"polygon", diamond, false},
                                                 {"circle", circle, true},
                                                 {"rect", square, true},
                                                 {"polygon", upside_down, true}}};

}  // namespace

std::string series_class(std::size_t index) {
    return joined("s", std::to_string(index % colours + 1));
}

std::string mark(double x, double y, std::size_t index, std::string_view note) {
    const Shape& shape = shape_of[index % shapes];
    std::string svg = shape.draw(x, y, joined(series_class(index), shape.open ? " open" : ""));
    if (!note.empty()) svg += joined("<title>", xml_escaped(note), "</title>");
    return svg += joined("</", shape.element, ">\n");
}

std::string linked(std::string_view link, const std::string& drawn, std::string_view id) {
    if (link.empty()) return drawn;
    const std::string named = id.empty() ? "" : joined(" id=\"", xml_escaped(id), "\"");
    return joined("<a href=\"", xml_escaped(link), "\"", named, ">", drawn, "</a>\n");
}

std::string polygon_tag(const std::vector<std::array<double, 2>>& corners,
                        std::string_view classes) {
    std::string svg = opening("polygon", classes) + " points=\"";
    for (const auto& [x, y] : corners)
        svg += joined(coordinate(x), ",", coordinate(y), " ");
    svg.back() = '"';
    return svg += ">";
}

}  // namespace loafmark::charts
