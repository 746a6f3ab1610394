#include "reports/pictures.h"

#include "insight/plain_numbers.h"

namespace loafmark::reports {
namespace {

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

kainjow::mustache::data picture_data(const journal::ReadingPicture& picture,
                                     const std::string& alt_text) {
    kainjow::mustache::data data;
    const bool scaled = has_scale(picture);
    data.set("src", data_uri(picture));
    data.set("alt", alt_text);
    data.set("width_px", std::to_string(picture.width_px));
    data.set("height_px", std::to_string(picture.height_px));
    data.set("is_scaled", scaled);
    if (scaled) data.set("width_mm", insight::fixed_text(width_mm(picture), 1));
    return data;
}

kainjow::mustache::partial img_partial() {
    return {[] {
        return std::string(
            "<img decoding=\"async\" src=\"{{{src}}}\" alt=\"{{alt}}\" width=\"{{width_px}}\" "
            "height=\"{{height_px}}\"{{#is_scaled}} style=\"--w:{{width_mm}}\"{{/is_scaled}}"
            "{{^is_scaled}} class=\"unscaled\"{{/is_scaled}}>");
    }};
}

kainjow::mustache::partial ruler_partial() {
    return {[] { return ruler_svg(); }};
}

}  // namespace loafmark::reports
