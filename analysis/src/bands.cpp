#include "bands.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "quantile.h"

namespace loafmark::analysis {
namespace {

constexpr double least_share = 0.005;    // of the crumb, in a band of the profile
constexpr double least_of_widest = 0.1;  // of a 1 mm band's crumb

struct Band {
    double crumb = 0, open = 0;  // pixels
    [[nodiscard]] double openness() const { return open / crumb; }
};

// Crumb and openings by height above the base line, in bands `tall`; what lies below or above the
// bands counts to the outermost.
std::vector<Band> bands_of(const CellMap& cells, const BaseFrame& frame, double tall, int count) {
    std::vector<Band> bands(static_cast<std::size_t>(count));
    const double rise = frame.up.x * frame.unit_per_pixel / tall;
    for (int y = 0; y < cells.matter.rows; ++y) {
        const uchar* matter = cells.matter.ptr<uchar>(y);
        double at = frame.above(0, y) / tall;
        for (int x = 0; x < cells.matter.cols; ++x, at += rise) {
            if (matter[x] == static_cast<uchar>(Matter::outside)) continue;
            Band& band = bands[static_cast<std::size_t>(std::clamp(floored(at), 0, count - 1))];
            band.crumb += 1;
            band.open += matter[x] >= static_cast<uchar>(Matter::cell) ? 1 : 0;
        }
    }
    return bands;
}

}  // namespace

OpennessProfile openness_profile(const CellMap& cells, const BaseFrame& frame) {
    OpennessProfile profile;
    if (frame.height <= 0) return profile;
    const std::vector<Band> bands =
        bands_of(cells, frame, frame.height / profile_bands, profile_bands);
    double crumb = 0;
    for (const Band& band : bands)
        crumb += band.crumb;
    for (std::size_t i = 0; i < bands.size(); ++i)
        if (bands[i].crumb > 0 && bands[i].crumb >= least_share * crumb)
            profile[i] = bands[i].openness();
    return profile;
}

std::optional<double> dense_base(const CellMap& cells, const BaseFrame& frame) {
    if (frame.height <= 0) return std::nullopt;
    const std::vector<Band> all =
        bands_of(cells, frame, 1, std::max(1, static_cast<int>(std::ceil(frame.height))));
    double widest = 0;
    for (const Band& band : all)
        widest = std::max(widest, band.crumb);
    std::vector<double> openness;
    for (const Band& band : all)
        if (band.crumb > 0 && band.crumb >= least_of_widest * widest)
            openness.push_back(band.openness());
    if (openness.empty()) return std::nullopt;
    std::vector<double> sorted = openness;
    const double usual = median_of(sorted);
    if (usual <= 0) return std::nullopt;
    const auto first_open =
        std::find_if(openness.begin(), openness.end(), [&](double o) { return o >= usual / 2; });
    return static_cast<double>(first_open - openness.begin());
}

}  // namespace loafmark::analysis
