#include "reports/pictures.h"

#include <cmath>
#include <string_view>

#include "insight/plain_numbers.h"

namespace loafmark::reports {
namespace {

constexpr std::string_view alphabet =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

std::string ruler_svg() {
    std::string svg =
        "<span class=\"ruler\"><svg viewBox=\"0 0 100 8\" preserveAspectRatio=\"none\" "
        "aria-hidden=\"true\"><line x1=\"0\" y1=\"0\" x2=\"100\" y2=\"0\"/>";
    for (int mm = 0; mm <= 100; mm += 10) {
        const std::string x = std::to_string(mm);
        const char* foot = mm % 50 == 0 ? "8" : "4";
        svg.append("<line x1=\"").append(x).append("\" y1=\"0\" x2=\"").append(x);
        svg.append("\" y2=\"").append(foot).append("\"/>");
    }
    return svg + "</svg><span><i>0</i><i>50</i><i>100 mm</i></span></span>";
}

}  // namespace

std::string base64(std::span<const std::uint8_t> bytes) {
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        const std::size_t left = bytes.size() - i;
        std::uint32_t group = static_cast<std::uint32_t>(bytes[i]) << 16;
        if (left > 1) group |= static_cast<std::uint32_t>(bytes[i + 1]) << 8;
        if (left > 2) group |= bytes[i + 2];
        text += alphabet[group >> 18 & 63];
        text += alphabet[group >> 12 & 63];
        text += left > 1 ? alphabet[group >> 6 & 63] : '=';
        text += left > 2 ? alphabet[group & 63] : '=';
    }
    return text;
}

std::string data_uri(const journal::ReadingPicture& picture) {
    if (picture.media_type != "image/jpeg" && picture.media_type != "image/png") return "";
    std::string uri = "data:";
    return uri.append(picture.media_type).append(";base64,").append(base64(picture.bytes));
}

bool has_scale(const journal::ReadingPicture& picture) {
    return picture.mm_per_pixel && std::isfinite(*picture.mm_per_pixel) &&
           *picture.mm_per_pixel > 0 && picture.width_px > 0;
}

double width_mm(const journal::ReadingPicture& picture) {
    return picture.width_px * picture.mm_per_pixel.value();
}

kainjow::mustache::data picture_data(const journal::ReadingPicture& picture,
                                     const std::string& alt_text) {
    kainjow::mustache::data data;
    const bool scaled = has_scale(picture);
    data.set("src", data_uri(picture));
    data.set("alt", alt_text);
    data.set("width_px", std::to_string(picture.width_px));
    data.set("height_px", std::to_string(picture.height_px));
    data.set("is_scaled", scaled);
    if (scaled) data.set("width_mm", insight::fixed_text(width_mm(picture), 2));
    return data;
}

kainjow::mustache::partial img_partial() {
    return {[] {
        return std::string(
            "<img src=\"{{{src}}}\" alt=\"{{alt}}\" width=\"{{width_px}}\" "
            "height=\"{{height_px}}\"{{#is_scaled}} style=\"--w:{{width_mm}}\"{{/is_scaled}}"
            "{{^is_scaled}} class=\"unscaled\"{{/is_scaled}}>");
    }};
}

kainjow::mustache::partial ruler_partial() {
    return {[] { return ruler_svg(); }};
}

}  // namespace loafmark::reports
