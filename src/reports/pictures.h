// Pictures within the page's templates.
#pragma once

#include <kainjow/mustache.hpp>
#include <string>

#include "journal/records.h"
#include "reports/cut_out.h"

namespace loafmark::reports {

// What the templates' {{> img}} wants.
[[nodiscard]] kainjow::mustache::data picture_data(const journal::ReadingPicture& picture,
                                                   const std::string& alt_text);
[[nodiscard]] kainjow::mustache::partial img_partial();

// What {{> ruler}} is: 100 mm at the scale of the pictures above it.
[[nodiscard]] kainjow::mustache::partial ruler_partial();
}  // namespace loafmark::reports
