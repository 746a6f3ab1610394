// The JSON texts of readings, `measure --json`. Keys are those of the catalogue of measures, dots
// parting nested objects. A photo's measure that was not had is null; a kitchen measure that was
// not had is left out. What is not a finite number is null.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "analysis/measures.h"
#include "analysis/reading.h"

namespace loafmark::documents {

// What the baker can do about a warning. Given by the commands, which alone know their options.
using RemedyOf = std::function<std::string(WarningCode)>;

// File names of one slice's maps, without their folder.
struct LabelMapNames {
    std::string cells;
    std::string slice;
    std::string crumb;
    std::string frame;
};

struct MeasuredPhoto {
    PhotoReading reading;
    std::vector<LabelMapNames> label_maps = {};  // one a slice, or none were written
};

// {"schema": 1, "photos": [...]}, indented, with a line's end.
[[nodiscard]] std::string photo_document(const std::vector<MeasuredPhoto>& photos,
                                         const RemedyOf& remedy_of);

// The document of one slice, kept with its reading: its object in photo_document() together with
// "photo", "taken", "scale", "analysis_version" and the "warnings" that concern it. On one line.
// `slice` is 0-based. Throws std::out_of_range for a slice that the reading has not.
[[nodiscard]] std::string slice_document(const PhotoReading& reading, std::size_t slice,
                                         const RemedyOf& remedy_of);

}  // namespace loafmark::documents
