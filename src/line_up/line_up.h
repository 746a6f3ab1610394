// Slices side by side as a picture of its own, for a film, a class or a wall: all on one base line
// at one scale, in the order given, with a millimetre ruler.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "analysis/picture.h"
#include "journal/records.h"

namespace loafmark::line_up {

struct Slice {
    journal::ReadingPicture picture;  // its lower edge is the base line
    std::string name;                 // "emmer, 70 % water"
    std::string remark;               // "1 March 2026, 83 mm"
};

struct LineUp {
    std::string title;
    std::vector<Slice> slices;
};

// Both leave out slices without a scale, and pictures of other than JPEG or PNG; both throw
// std::invalid_argument, with words for people, where none is left.

// An SVG file with the pictures in it.
[[nodiscard]] std::string line_up_svg(const LineUp& line_up);

// The pixels of a kept picture.
using PixelsOf = std::function<Picture(const journal::ReadingPicture&)>;
// A PNG of 2 to 8 pixels a millimetre, near 3840 pixels wide. What `pixels_of` throws passes
// through.
[[nodiscard]] std::vector<std::uint8_t> line_up_png(const LineUp& line_up,
                                                    const PixelsOf& pixels_of);

}  // namespace loafmark::line_up
