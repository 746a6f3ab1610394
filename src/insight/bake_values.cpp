#include "insight/bake_values.h"

#include <algorithm>
#include <cmath>

#include "statistics/quantiles.h"

namespace loafmark::insight {

namespace {

std::optional<double> finite(const MeasureValues& values, Measure measure) {
    const auto found = values.find(measure);
    if (found == values.end() || !std::isfinite(found->second.value)) return std::nullopt;
    return found->second.value;
}

std::optional<double> value_of(const journal::SliceEntry& slice, Measure measure) {
    if (info_of(measure).origin == MeasureOrigin::kitchen) return finite(slice.weighed, measure);
    if (!slice.reading || is_poor(*slice.reading)) return std::nullopt;
    return finite(slice.reading->values, measure);
}

bool at_an_end(const journal::SliceEntry& slice) {
    return slice.slice.place == journal::end_of_loaf;
}

}  // namespace

std::span<const std::string_view> poor_warnings() {
    return journal::poor_warnings;
}

int poor_readings(const journal::BakeEntry& bake) {
    int count = 0;
    for (const journal::LoafEntry& loaf : bake.loaves)
        for (const journal::SliceEntry& slice : loaf.slices)
            if (slice.reading && is_poor(*slice.reading)) ++count;
    return count;
}

std::vector<double> slice_values(const journal::LoafEntry& loaf, Measure measure, EndSlices ends) {
    if (const auto value = finite(loaf.weighed, measure)) return {*value};
    std::vector<double> values;
    for (const journal::SliceEntry& slice : loaf.slices) {
        if (ends == EndSlices::left_out && at_an_end(slice)) continue;
        if (const auto value = value_of(slice, measure)) values.push_back(*value);
    }
    return values;
}

std::optional<BakeMean> loaf_mean(const journal::LoafEntry& loaf, Measure measure, EndSlices ends) {
    const std::vector<double> values = slice_values(loaf, measure, ends);
    if (values.empty()) return std::nullopt;
    return BakeMean{*statistics::mean(values), static_cast<int>(values.size())};
}

std::optional<BakeMean> mean_of(const std::vector<BakeMean>& parts) {
    if (parts.empty()) return std::nullopt;
    BakeMean whole;
    for (const BakeMean& part : parts) {
        whole.value += part.value / static_cast<double>(parts.size());
        whole.slices += part.slices;
    }
    return whole;
}

std::optional<BakeMean> bake_mean(std::span<const journal::MeasuredSlice> slices, EndSlices ends) {
    std::vector<BakeMean> loaves;
    std::optional<journal::LoafId> loaf;
    for (const journal::MeasuredSlice& slice : slices) {
        if (ends == EndSlices::left_out && slice.at_end) continue;
        if (slice.loaf != loaf) loaves.emplace_back();
        loaf = slice.loaf;
        loaves.back().value += slice.value;
        ++loaves.back().slices;
    }
    for (BakeMean& mean : loaves)
        mean.value /= mean.slices;
    return mean_of(loaves);
}

std::optional<BakeMean> bake_mean(const journal::BakeEntry& bake, Measure measure, EndSlices ends) {
    std::vector<BakeMean> loaves;
    for (const journal::LoafEntry& loaf : bake.loaves)
        if (const auto mean = loaf_mean(loaf, measure, ends)) loaves.push_back(*mean);
    return mean_of(loaves);
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
