#include "reports/line_up_svg.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "charts/svg_text.h"
#include "insight/plain_numbers.h"
#include "reports/pictures.h"

namespace loafmark::reports {
namespace {

using charts::attribute;
using charts::xml_escaped;

// In millimetres of bread, which are the drawing's units.
constexpr double gap = 10;
constexpr double narrowest = 62;  // so that names have room
constexpr double head = 16;
constexpr double foot = 34;
constexpr double ruler_length = 100;
constexpr double letters = 5.2;  // size of letters
// Drawn at four pixels a millimetre unless the viewer scales it.
constexpr double pixels_per_mm = 4;

double height_mm(const journal::ReadingPicture& picture) {
    return picture.height_px * picture.mm_per_pixel.value();
}

std::string text_at(double x, double y, const std::string& text, const char* kind) {
    return std::string("<text class=\"") + kind + "\"" + attribute("x", x) + attribute("y", y) +
           ">" + xml_escaped(text) + "</text>\n";
}

std::string line_at(double x1, double y1, double x2, double y2) {
    return "<line" + attribute("x1", x1) + attribute("y1", y1) + attribute("x2", x2) +
           attribute("y2", y2) + "/>\n";
}

// From 0 to 100 mm, a stroke each 10.
std::string ruler(double left, double y) {
    std::string svg = line_at(left, y, left + ruler_length, y);
    for (int mm = 0; mm <= 100; mm += 10)
        svg += line_at(left + mm, y, left + mm, y + (mm % 50 == 0 ? 3 : 1.6));
    return svg + text_at(left, y + 8.5, "0", "soft") + text_at(left + 50, y + 8.5, "50", "soft") +
           text_at(left + ruler_length, y + 8.5, "100 mm", "soft");
}

constexpr std::string_view style = R"(<style>
text{font-family:"Iowan Old Style","Palatino Linotype",Palatino,"Book Antiqua",Georgia,serif;font-size:5.2px;fill:#2d2420}
.title{font-size:7.4px;fill:#8a4b23}
.soft{font-size:4.4px;fill:#6d5f55}
line{stroke:#2d2420;stroke-width:.5}
</style>
)";

// Cut to what fits into `width` at the size of names.
std::string name_within(const std::string& text, double width) {
    return charts::fitted(text, width * 13 / letters);  // text widths are reckoned at 13 units
}

struct Drawn {
    std::string svg;
    double width = 0;
};

Drawn drawn(const std::vector<LineUpSlice>& slices, double base) {
    Drawn result;
    double x = gap;
    for (const LineUpSlice& slice : slices) {
        const double width = width_mm(slice.picture);
        const double room = std::max(width, narrowest);
        result.svg += "<image" + attribute("x", x + (room - width) / 2) +
                      attribute("y", base - height_mm(slice.picture)) + attribute("width", width) +
                      attribute("height", height_mm(slice.picture)) + " href=\"" +
                      data_uri(slice.picture) + "\"><title>" +
                      xml_escaped("Cut face of " + slice.name + ", " + slice.remark) +
                      "</title></image>\n";
        result.svg += text_at(x, base + 8, name_within(slice.name, room), "name");
        result.svg += text_at(x, base + 14, name_within(slice.remark, room), "soft");
        x += room + gap;
    }
    result.width = x;
    return result;
}

}  // namespace

std::string line_up_svg(const std::vector<LineUpSlice>& slices, const std::string& title) {
    std::vector<LineUpSlice> shown;
    double tallest = 0;
    for (const LineUpSlice& slice : slices) {
        if (!has_scale(slice.picture) || data_uri(slice.picture).empty()) continue;
        tallest = std::max(tallest, height_mm(slice.picture));
        shown.push_back(slice);
    }
    if (shown.empty())
        throw std::invalid_argument("no slice has a picture with a scale, so there is no line-up");
    const double base = head + tallest;
    const Drawn pictures = drawn(shown, base);
    const double width = std::max(pictures.width, ruler_length + 4 * gap);
    const double height = base + foot;
    std::string svg =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
        "role=\"img\" viewBox=\"0 0 " +
        charts::coordinate(width) + " " + charts::coordinate(height) + "\"" +
        attribute("width", pixels_per_mm * width) + attribute("height", pixels_per_mm * height) +
        ">\n<title>" + xml_escaped(title) + "</title>\n<desc>" +
        xml_escaped(std::to_string(shown.size()) +
                    " slices on one base line at one scale, with a ruler of 100 mm.") +
        "</desc>\n";
    svg.append(style);
    svg += "<rect" + attribute("width", width) + attribute("height", height) +
           " fill=\"#fbf6ec\"/>\n" + text_at(gap, 10, title, "title") + pictures.svg;
    svg += line_at(gap / 2, base, width - gap / 2, base);
    return svg + ruler(gap, base + 20) + "</svg>\n";
}

}  // namespace loafmark::reports
