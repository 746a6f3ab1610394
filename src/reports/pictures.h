// Pictures within the page.
#pragma once

#include <cstdint>
#include <kainjow/mustache.hpp>
#include <span>
#include <string>

#include "journal/records.h"

namespace loafmark::reports {

// RFC 4648, with padding.
[[nodiscard]] std::string base64(std::span<const std::uint8_t> bytes);

// "data:image/jpeg;base64,..."; only image/jpeg and image/png are let through, anything else is an
// empty text.
[[nodiscard]] std::string data_uri(const journal::ReadingPicture& picture);

[[nodiscard]] bool has_scale(const journal::ReadingPicture& picture);

// Width in mm; only for pictures with a scale.
[[nodiscard]] double width_mm(const journal::ReadingPicture& picture);

// What the templates' {{> img}} wants.
[[nodiscard]] kainjow::mustache::data picture_data(const journal::ReadingPicture& picture,
                                                   const std::string& alt_text);
[[nodiscard]] kainjow::mustache::partial img_partial();

// What {{> ruler}} is: 100 mm at the scale of the pictures above it.
[[nodiscard]] kainjow::mustache::partial ruler_partial();

}  // namespace loafmark::reports
