#include "without_units.h"

#include <string_view>

namespace loafmark::analysis {

void without_units(SliceReading& slice, double height) {
    MeasureValues& values = slice.values;
    constexpr int first = static_cast<int>(Measure::cell_diameter_number_d10);
    constexpr int last = static_cast<int>(Measure::cell_diameter_area_mean);
    constexpr int shift = static_cast<int>(Measure::cell_diameter_relative_number_d10) - first;
    for (int m = first; !slice.cut_by_frame && m <= last; ++m) {
        const auto found = values.find(static_cast<Measure>(m));
        if (found == values.end()) continue;
        const Estimate& e = found->second;
        values[static_cast<Measure>(m + shift)] =
            Estimate{e.value / height, e.low / height, e.high / height, {}, {}};
    }
    std::erase_if(values, [](const auto& entry) {
        const std::string_view unit = info_of(entry.first).unit;
        return unit == "mm" || unit == "mm2" || unit == "1/cm2";
    });
    slice.bubbles.clear();
    for (Cell& cell : slice.cells) {
        cell.equivalent_diameter /= height;
        cell.area /= height * height;
        cell.centre = {cell.centre.x / height, cell.centre.y / height};
    }
}

}  // namespace loafmark::analysis
