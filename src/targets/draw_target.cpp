#include "targets/draw_target.h"

#include <optional>
#include <vector>

#include "targets/drawing.h"

namespace loafmark::targets {
namespace {

constexpr double quiet_zone_mm = marker_side_mm / marker_modules;
constexpr double body_text_mm = 2.8;
constexpr double small_text_mm = 2.5;
// The strip's card lies here on its page; 30 mm from the top, it also clears the edge of a Letter
// sheet that the page was centred on.
constexpr PlanePoint card_on_page_mm{15, 30};

// What to do with the line of 100 mm, in two lines.
std::vector<std::string> check_wording(TargetKind kind) {
    const std::string paper = kind == TargetKind::a4_mat       ? "a4"
                              : kind == TargetKind::letter_mat ? "letter"
                                                               : "strip";
    return {
        "Measure this line: 100 mm if the printer kept the size. Tell loafmark once what it is:",
        "loafmark target --paper " + paper + " --print-check 98.7mm"};
}

PlanePoint on_page(const Page& page, PlanePoint in_target_mm) {
    return {page.first_marker_mm.x + in_target_mm.x, page.first_marker_mm.y + in_target_mm.y};
}

// White modules reach over their white neighbours, to the right and below: laid edge to edge, a
// viewer that smooths edges would show the black beneath as hairlines.
void draw_marker(cairo_t* cairo, int id, PlanePoint centre_mm) {
    const double module_mm = marker_side_mm / marker_modules;
    const double left = centre_mm.x - marker_side_mm / 2;
    const double top = centre_mm.y - marker_side_mm / 2;
    fill_box(cairo, {left, top, marker_side_mm, marker_side_mm}, black);
    for (int row = 0; row < marker_modules; ++row)
        for (int column = 0; column < marker_modules; ++column) {
            if (!marker_module_is_white(id, row, column)) continue;
            const double x = left + column * module_mm;
            const double y = top + row * module_mm;
            const int across = marker_module_is_white(id, row, column + 1) ? 2 : 1;
            const int down = marker_module_is_white(id, row + 1, column) ? 2 : 1;
            fill_box(cairo, {x, y, across * module_mm, module_mm}, white);
            fill_box(cairo, {x, y, module_mm, down * module_mm}, white);
        }
}

void draw_markers(cairo_t* cairo, TargetKind kind) {
    for (const TargetMarker& marker : markers_of(kind))
        draw_marker(cairo, marker.id, on_page(page_of(kind), marker.centre_mm));
}

// A line with a cap at each end, the caps' outer edges 100 mm apart, and a tick every 10 mm.
void draw_check_line(cairo_t* cairo, TargetKind kind) {
    const auto [from, to] = check_line_of(kind);
    const double cap_mm = 0.25;
    draw_line(cairo, from, to, cap_mm, black);
    fill_box(cairo, {from.x, from.y - 2.5, cap_mm, 5}, black);
    fill_box(cairo, {to.x - cap_mm, to.y - 2.5, cap_mm, 5}, black);
    for (int ten = 1; ten < 10; ++ten)
        draw_line(cairo, {from.x + 10 * ten, from.y}, {from.x + 10 * ten, from.y + 1.2}, 0.15,
                  black);
}

void draw_field(cairo_t* cairo, TargetKind kind, FieldStyle style) {
    const std::optional<FieldLayout> field = field_of(kind);
    if (!field || style == FieldStyle::none) return;
    const PlanePoint corner = on_page(page_of(kind), field->top_left_mm);
    const Box box{corner.x, corner.y, field->width_mm, field->height_mm};
    if (style == FieldStyle::blue)
        fill_box(cairo, box, mid_blue);
    else
        outline_box(cairo, box, 0.5, grey);
}

// "Bake ______  Flour ______  Date ______", side by side.
void draw_write_in_lines(cairo_t* cairo, const Box& box, const std::string& family) {
    const std::vector<std::string> labels = {"Bake", "Flour", "Date"};
    const double gap_mm = 3;
    const double label_mm = 9;
    const double cell_mm = (box.width + gap_mm) / static_cast<double>(labels.size());
    const double baseline = box.top + box.height;
    for (std::size_t i = 0; i < labels.size(); ++i) {
        const double left = box.left + static_cast<double>(i) * cell_mm;
        draw_text(cairo, {labels[i]}, {left, baseline - 3.2, label_mm, 3.8}, {family, body_text_mm},
                  black);
        draw_line(cairo, {left + label_mm, baseline}, {left + cell_mm - gap_mm, baseline}, 0.2,
                  grey);
    }
}

// What stands between two markers of one row, clear of their quiet zones.
Box band_between(TargetKind kind, PlanePoint left_marker_mm) {
    const PlanePoint centre = on_page(page_of(kind), left_marker_mm);
    const double reach = marker_side_mm / 2 + quiet_zone_mm;
    return {centre.x + reach + 1, centre.y - reach, markers_of(kind)[1].centre_mm.x - 2 * reach - 2,
            2 * reach};
}

void draw_mat(cairo_t* cairo, TargetKind kind, FieldStyle style, const std::string& family) {
    draw_field(cairo, kind, style);
    const Box top = band_between(kind, markers_of(kind)[0].centre_mm);
    const std::string paper = kind == TargetKind::a4_mat ? "A4" : "US Letter";
    draw_text(cairo, {"loafmark mat, " + paper}, {top.left, top.top, top.width, 5.5},
              {family, 4.2, true}, black);
    draw_text(
        cairo,
        {"1.  Print at 100 % (\"actual size\"), then measure the line at the foot of this page.",
         "2.  Let the loaf cool fully. Cut it across at its middle: serrated knife, long strokes,",
         "     no pressing. Brush off loose crumbs.",
         "3.  Lay the slice below, its base towards the foot. Keep all four squares uncovered.",
         "4.  Photograph from straight above, all four squares in view, even light, no flash.",
         "5.  Rule how thick the slice is and say so: --thickness 15mm"},
        {top.left, top.top + 6, top.width, 21.5}, {family, body_text_mm}, black);
    draw_text(cairo,
              {"Printed paper is not for food contact: lay baking parchment between, or do not eat "
               "the measured slice."},
              {top.left, top.top + 28, top.width, 4}, {family, small_text_mm, true}, black);

    const Box foot = band_between(kind, markers_of(kind)[3].centre_mm);
    const CheckLine line = check_line_of(kind);
    draw_text(cairo, check_wording(kind), {foot.left, line.from_mm.y + 4, foot.width, 8},
              {family, body_text_mm}, black);
    draw_check_line(cairo, kind);
    draw_write_in_lines(cairo, {foot.left, foot.top + 21, foot.width, 6}, family);
}

void draw_strip_card(cairo_t* cairo, const std::string& family) {
    const SheetLayout card = sheet_of(TargetKind::strip);
    const Box edge{card_on_page_mm.x, card_on_page_mm.y, card.width_mm, card.height_mm};
    const double dash[] = {2, 1.5};
    cairo_set_dash(cairo, dash, 2, 0);
    outline_box(cairo, edge, 0.2, grey);
    cairo_set_dash(cairo, nullptr, 0, 0);

    const Box middle = band_between(TargetKind::strip, markers_of(TargetKind::strip)[0].centre_mm);
    draw_text(cairo, {"loafmark strip"}, {middle.left, middle.top, middle.width, 5},
              {family, 3.6, true}, black);
    draw_text(cairo,
              {"Stand it upright in the plane of the cut face, or lay it flat",
               "beside the slice and say how thick that is: --thickness 15mm"},
              {middle.left, middle.top + 5.5, middle.width, 8}, {family, body_text_mm}, black);
    draw_check_line(cairo, TargetKind::strip);
    draw_text(cairo, check_wording(TargetKind::strip),
              {middle.left, middle.top + 24, middle.width, 8}, {family, body_text_mm}, black);
}

void draw_strip_page(cairo_t* cairo, const std::string& family) {
    const double left = card_on_page_mm.x;
    const double width = sheet_of(TargetKind::strip).width_mm;
    const double below = card_on_page_mm.y + sheet_of(TargetKind::strip).height_mm;
    draw_text(cairo, {"loafmark strip: a scale for loaves and slices off the mat"},
              {left, 16, width, 8}, {family, 5, true}, black);
    draw_strip_card(cairo, family);
    draw_text(
        cairo,
        {"1.  Print at 100 % (\"actual size\"), then measure the line on the card.",
         "2.  Glue the page to stiff card and cut along the dashed line; the white rim is part of "
         "it.",
         "3.  Let the loaf cool fully. Cut it across at its middle: serrated knife, long strokes, "
         "no "
         "pressing.",
         "4.  Standing loaf: stand the strip upright, its face in the plane of the cut face.",
         "     Lying slice: lay the strip flat beside it, and rule how thick the slice is.",
         "5.  Photograph square to the cut face, both squares in view, even light, no flash."},
        {left, below + 8, width, 30}, {family, 3.4}, black);
    draw_text(
        cairo,
        {"Printed paper is not for food contact: keep the strip off bread that will be eaten."},
        {left, below + 40, width, 6}, {family, 3.4, true}, black);
}

}  // namespace

Page page_of(TargetKind kind) {
    const SheetLayout sheet = sheet_of(kind);
    if (kind != TargetKind::strip) return {sheet.width_mm, sheet.height_mm, sheet.first_marker_mm};
    const SheetLayout a4 = sheet_of(TargetKind::a4_mat);
    return {
        a4.width_mm,
        a4.height_mm,
        {card_on_page_mm.x + sheet.first_marker_mm.x, card_on_page_mm.y + sheet.first_marker_mm.y}};
}

CheckLine check_line_of(TargetKind kind) {
    const double length_mm = 100;
    const bool is_strip = kind == TargetKind::strip;
    const TargetMarker& left_marker = markers_of(kind)[is_strip ? 0 : 3];
    const double middle_mm = markers_of(kind)[1].centre_mm.x / 2;
    const double below_centre_mm = is_strip ? 3 : -9;
    const double y = left_marker.centre_mm.y + below_centre_mm;
    const Page page = page_of(kind);
    return {on_page(page, {middle_mm - length_mm / 2, y}),
            on_page(page, {middle_mm + length_mm / 2, y})};
}

void draw_target(cairo_t* cairo, TargetKind kind, FieldStyle style,
                 const std::string& font_family) {
    if (kind == TargetKind::strip)
        draw_strip_page(cairo, font_family);
    else
        draw_mat(cairo, kind, style, font_family);
    draw_markers(cairo, kind);
}

}  // namespace loafmark::targets
