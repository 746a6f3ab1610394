#include "reports/cut_out.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "charts/svg_text.h"
#include "insight/plain_numbers.h"
#include "reports/plain_words.h"

namespace loafmark::reports {
namespace {

constexpr std::string_view alphabet =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

// Opens an <svg> that shows the picture's window.
std::string opened(const journal::ReadingPicture& picture, const std::string& alt_text) {
    using charts::coordinate;
    const Window window = window_of(picture);
    std::string svg = "<svg class=\"cut";
    if (!has_scale(picture)) svg += " unscaled";
    svg += "\" role=\"img\" aria-label=\"" + charts::xml_escaped(alt_text) + "\" viewBox=\"" +
           coordinate(window.left) + " " + coordinate(window.top) + " " + coordinate(window.width) +
           " " + coordinate(window.height) + "\"";
    if (has_scale(picture))
        svg += " style=\"--w:" + insight::fixed_text(width_mm(picture), 1) + "\"";
    return svg + ">";
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

Window window_of(const journal::ReadingPicture& picture) {
    const double width = picture.width_px;
    const double height = picture.height_px;
    if (picture.outline.empty()) return {0, 0, width, height};
    const auto [left, right] = std::ranges::minmax(picture.outline, {}, &PicturePoint::x);
    const auto top = std::ranges::min(picture.outline, {}, &PicturePoint::y);
    Window window;
    window.left = std::clamp(left.x, 0.0, width);
    window.top = std::clamp(top.y, 0.0, height);
    window.width = std::clamp(right.x, 0.0, width) - window.left;
    window.height = height - window.top;
    // An outline that lies elsewhere is none.
    if (!(window.width > 0 && window.height > 0)) return {0, 0, width, height};
    return window;
}

double width_mm(const journal::ReadingPicture& picture) {
    return window_of(picture).width * picture.mm_per_pixel.value();
}

double height_mm(const journal::ReadingPicture& picture) {
    return window_of(picture).height * picture.mm_per_pixel.value();
}

std::string outline_path(const journal::ReadingPicture& picture) {
    std::string path;
    for (const PicturePoint& point : picture.outline) {
        path += path.empty() ? 'M' : ' ';
        path.append(charts::coordinate(point.x)).append(" ").append(charts::coordinate(point.y));
    }
    return path.empty() ? path : path + "Z";
}

std::string cut_face_of(const journal::BakeEntry& bake) {
    return "Cut face of " + bake.bake.title + ", " + long_date(bake.bake.date);
}

std::string cut_out(const journal::ReadingPicture& picture, journal::SliceId id,
                    const std::string& alt_text) {
    const std::string number = std::to_string(id.value);
    std::string svg = opened(picture, alt_text);
    const std::string path = outline_path(picture);
    if (!path.empty())
        svg += "<clipPath id=\"edge-" + number + "\"><path d=\"" + path + "\"/></clipPath>";
    svg += "<image preserveAspectRatio=\"none\" id=\"face-" + number + "\"";
    if (!path.empty()) svg += " clip-path=\"url(#edge-" + number + ")\"";
    return svg + charts::attribute("width", picture.width_px) +
           charts::attribute("height", picture.height_px) + " href=\"" + data_uri(picture) +
           "\"/></svg>";
}

std::string cut_out_again(const journal::ReadingPicture& picture, journal::SliceId id,
                          const std::string& alt_text) {
    return opened(picture, alt_text) + "<use href=\"#face-" + std::to_string(id.value) +
           "\"/></svg>";
}

std::string upright_ruler(double tallest_mm) {
    const int length = static_cast<int>(std::ceil(tallest_mm / 10)) * 10;
    const std::string high = std::to_string(length);
    std::string lines;
    for (int mm = 0; mm <= length; mm += 10) {
        const std::string y = std::to_string(length - mm);
        const char* from = mm % 50 == 0 ? "0" : "5";
        lines.append("M").append(from).append(" ").append(y).append("H10");
    }
    std::string html = "<span class=\"upright\" style=\"--h:" + high + "\"><svg viewBox=\"0 0 10 " +
                       high +
                       "\" preserveAspectRatio=\"none\" aria-hidden=\"true\"><path d=\"M10 0V" +
                       high + lines + "\"/></svg>";
    for (int mm = 50; mm <= length; mm += 50)
        html += "<i style=\"--at:" + std::to_string(mm) + "\">" + std::to_string(mm) +
                (mm + 50 > length ? "<b>mm</b>" : "") + "</i>";
    return html + "</span>";
}

}  // namespace loafmark::reports
