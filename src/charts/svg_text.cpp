#include "charts/svg_text.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace loafmark::charts {
namespace {

constexpr double label_size = 13;
constexpr double mean_character_width = 0.54 * label_size;
constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD
constexpr std::string_view ellipsis = "\xE2\x80\xA6";

// Bytes of the valid UTF-8 character that begins `text`; 0 where there is none. RFC 3629.
std::size_t character_bytes(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    if (byte(0) < 0x80) return 1;
    const std::size_t bytes = (byte(0) >> 5) == 0x06   ? 2
                              : (byte(0) >> 4) == 0x0E ? 3
                              : (byte(0) >> 3) == 0x1E ? 4
                                                       : 0;
    if (bytes == 0 || bytes > text.size()) return 0;
    std::uint32_t code = byte(0) & (0xFFu >> (bytes + 1));
    for (std::size_t i = 1; i < bytes; ++i) {
        if ((byte(i) >> 6) != 0x02) return 0;
        code = (code << 6) | (byte(i) & 0x3Fu);
    }
    constexpr std::array<std::uint32_t, 5> least = {0, 0, 0x80, 0x800, 0x10000};
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    const bool allowed =
        code >= least[bytes] && code <= 0x10FFFF && !surrogate && code != 0xFFFE && code != 0xFFFF;
    return allowed ? bytes : 0;
}

std::string escaped_character(std::string_view character) {
    switch (character[0]) {
        case '&':
            return "&amp;";
        case '<':
            return "&lt;";
        case '>':
            return "&gt;";
        case '"':
            return "&quot;";
        case '\'':
            return "&#39;";
        default:
            break;
    }
    const auto code = static_cast<unsigned char>(character[0]);
    const bool control =
        (code < 0x20 && code != '\t' && code != '\n' && code != '\r') || code == 0x7F;
    return std::string(control ? replacement : character);
}

std::size_t character_count(std::string_view text) {
    std::size_t count = 0;
    for (const char c : text)
        if ((static_cast<unsigned char>(c) >> 6) != 0x02) ++count;
    return count;
}

}  // namespace

std::string xml_escaped(std::string_view text) {
    std::string escaped;
    while (!text.empty()) {
        const std::size_t bytes = character_bytes(text);
        escaped += bytes == 0 ? std::string(replacement) : escaped_character(text.substr(0, bytes));
        text.remove_prefix(bytes == 0 ? 1 : bytes);
    }
    return escaped;
}

std::string opening(std::string_view element, std::string_view classes) {
    return joined("<", element, " class=\"", classes, "\"");
}

std::string coordinate(double value) {
    const double tenths = std::round(value * 10) / 10;
    std::array<char, 64> text{};
    const auto end =
        std::to_chars(text.data(), text.data() + text.size(), tenths == 0 ? 0.0 : tenths,
                      std::chars_format::fixed, tenths == std::round(tenths) ? 0 : 1)
            .ptr;
    return {text.data(), end};
}

std::string attribute(std::string_view name, double value) {
    return joined(" ", name, "=\"", coordinate(value), "\"");
}

std::string text_element(std::string_view text, const TextPlace& place) {
    const std::string anchor =
        place.anchor == "start" ? "" : joined(" text-anchor=\"", place.anchor, "\"");
    return joined(opening("text", place.classes), attribute("x", place.x), attribute("y", place.y),
                  anchor, ">", xml_escaped(text), "</text>\n");
}

std::string line_element(double x1, double y1, double x2, double y2, std::string_view classes) {
    return joined(opening("line", classes), attribute("x1", x1), attribute("y1", y1),
                  attribute("x2", x2), attribute("y2", y2), "/>\n");
}

double text_width(std::string_view text) {
    return mean_character_width * static_cast<double>(character_count(text));
}

std::vector<std::string> wrapped(std::string_view text, double width) {
    if (text_width(text) <= width) return {std::string(text)};
    // At the last blank before which the first line fits.
    std::size_t at = std::string_view::npos;
    for (std::size_t blank = text.find(' '); blank != std::string_view::npos;
         blank = text.find(' ', blank + 1))
        if (text_width(text.substr(0, blank)) <= width) at = blank;
    if (at == std::string_view::npos || at == 0) return {fitted(text, width)};
    return {std::string(text.substr(0, at)), fitted(text.substr(at + 1), width)};
}

std::string fitted(std::string_view text, double width) {
    if (text_width(text) <= width) return std::string(text);
    std::string cut;
    while (!text.empty() && text_width(cut) + 2 * mean_character_width <= width) {
        std::size_t bytes = 1;
        while (bytes < text.size() && (static_cast<unsigned char>(text[bytes]) >> 6) == 0x02)
            ++bytes;
        cut += text.substr(0, bytes);
        text.remove_prefix(bytes);
    }
    return cut.append(ellipsis);
}

}  // namespace loafmark::charts
