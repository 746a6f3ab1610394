// Slices cut out of their pictures.
#pragma once

#include <cstdint>
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

// Width and height in mm of what is seen of it: cut out along its outline where it has one, down to
// its lower edge. Only for pictures with a scale.
[[nodiscard]] double width_mm(const journal::ReadingPicture& picture);
[[nodiscard]] double height_mm(const journal::ReadingPicture& picture);

// The part of a picture that is shown, in its pixels.
struct Window {
    double left = 0;
    double top = 0;
    double width = 0;
    double height = 0;
};
[[nodiscard]] Window window_of(const journal::ReadingPicture& picture);
// The outline as the `d` of a <path>; empty where there is none.
[[nodiscard]] std::string outline_path(const journal::ReadingPicture& picture);

// "Cut face of Emmer, wetter, 7 November 2026"
[[nodiscard]] std::string cut_face_of(const journal::BakeEntry& bake);

// A slice cut out along its outline, as <svg> of class "cut" whose foot is the base line; the
// page's scale gives its size. The page holds the picture itself once, where cut_out() stands;
// elsewhere it is shown again.
[[nodiscard]] std::string cut_out(const journal::ReadingPicture& picture, journal::SliceId id,
                                  const std::string& alt_text);
[[nodiscard]] std::string cut_out_again(const journal::ReadingPicture& picture, journal::SliceId id,
                                        const std::string& alt_text);

// A ruler that stands on the shelf, up to the next 10 mm above `tallest`.
[[nodiscard]] std::string upright_ruler(double tallest_mm);

}  // namespace loafmark::reports
