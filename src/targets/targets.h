// The printed things that give a photo its scale, as files for a printer. Where what lies on them
// is said in analysis/target_layout.h.
#pragma once

#include <string>

#include "analysis/target_layout.h"

namespace loafmark::targets {

// How a mat's field is printed: blue parts white crumb and floury crust from the paper; a frame
// saves ink where a dark sheet is laid in it; none leaves white paper, for dark rye. A strip has no
// field, and the style makes no difference to it.
enum class FieldStyle { blue, frame, none };

// One page as PDF or SVG, to be printed at 100 %. A mat's page is its own sheet; the strip's is A4,
// with the card to be cut out placed so that it also prints whole on US Letter: a page of the
// card's own size would be blown up by every printer that fits pages to its paper. Neither carries
// a date: equal arguments give an equal PDF, and an SVG that differs in ids at most. Throws
// std::runtime_error with cairo's reason when the page cannot be made.
[[nodiscard]] std::string target_pdf(TargetKind kind, FieldStyle style = FieldStyle::blue);
[[nodiscard]] std::string target_svg(TargetKind kind, FieldStyle style = FieldStyle::blue);

}  // namespace loafmark::targets
