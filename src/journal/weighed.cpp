#include "journal/weighed.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace loafmark::journal {
namespace {

constexpr double z95 = 1.959963984540054;  // of the normal distribution

// Standard errors where nobody told better: a kitchen's scales show whole grams, a ruler is read to
// half a millimetre (common practice, no source).
constexpr double mass_error_g = 0.3;
constexpr double ruler_error_mm = 0.3;

Estimate exactly(double value) {
    return {value, value, value, {}, {}};
}

Estimate within(double value, double relative_error) {
    const double half = z95 * relative_error * std::abs(value);
    return {value, value - half, value + half, {}, {}};
}

std::optional<Estimate> value_of(const SliceEntry& entry, Measure measure) {
    if (!entry.reading) return std::nullopt;
    const auto found = entry.reading->values.find(measure);
    if (found == entry.reading->values.end() || !(found->second.value > 0)) return std::nullopt;
    return found->second;
}

double relative_error(const Estimate& estimate) {
    return (estimate.high - estimate.low) / 2 / z95 / estimate.value;
}

struct Thickness {
    double mm = 0;
    double error_mm = 0;
};

std::optional<Thickness> thickness_of(const Slice& slice) {
    if (slice.thickness.empty()) return std::nullopt;
    const auto n = static_cast<double>(slice.thickness.size());
    double sum = 0, squares = 0;
    for (const Millimetres one : slice.thickness)
        sum += one.count();
    for (const Millimetres one : slice.thickness)
        squares += std::pow(one.count() - sum / n, 2);
    const double scatter = n > 1 ? std::sqrt(squares / (n - 1) / n) : 0;
    return Thickness{sum / n, std::hypot(ruler_error_mm / std::sqrt(n), scatter)};
}

// In g/cm3.
Estimate density(Grams mass, const Estimate& area_mm2, const Thickness& thickness) {
    const double value = mass.count() / (area_mm2.value * thickness.mm / 1000);
    return within(value,
                  std::hypot(std::hypot(mass_error_g / mass.count(), relative_error(area_mm2)),
                             thickness.error_mm / thickness.mm));
}

std::optional<Estimate> sampled_area(const SliceEntry& entry) {
    const CrumbSample& crumb = *entry.slice.crumb;
    if (!crumb.plug_diameter) return value_of(entry, Measure::crumb_area);
    const double diameter = crumb.plug_diameter->count();
    return within(crumb.plugs * std::numbers::pi / 4 * diameter * diameter,
                  2 * ruler_error_mm / diameter);
}

// What the crumb's density leaves for pores, less those that the photo shows.
Estimate fine_pores(const Estimate& crumb, const Estimate& openness) {
    const auto share = [&](double density, double wall) {
        return 1 - density / wall - openness.value;
    };
    const double value = share(crumb.value, wall_density);
    const double open = (openness.high - openness.low) / 2;
    return {value,
            value - std::hypot(value - share(crumb.high, wall_density),
                               value - share(crumb.value, wall_density_low), open),
            value + std::hypot(share(crumb.low, wall_density) - value,
                               share(crumb.value, wall_density_high) - value, open),
            {},
            {}};
}

void weigh(SliceEntry& entry) {
    const auto thickness = thickness_of(entry.slice);
    if (!thickness) return;
    MeasureValues& values = entry.weighed;
    if (const auto area = value_of(entry, Measure::cross_section_area); area && entry.slice.mass)
        values[Measure::slice_density] = density(*entry.slice.mass, *area, *thickness);
    if (!entry.slice.crumb) return;
    if (const auto area = sampled_area(entry)) {
        const Estimate crumb = density(entry.slice.crumb->mass, *area, *thickness);
        values[Measure::crumb_density] = crumb;
        if (const auto openness = value_of(entry, Measure::openness))
            values[Measure::fine_pore_share] = fine_pores(crumb, *openness);
    }
}

// Mean over the loaf's slices.
std::optional<double> mean_over_slices(const LoafEntry& loaf, Measure measure) {
    double sum = 0;
    int count = 0;
    for (const SliceEntry& slice : loaf.slices)
        if (const auto value = value_of(slice, measure); value && slice.slice.place != end_of_loaf)
            sum += value->value, ++count;
    return count == 0 ? std::nullopt : std::optional(sum / count);
}

// In mL, which are cm3.
std::optional<double> volume_of(const LoafEntry& entry) {
    if (entry.loaf.facts.volume) return entry.loaf.facts.volume->count();
    const auto area = mean_over_slices(entry, Measure::cross_section_area);
    if (!area || !entry.loaf.facts.length) return std::nullopt;
    return *area * entry.loaf.facts.length->count() / 1000;
}

}  // namespace

void weigh(LoafEntry& entry, std::optional<Millilitres> tin_volume) {
    for (SliceEntry& slice : entry.slices)
        weigh(slice);
    const Loaf& loaf = entry.loaf;
    const LoafFacts& facts = loaf.facts;
    MeasureValues& values = entry.weighed;
    const bool weighed = loaf.baked_mass && *loaf.baked_mass > Grams(0);
    const bool scaled = loaf.dough_mass && *loaf.dough_mass > Grams(0);
    if (const auto volume = volume_of(entry); volume && weighed) {
        values[Measure::loaf_density] = exactly(loaf.baked_mass->count() / *volume);
        values[Measure::specific_volume] = exactly(*volume / loaf.baked_mass->count());
    }
    if (weighed && scaled)
        values[Measure::bake_loss_percent] =
            exactly(100 * (1 - loaf.baked_mass->count() / loaf.dough_mass->count()));
    if (facts.proof_height) {
        values[Measure::proof_height] = exactly(facts.proof_height->count());
        if (facts.dough_height)
            values[Measure::proof_rise] = exactly(*facts.proof_height / *facts.dough_height);
        if (const auto baked = mean_over_slices(entry, Measure::loaf_height))
            values[Measure::oven_spring] = exactly(*baked - facts.proof_height->count());
    }
    if (scaled && tin_volume)
        values[Measure::dough_per_tin_volume] =
            exactly(loaf.dough_mass->count() / tin_volume->count());
}

}  // namespace loafmark::journal
