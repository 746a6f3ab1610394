#include "targets/drawing.h"

#include <algorithm>
#include <memory>

namespace loafmark::targets {
namespace {

void set_colour(cairo_t* cairo, const Colour& colour) {
    cairo_set_source_rgb(cairo, colour.red, colour.green, colour.blue);
}

// Hinted widths do not shrink in step with the font; text that was measured at one size would then
// not fit at another.
void scale_freely(cairo_t* cairo) {
    const std::unique_ptr<cairo_font_options_t, decltype(&cairo_font_options_destroy)> options(
        cairo_font_options_create(), cairo_font_options_destroy);
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(cairo, options.get());
}

double widest(cairo_t* cairo, const std::vector<std::string>& lines) {
    double width = 0;
    for (const std::string& line : lines) {
        cairo_text_extents_t extents;
        cairo_text_extents(cairo, line.c_str(), &extents);
        width = std::max({width, extents.x_advance, extents.x_bearing + extents.width});
    }
    return width;
}

}  // namespace

void fill_box(cairo_t* cairo, const Box& box, const Colour& colour) {
    set_colour(cairo, colour);
    cairo_rectangle(cairo, box.left, box.top, box.width, box.height);
    cairo_fill(cairo);
}

void outline_box(cairo_t* cairo, const Box& box, double stroke_mm, const Colour& colour) {
    set_colour(cairo, colour);
    cairo_set_line_width(cairo, stroke_mm);
    cairo_rectangle(cairo, box.left + stroke_mm / 2, box.top + stroke_mm / 2, box.width - stroke_mm,
                    box.height - stroke_mm);
    cairo_stroke(cairo);
}

void draw_line(cairo_t* cairo, PlanePoint from_mm, PlanePoint to_mm, double stroke_mm,
               const Colour& colour) {
    set_colour(cairo, colour);
    cairo_set_line_width(cairo, stroke_mm);
    cairo_move_to(cairo, from_mm.x, from_mm.y);
    cairo_line_to(cairo, to_mm.x, to_mm.y);
    cairo_stroke(cairo);
}

void draw_text(cairo_t* cairo, const std::vector<std::string>& lines, const Box& box,
               const Font& font, const Colour& colour) {
    cairo_select_font_face(cairo, font.family.c_str(), CAIRO_FONT_SLANT_NORMAL,
                           font.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    scale_freely(cairo);
    cairo_set_font_size(cairo, font.size_mm);
    cairo_font_extents_t extents;
    cairo_font_extents(cairo, &extents);
    const double leading = std::max(1.35 * font.size_mm, extents.ascent + extents.descent);
    const double shrink = std::min({1.0, box.width / widest(cairo, lines),
                                    box.height / (leading * static_cast<double>(lines.size()))});
    cairo_set_font_size(cairo, font.size_mm * shrink);
    set_colour(cairo, colour);
    double baseline = box.top + extents.ascent * shrink;
    for (const std::string& line : lines) {
        cairo_move_to(cairo, box.left, baseline);
        cairo_show_text(cairo, line.c_str());
        baseline += leading * shrink;
    }
}

}  // namespace loafmark::targets
