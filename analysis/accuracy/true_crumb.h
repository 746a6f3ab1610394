// Crumb measures of a label map by plain counting, as docs/measurement.md defines them. Shares
// nothing with the analysis, so that neither can lean on the other.
#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include "analysis/measure.h"

namespace loafmark::accuracy {

// One labelled region in pixels.
struct Blob {
    double pixels = 0, x = 0, y = 0;  // area and centroid
    double xx = 0, yy = 0, xy = 0;    // second moments about the centroid
};

// Region k at k - 1.
[[nodiscard]] std::vector<Blob> blobs_of(const std::vector<std::uint16_t>& labels, int width);

[[nodiscard]] double diameter_of(const Blob& blob, double mm_per_pixel);

// Whether its centroid lies in the crumb.
[[nodiscard]] bool centred_in(const Blob& blob, const LabelMap& crumb);

struct CrumbPlace {
    const std::vector<std::uint16_t>& labels;  // cell numbers, the crumb's size
    const LabelMap& crumb;                     // not 0: crumb
    double mm_per_pixel = 0.1;
    double limit_mm = 0.5;
    // The loaf's base line in pixels and its height in mm; none where they are not known.
    PlanePoint base_left, base_right;
    double height_mm = 0;
};

struct CrumbTruth {
    std::map<Measure, double> measures;
    std::vector<double> diameters;  // of cells that count, mm, rising
};

[[nodiscard]] CrumbTruth crumb_truth(const CrumbPlace& place);

}  // namespace loafmark::accuracy
