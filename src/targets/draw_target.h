// Draws a target's page on any cairo surface; PDF, SVG and the tests' pictures share it.
#pragma once

#include <cairo.h>

#include <string>

#include "analysis/target_layout.h"
#include "targets/targets.h"

namespace loafmark::targets {

struct Page {
    double width_mm;
    double height_mm;
    PlanePoint first_marker_mm;  // the target's origin, from the page's top-left corner
};

// The page that a target is printed on; for the strip more than the card itself.
[[nodiscard]] Page page_of(TargetKind kind);

// The ends of the line of 100 mm that shows whether the printer scaled the page, on the page.
struct CheckLine {
    PlanePoint from_mm;
    PlanePoint to_mm;
};
[[nodiscard]] CheckLine check_line_of(TargetKind kind);

// Draws the page with its top-left corner at the origin; one user unit of `cairo` must be one
// millimetre. Text shrinks to its place, so that any font family will do.
void draw_target(cairo_t* cairo, TargetKind kind, FieldStyle style,
                 const std::string& font_family = "sans-serif");

}  // namespace loafmark::targets
