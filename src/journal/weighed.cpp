#include "journal/weighed.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "journal/poor_readings.h"

namespace loafmark::journal {
namespace {

constexpr double z95 = 1.959963984540054;  // of the normal distribution

// Standard errors where nobody told better, common practice, no source: a ruler is read to half a
// millimetre; two seed displacements of a loaf differ by some 2 %; domed ends hold up to a sixth
// less than the middle.
constexpr double ruler_error_mm = 0.3;
constexpr double displacement_error = 0.015;
constexpr double domed_ends = 1.0 / 6;

Estimate within(double value, double error) {
    return {value, value - z95 * error, value + z95 * error, {}, {}};
}

double error_of(const Estimate& estimate) {
    return (estimate.high - estimate.low) / 2 / z95;
}

// A quotient or product of what is independently unsure, from its value.
Estimate with_relative(double value, double a, double b = 0, double c = 0) {
    return within(value, std::abs(value) * std::hypot(a, b, c));
}

std::optional<Estimate> read_of(const SliceEntry& entry, Measure measure) {
    if (!entry.reading || is_poor(*entry.reading)) return std::nullopt;
    const auto found = entry.reading->values.find(measure);
    if (found == entry.reading->values.end() || !std::isfinite(found->second.value))
        return std::nullopt;
    return found->second;
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

// Of one loaf, by the scales of its kitchen.
class Scales {
  public:
    // A step is right to half of itself, evenly.
    explicit Scales(Grams step) : error_g_(step.count() / std::sqrt(12.0)) {}
    [[nodiscard]] double error_g() const { return error_g_; }
    [[nodiscard]] double relative_error(Grams mass) const { return error_g_ / mass.count(); }
    // In g/cm3; nothing of no mass or no area.
    [[nodiscard]] std::optional<Estimate> density(std::optional<Grams> mass,
                                                  const std::optional<Estimate>& area_mm2,
                                                  const Thickness& thickness) const {
        if (!mass || !(*mass > Grams(0)) || !area_mm2 || !(area_mm2->value > 0))
            return std::nullopt;
        return with_relative(mass->count() / (area_mm2->value * thickness.mm / 1000),
                             relative_error(*mass), error_of(*area_mm2) / area_mm2->value,
                             thickness.error_mm / thickness.mm);
    }

  private:
    double error_g_;
};

// Of all crumb only where the photo shows it all, as it does where it shows the whole face.
std::optional<Estimate> sampled_area(const SliceEntry& entry) {
    const CrumbSample& crumb = *entry.slice.crumb;
    if (!crumb.plug_diameter)
        return read_of(entry, Measure::cross_section_area) ? read_of(entry, Measure::crumb_area)
                                                           : std::nullopt;
    const double diameter = crumb.plug_diameter->count();
    return with_relative(crumb.plugs * std::numbers::pi / 4 * diameter * diameter,
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

void weigh_slice(SliceEntry& entry, const Scales& scales) {
    const auto thickness = thickness_of(entry.slice);
    if (!thickness) return;
    MeasureValues& values = entry.weighed;
    if (const auto whole = scales.density(entry.slice.mass,
                                          read_of(entry, Measure::cross_section_area), *thickness))
        values[Measure::slice_density] = *whole;
    if (!entry.slice.crumb) return;
    const auto crumb = scales.density(entry.slice.crumb->mass, sampled_area(entry), *thickness);
    if (!crumb) return;
    values[Measure::crumb_density] = *crumb;
    if (const auto openness = read_of(entry, Measure::openness))
        values[Measure::fine_pore_share] = fine_pores(*crumb, *openness);
}

// Mean over the loaf's slices that count; unsure as they are, since they share scale and baker.
std::optional<Estimate> mean_over_slices(const LoafEntry& loaf, Measure measure) {
    double sum = 0, errors = 0;
    int count = 0;
    for (const SliceEntry& slice : loaf.slices) {
        if (slice.slice.place == end_of_loaf) continue;
        // A lengthwise cut shows another face than that which is multiplied by the length.
        if (measure == Measure::cross_section_area && slice.slice.cut == "lengthwise") continue;
        if (const auto value = read_of(slice, measure))
            sum += value->value, errors += error_of(*value), ++count;
    }
    if (count == 0) return std::nullopt;
    return within(sum / count, errors / count);
}

// In mL, which are cm3.
std::optional<Estimate> volume_of(const LoafEntry& entry) {
    const LoafFacts& facts = entry.loaf.facts;
    if (facts.volume) return with_relative(facts.volume->count(), displacement_error);
    const auto area = mean_over_slices(entry, Measure::cross_section_area);
    if (!area || !facts.length) return std::nullopt;
    Estimate volume =
        with_relative(area->value * facts.length->count() / 1000, error_of(*area) / area->value,
                      ruler_error_mm / facts.length->count());
    volume.low -= domed_ends * volume.value;
    return volume;
}

void weigh_baked(const LoafEntry& entry, const Scales& scales, MeasureValues& values) {
    const auto& [dough, baked] = std::pair(entry.loaf.dough_mass, entry.loaf.baked_mass);
    if (!baked || !(*baked > Grams(0))) return;
    if (const auto volume = volume_of(entry)) {
        const double mass = baked->count();
        const double unsure = scales.relative_error(*baked);
        const auto divided = [&](double value, double low, double high) {
            return Estimate{value, low * (1 - unsure), high * (1 + unsure), {}, {}};
        };
        values[Measure::specific_volume] =
            divided(volume->value / mass, volume->low / mass, volume->high / mass);
        values[Measure::loaf_density] =
            divided(mass / volume->value, mass / volume->high, mass / volume->low);
    }
    if (dough && *dough > Grams(0))
        values[Measure::bake_loss_percent] = within(
            100 * (1 - *baked / *dough), 100 * std::sqrt(2.0) * scales.relative_error(*dough));
}

void weigh_rise(const LoafEntry& entry, MeasureValues& values) {
    const LoafFacts& facts = entry.loaf.facts;
    if (!facts.proof_height) return;
    const double height = facts.proof_height->count();
    values[Measure::proof_height] = within(height, ruler_error_mm);
    if (facts.dough_height)
        values[Measure::proof_rise] =
            with_relative(*facts.proof_height / *facts.dough_height, ruler_error_mm / height,
                          ruler_error_mm / facts.dough_height->count());
    if (const auto baked = mean_over_slices(entry, Measure::loaf_height))
        values[Measure::oven_spring] =
            within(baked->value - height, std::hypot(error_of(*baked), ruler_error_mm));
}

}  // namespace

void weigh(LoafEntry& entry, const Weighing& with) {
    const Scales scales(with.scale_step);
    for (SliceEntry& slice : entry.slices)
        weigh_slice(slice, scales);
    MeasureValues& values = entry.weighed;
    weigh_baked(entry, scales, values);
    weigh_rise(entry, values);
    const auto& dough = entry.loaf.dough_mass;
    if (dough && *dough > Grams(0) && with.tin_volume)
        values[Measure::dough_per_tin_volume] =
            with_relative(dough->count() / with.tin_volume->count(), scales.relative_error(*dough));
}

}  // namespace loafmark::journal
