// Photos whose true measures are known, as read from their files.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "analysis/geometry.h"
#include "analysis/measures.h"
#include "analysis/picture.h"
#include "analysis/units.h"

namespace loafmark::accuracy {

// Which true cell lies where.
struct CellTruth {
    LabelMap cells;           // 0 bread or outside, else the cell's number
    double mm_per_pixel = 0;  // of the map
    PlanePoint first_pixel;   // centre of the map's top-left pixel, slice frame, mm
};

struct TrueSlice {
    std::map<Measure, double> measures;  // of the outline and the crust; in the measures' units
    std::vector<PlanePoint> outline;     // slice frame, mm
    Homography photo_from_slice{};
    std::optional<CellTruth> cells;   // none: the crumb is not to be judged
    std::optional<CellTruth> specks;  // on solid bread; none: not known where they are
};

struct Truth {
    std::filesystem::path photo;
    std::string look;                      // in words; may be empty
    std::optional<Millimetres> thickness;  // what its user would type
    // The photo shows nothing but crumb at this scale; its slice has no outline.
    std::optional<MillimetresPerPixel> crumb_only;
    std::vector<TrueSlice> slices;
};

// Reads a truth file of our own phantoms (docs/phantoms.md) or one of another renderer that gives
// `H_slice_to_photo`, `outline_mm` and a `cells_map`. Throws std::runtime_error naming the file.
[[nodiscard]] Truth read_truth(const std::filesystem::path& json_file);

// The truth files in a folder, by name. Throws std::runtime_error when the folder cannot be read or
// holds none.
[[nodiscard]] std::vector<std::filesystem::path> truth_files(const std::filesystem::path& folder);

}  // namespace loafmark::accuracy
