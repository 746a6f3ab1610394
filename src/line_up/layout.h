// Where everything lies on a line-up. In millimetres of bread, x right, y down.
#pragma once

#include <string>
#include <vector>

#include "line_up/line_up.h"
#include "reports/cut_out.h"

namespace loafmark::line_up {

struct PlacedSlice {
    const Slice* slice;
    reports::Window window;  // of its picture, in pixels
    double x = 0;            // of the window's top left corner
    double y = 0;
    double mm_per_pixel = 1;
};

struct Line {
    double x1, y1, x2, y2;
    double width;
};

enum class Kind { title, name, remark };
enum class Anchor { start, middle, end };
struct Text {
    double x, y;  // of its foot
    std::string text;
    Kind kind;
    Anchor anchor;
    double size;  // of its letters
};

struct Colour {
    int red, green, blue;
};
inline constexpr Colour paper{251, 246, 236};
inline constexpr Colour ink{45, 36, 32};
inline constexpr Colour soft{109, 95, 85};
inline constexpr Colour crust{138, 75, 35};
[[nodiscard]] Colour colour_of(Kind kind);

struct Layout {
    double width = 0;
    double height = 0;
    std::vector<PlacedSlice> slices;
    std::vector<Line> hairs;  // behind the slices, at every 50 mm of height
    std::vector<Line> lines;
    std::vector<Text> texts;
};

// Throws as line_up.h says. Lives as long as `line_up`.
[[nodiscard]] Layout layout_of(const LineUp& line_up);

}  // namespace loafmark::line_up
