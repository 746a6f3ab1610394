// Slices side by side as a picture of its own, for a film, a class or a wall.
#pragma once

#include <string>
#include <vector>

#include "journal/records.h"

namespace loafmark::reports {

struct LineUpSlice {
    journal::ReadingPicture picture;  // its lower edge is the base line
    std::string name;                 // "emmer, 70 % water"
    std::string remark;               // "1 March 2026"
};

// An SVG file: all slices on one base line at one scale, in the order given, with a millimetre
// ruler. Pictures are embedded. Slices without a scale, and those of other than JPEG or PNG, are
// left out; throws std::invalid_argument, with words for people, where none is left.
[[nodiscard]] std::string line_up_svg(const std::vector<LineUpSlice>& slices,
                                      const std::string& title);

}  // namespace loafmark::reports
