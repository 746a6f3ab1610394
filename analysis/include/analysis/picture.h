// Pixels as plain values, for whoever stores, shows or renders them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace loafmark {

// An 8-bit sRGB picture: rows top to bottom, pixels left to right, three bytes R, G, B each,
// without padding.
struct Picture {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> rgb;  // width * height * 3 bytes
    bool operator==(const Picture&) const = default;
};

// A place in a picture, in pixels from its top left corner: x right, y down.
struct PicturePoint {
    double x = 0;
    double y = 0;
    bool operator==(const PicturePoint&) const = default;
};

// A 16-bit map of the same layout, one number a pixel: cell labels, or a mask of 0 and 1.
struct LabelMap {
    int width = 0;
    int height = 0;
    std::vector<std::uint16_t> labels;  // width * height
    bool operator==(const LabelMap&) const = default;
};

}  // namespace loafmark
