#pragma once

#include <kainjow/mustache.hpp>

#include "reports/report_page.h"

namespace loafmark::reports {

// Sets what the shelf of page.mustache wants: slices of all bakes cut out, in order of
// `input.bakes` with their places in other orders beside, those with a scale and those without
// apart.
void set_shelf(kainjow::mustache::data& page, const ReportInput& input);

// The widest picture with a scale, in mm, so that the page's scale lets it fit on a phone; at least
// 100.
[[nodiscard]] double widest_picture_mm(const ReportInput& input);

}  // namespace loafmark::reports
