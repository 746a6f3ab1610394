#include <string_view>

#include "charts/svg_text.h"
#include "line_up/layout.h"
#include "reports/cut_out.h"

namespace loafmark::line_up {
namespace {

using charts::attribute;
using charts::coordinate;
using charts::xml_escaped;

// Drawn at four pixels a millimetre unless the viewer scales it.
constexpr double pixels_per_mm = 4;

std::string hex(const Colour& colour) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text = "#";
    for (const int value : {colour.red, colour.green, colour.blue}) {
        text += digits[static_cast<std::size_t>(value / 16)];
        text += digits[static_cast<std::size_t>(value % 16)];
    }
    return text;
}

std::string_view anchor_name(Anchor anchor) {
    return anchor == Anchor::start ? "start" : anchor == Anchor::middle ? "middle" : "end";
}

std::string text_svg(const Text& text) {
    return "<text" + attribute("x", text.x) + attribute("y", text.y) +
           attribute("font-size", text.size) + " fill=\"" + hex(colour_of(text.kind)) +
           "\" text-anchor=\"" + std::string(anchor_name(text.anchor)) + "\">" +
           xml_escaped(text.text) + "</text>\n";
}

std::string line_svg(const Line& line) {
    // Strokes are thinner than attribute() counts.
    return "<line" + attribute("x1", line.x1) + attribute("y1", line.y1) +
           attribute("x2", line.x2) + attribute("y2", line.y2) + " stroke-width=\"" +
           std::to_string(line.width).substr(0, 5) + "\"/>\n";
}

// The picture's own pixels are the units within.
std::string slice_svg(const PlacedSlice& placed, std::size_t number) {
    const journal::ReadingPicture& picture = placed.slice->picture;
    const std::string id = "edge-" + std::to_string(number);
    std::string svg =
        "<svg" + attribute("x", placed.x) + attribute("y", placed.y) +
        attribute("width", placed.window.width * placed.mm_per_pixel) +
        attribute("height", placed.window.height * placed.mm_per_pixel) + " viewBox=\"" +
        coordinate(placed.window.left) + " " + coordinate(placed.window.top) + " " +
        coordinate(placed.window.width) + " " + coordinate(placed.window.height) + "\"><title>" +
        xml_escaped("Cut face of " + placed.slice->name + ", " + placed.slice->remark) + "</title>";
    const std::string path = reports::outline_path(picture);
    if (!path.empty()) svg += "<clipPath id=\"" + id + "\"><path d=\"" + path + "\"/></clipPath>";
    svg += "<image" + attribute("width", picture.width_px) + attribute("height", picture.height_px);
    if (!path.empty()) svg += " clip-path=\"url(#" + id + ")\"";
    return svg + " href=\"" + reports::data_uri(picture) + "\"/></svg>\n";
}

}  // namespace

std::string line_up_svg(const LineUp& line_up) {
    const Layout layout = layout_of(line_up);
    std::string svg =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
        "role=\"img\" viewBox=\"0 0 " +
        coordinate(layout.width) + " " + coordinate(layout.height) + "\"" +
        attribute("width", pixels_per_mm * layout.width) +
        attribute("height", pixels_per_mm * layout.height) +
        " font-family=\"Palatino Linotype,Palatino,Book Antiqua,Georgia,serif\" stroke-width=\"0\" "
        "stroke=\"" +
        hex(ink) + "\">\n<title>" + xml_escaped(line_up.title) + "</title>\n<desc>" +
        std::to_string(layout.slices.size()) +
        " slices on one base line at one scale, with a ruler in millimetres.</desc>\n<rect" +
        attribute("width", layout.width) + attribute("height", layout.height) + " fill=\"" +
        hex(paper) + "\"/>\n";
    for (const Line& line : layout.hairs)
        svg += line_svg(line);
    for (std::size_t i = 0; i < layout.slices.size(); ++i)
        svg += slice_svg(layout.slices[i], i + 1);
    for (const Line& line : layout.lines)
        svg += line_svg(line);
    for (const Text& text : layout.texts)
        svg += text_svg(text);
    return svg + "</svg>\n";
}

}  // namespace loafmark::line_up
