// What in the cut looks like something and is no opening.
#include "phantoms/truth.h"

namespace loafmark::phantoms {

namespace {

constexpr double least_mm = 0.5;  // of specks and of bubbles

}  // namespace

LabelMap speck_map(const Section& section, const BreadLook& look) {
    std::vector<std::uint8_t> speck(section.cells.labels.size(), 0);
    for (std::size_t at = 0; at < speck.size(); ++at) {
        if (!section.crumb[at] || section.cells.labels[at]) continue;
        const auto column = static_cast<double>(at % section.cells.width);
        const auto row = static_cast<double>(at / section.cells.width);
        const Vec3 p{static_cast<float>(section.first_pixel.x + section.mm_per_pixel * column),
                     static_cast<float>(section.first_pixel.y + section.mm_per_pixel * row), 0};
        speck[at] = is_speck(look, p);
    }
    return label_openings(speck, section.cells.width, section.cells.height, section.mm_per_pixel,
                          section.first_pixel, least_mm)
        .cells;
}

TrueMeasures bubble_measures(const std::vector<float>& diameters_mm) {
    std::vector<Weighted> by_volume;
    std::vector<double> by_number;
    for (const double d : diameters_mm) {
        if (d < least_mm) continue;
        by_volume.push_back({d, d * d * d});
        by_number.push_back(d);
    }
    if (by_number.empty()) return {};
    return {{Measure::cell_diameter_3d_volume_d10, weighted_quantile(by_volume, 0.1)},
            {Measure::cell_diameter_3d_volume_d50, weighted_quantile(by_volume, 0.5)},
            {Measure::cell_diameter_3d_volume_d90, weighted_quantile(by_volume, 0.9)},
            {Measure::cell_diameter_3d_number_d50, quantile(by_number, 0.5)}};
}

}  // namespace loafmark::phantoms
