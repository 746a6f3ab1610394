#include "insight/bake_values.h"

#include <algorithm>
#include <cmath>

namespace loafmark::insight {

namespace {

std::optional<double> value_of(const journal::SliceEntry& slice, Measure measure) {
    if (!slice.reading) return std::nullopt;
    const auto found = slice.reading->values.find(measure);
    if (found == slice.reading->values.end() || !std::isfinite(found->second.value))
        return std::nullopt;
    return found->second.value;
}

bool at_an_end(const journal::SliceEntry& slice) {
    return slice.slice.place == journal::end_of_loaf;
}

}  // namespace

std::optional<BakeMean> bake_mean(const journal::BakeEntry& bake, Measure measure, EndSlices ends) {
    BakeMean mean;
    for (const journal::LoafEntry& loaf : bake.loaves)
        for (const journal::SliceEntry& slice : loaf.slices) {
            if (ends == EndSlices::left_out && at_an_end(slice)) continue;
            const std::optional<double> value = value_of(slice, measure);
            if (!value) continue;
            mean.value += *value;
            ++mean.slices;
        }
    if (mean.slices == 0) return std::nullopt;
    mean.value /= mean.slices;
    return mean;
}

int end_slices(const journal::BakeEntry& bake, Measure measure) {
    int count = 0;
    for (const journal::LoafEntry& loaf : bake.loaves)
        for (const journal::SliceEntry& slice : loaf.slices)
            if (at_an_end(slice) && value_of(slice, measure)) ++count;
    return count;
}

const journal::FlourShare* main_flour(const journal::BakeEntry& bake) {
    // max_element keeps the first of equals.
    const auto largest = std::ranges::max_element(bake.flours, {}, &journal::FlourShare::share);
    return largest == bake.flours.end() ? nullptr : &*largest;
}

}  // namespace loafmark::insight
