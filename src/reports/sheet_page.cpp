#include "reports/sheet_page.h"

#include <algorithm>
#include <cmath>
#include <kainjow/mustache.hpp>
#include <stdexcept>

#include "cautions/cautions.h"
#include "charts/svg_text.h"
#include "reports/pictures.h"
#include "reports/plain_words.h"
#include "reports/templates.h"

namespace loafmark::reports {
namespace {

using kainjow::mustache::data;
using kainjow::mustache::mustache;
using kainjow::mustache::partial;

data pictures_of(const SheetInput& input) {
    data list{data::type::list};
    int number = 0;
    for (const SheetFlour& flour : input.flours) {
        if (!flour.picture || !has_scale(*flour.picture)) continue;
        data picture;
        picture.set("cut_out", cut_out(*flour.picture, {++number},
                                       "Cut face of a loaf of " + flour.kind.words));
        std::string label =
            as_sentence(flour.kind.words + (flour.is_control ? ", the control" : ""));
        label.pop_back();  // its full stop
        picture.set("label", label);
        list.push_back(picture);
    }
    return list;
}

double widest_mm(const SheetInput& input) {
    double widest = 100;
    for (const SheetFlour& flour : input.flours)
        if (flour.picture && has_scale(*flour.picture))
            widest = std::max(widest, width_mm(*flour.picture));
    return widest;
}

double tallest_mm(const SheetInput& input) {
    double tallest = 50;
    for (const SheetFlour& flour : input.flours)
        if (flour.picture && has_scale(*flour.picture))
            tallest = std::max(tallest, height_mm(*flour.picture));
    return tallest;
}

data flour_data(const SheetFlour& flour) {
    data one;
    one.set("kind", as_sentence(flour.kind.words).substr(0, flour.kind.words.size()));
    one.set("is_control", flour.is_control);
    one.set("protein", flour.kind.protein ? data(as_sentence(*flour.kind.protein)) : data(false));
    data lines{data::type::list};
    for (const insight::SheetLine& line : flour.lines) {
        data row;
        row.set("heading", raised(line.heading));
        row.set("text", raised(line.text));
        row.set("from", line.from);
        lines.push_back(row);
    }
    one.set("lines", lines);
    one.set("nothing", flour.lines.empty());
    // Beside one flour the control is its picture alone.
    one.set("shown", !flour.lines.empty() || !flour.is_control);
    return one;
}

std::vector<std::string> cautions_of(const SheetInput& input) {
    std::vector<std::optional<std::string>> grains;
    for (const SheetFlour& flour : input.flours)
        grains.push_back(flour.kind.grain);
    std::string text = cautions::of_grains(grains) + cautions::text_of("raw") + "\n" +
                       cautions::text_of("no-proof") + "\n" + cautions::text_of("law") + "\n";
    if (cautions::of_grains(grains).find(cautions::text_of("traces")) == std::string::npos)
        text += cautions::text_of("traces") + "\n";
    std::vector<std::string> lines;
    for (std::size_t from = 0; from < text.size();) {
        const std::size_t end = text.find('\n', from);
        lines.push_back(text.substr(from, end - from));
        from = end + 1;
    }
    return lines;
}

}  // namespace

std::string sheet_page(const SheetInput& input) {
    data page;
    const auto embedded = [](std::string_view text) {
        return data(partial([text] { return std::string(text); }));
    };
    page.set("style", embedded(style_template));
    page.set("widest_mm", std::to_string(static_cast<int>(std::ceil(widest_mm(input)))));
    page.set("title", input.title);
    page.set("made", "Made " + input.made_at + " with " + input.made_with + ".");
    data pictures = pictures_of(input);
    page.set("has_pictures", pictures.is_non_empty_list());
    page.set("upright_ruler", upright_ruler(tallest_mm(input)));
    page.set("slices", pictures);
    data flours{data::type::list};
    for (const SheetFlour& flour : input.flours)
        flours.push_back(flour_data(flour));
    page.set("flours", flours);
    data lines{data::type::list};
    for (const std::string& text : cautions_of(input)) {
        data line;
        line.set("words", text);
        lines.push_back(line);
    }
    page.set("cautions", lines);
    mustache tmpl{std::string(sheet_template)};
    tmpl.set_custom_escape([](const std::string& text) { return charts::xml_escaped(text); });
    std::string html = tmpl.render(page);
    if (!tmpl.is_valid()) throw std::logic_error("sheet template: " + tmpl.error_message());
    return html;
}

}  // namespace loafmark::reports
