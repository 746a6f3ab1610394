// Pieces of SVG text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace loafmark::charts {

// For XML and HTML, between tags and within quotes: & < > " ' as entities, characters that XML 1.0
// forbids and bytes that are not UTF-8 as U+FFFD.
[[nodiscard]] std::string xml_escaped(std::string_view text);

// Texts put together.
template <class... Texts>
[[nodiscard]] std::string joined(const Texts&... texts) {
    std::string all;
    (all.append(std::string_view(texts)), ...);
    return all;
}

// "<element class=\"classes\"", to be followed by attributes and ">".
[[nodiscard]] std::string opening(std::string_view element, std::string_view classes);

// A coordinate, to a tenth.
[[nodiscard]] std::string coordinate(double value);

// " name='value'" with the coordinate of `value`.
[[nodiscard]] std::string attribute(std::string_view name, double value);

struct TextPlace {
    double x = 0;
    double y = 0;
    std::string_view anchor = "start";  // start, middle, end
    std::string_view classes = "label";
};
// A <text> element; `text` is escaped here.
[[nodiscard]] std::string text_element(std::string_view text, const TextPlace& place);

[[nodiscard]] std::string line_element(double x1, double y1, double x2, double y2,
                                       std::string_view classes);

// About how wide a text is at the size of chart labels, in the chart's units.
[[nodiscard]] double text_width(std::string_view text);
// Parted at a blank into two lines where one of `width` does not hold it; each fitted.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, double width);
// Cut to `width` with an ellipsis; whole characters only.
[[nodiscard]] std::string fitted(std::string_view text, double width);

}  // namespace loafmark::charts
