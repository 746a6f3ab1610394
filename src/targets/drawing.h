// The few strokes that targets are made of. Lengths are user units of `cairo`: millimetres.
#pragma once

#include <cairo.h>

#include <string>
#include <vector>

#include "analysis/geometry.h"

namespace loafmark::targets {

struct Colour {  // sRGB, 0 to 1
    double red;
    double green;
    double blue;
};
inline constexpr Colour black{0, 0, 0};
inline constexpr Colour white{1, 1, 1};
inline constexpr Colour grey{0.45, 0.45, 0.45};
// Of middle lightness, and far from any bread in hue.
inline constexpr Colour mid_blue{0.25, 0.45, 0.70};

struct Box {
    double left;
    double top;
    double width;
    double height;
};

void fill_box(cairo_t* cairo, const Box& box, const Colour& colour);
// The stroke lies inside the box.
void outline_box(cairo_t* cairo, const Box& box, double stroke_mm, const Colour& colour);
void draw_line(cairo_t* cairo, PlanePoint from_mm, PlanePoint to_mm, double stroke_mm,
               const Colour& colour);

struct Font {
    std::string family;
    double size_mm;  // of the em
    bool bold = false;
};

// Sets lines of text from the top-left of the box, all in one size: that of the font, or less where
// the widest line or the number of lines asks for it. Nothing is drawn outside the box.
void draw_text(cairo_t* cairo, const std::vector<std::string>& lines, const Box& box,
               const Font& font, const Colour& colour);

}  // namespace loafmark::targets
