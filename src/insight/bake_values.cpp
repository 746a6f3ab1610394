#include "insight/bake_values.h"

#include <algorithm>
#include <cmath>

namespace loafmark::insight {

std::optional<BakeMean> bake_mean(const journal::BakeEntry& bake, Measure measure) {
    BakeMean mean;
    for (const journal::LoafEntry& loaf : bake.loaves)
        for (const journal::SliceEntry& slice : loaf.slices) {
            if (!slice.reading) continue;
            const auto found = slice.reading->values.find(measure);
            if (found == slice.reading->values.end() || !std::isfinite(found->second.value))
                continue;
            mean.value += found->second.value;
            ++mean.slices;
        }
    if (mean.slices == 0) return std::nullopt;
    mean.value /= mean.slices;
    return mean;
}

const journal::FlourShare* main_flour(const journal::BakeEntry& bake) {
    // max_element keeps the first of equals.
    const auto largest = std::ranges::max_element(bake.flours, {}, &journal::FlourShare::share);
    return largest == bake.flours.end() ? nullptr : &*largest;
}

}  // namespace loafmark::insight
