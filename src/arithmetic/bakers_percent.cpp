#include "arithmetic/bakers_percent.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace loafmark {
namespace {

std::vector<DoughPart> weights_as_shares(std::span<const WeighedPart> parts) {
    std::vector<DoughPart> result;
    for (const WeighedPart& part : parts)
        result.push_back(
            {part.kind, Fraction(part.mass.count()), part.water_fraction, part.flour_fraction});
    return result;
}

double flour_in(std::span<const DoughPart> parts) {
    double flour = 0;
    for (const DoughPart& part : parts)
        flour += part.share.count() * part.flour_fraction.count();
    return flour;
}

std::vector<Grams> scaled(std::span<const DoughPart> parts, double grams_per_share) {
    std::vector<Grams> masses;
    for (const DoughPart& part : parts)
        masses.emplace_back(part.share.count() * grams_per_share);
    return masses;
}

// What a mass of its own is rounded to, apart from the balance of the others.
double step_of(double mass, double step) {
    if (mass >= 10 * step) return step;
    return mass >= step ? step / 10 : step / 100;
}

}  // namespace

StarterFractions starter_fractions(Fraction hydration) {
    const double h = hydration.count();
    return {Fraction(h / (1 + h)), Fraction(1 / (1 + h))};
}

std::optional<DoughFigures> figures_of(std::span<const DoughPart> parts) {
    double water = 0, flour = 0, bowl_water = 0, bowl_flour = 0, salt = 0, total = 0;
    for (const DoughPart& part : parts) {
        const double share = part.share.count();
        water += share * part.water_fraction.count();
        flour += share * part.flour_fraction.count();
        total += share;
        if (part.kind == IngredientKind::salt) salt += share;
        if (part.kind == IngredientKind::leaven) continue;
        bowl_water += share * part.water_fraction.count();
        bowl_flour += share * part.flour_fraction.count();
    }
    if (!(flour > 0)) return std::nullopt;
    DoughFigures figures;
    figures.hydration = Fraction(water / flour);
    if (bowl_flour > 0) figures.bowl_hydration = Fraction(bowl_water / bowl_flour);
    figures.prefermented_flour = Fraction((flour - bowl_flour) / flour);
    figures.salt = Fraction(salt / flour);
    figures.total = Fraction(total / flour);
    return figures;
}

std::optional<DoughFigures> figures_of(std::span<const WeighedPart> parts) {
    return figures_of(weights_as_shares(parts));
}

std::vector<DoughPart> as_shares_of_all_flour(std::span<const DoughPart> parts) {
    const double flour = flour_in(parts);
    if (!(flour > 0)) return {};
    std::vector<DoughPart> result(parts.begin(), parts.end());
    for (DoughPart& part : result)
        part.share = part.share / flour;
    return result;
}

std::vector<DoughPart> as_shares_of_all_flour(std::span<const WeighedPart> parts) {
    return as_shares_of_all_flour(weights_as_shares(parts));
}

std::vector<Grams> masses_for_dough(std::span<const DoughPart> parts, Grams dough) {
    double total = 0;
    for (const DoughPart& part : parts)
        total += part.share.count();
    if (!(total > 0)) return {};
    return scaled(parts, dough.count() / total);
}

std::vector<Grams> masses_for_flour(std::span<const DoughPart> parts, Grams flour) {
    return scaled(parts, flour.count());
}

std::vector<Grams> rounded_to_step(std::span<const Grams> masses, Grams step) {
    std::vector<Grams> result(masses.begin(), masses.end());
    std::vector<std::size_t> coarse;
    double coarse_total = 0;  // what the rounding of small masses has changed made up for
    for (std::size_t i = 0; i < result.size(); ++i) {
        const double mass = result[i].count();
        if (const double own = step_of(mass, step.count()); own < step.count()) {
            result[i] = Grams(std::round(mass / own) * own);
            coarse_total += mass - result[i].count();
        } else {
            coarse.push_back(i);
            coarse_total += mass;
        }
    }
    // Largest remainders: all are rounded down, then those that lost most are given a step, until
    // the sum is the nearest to the unrounded one.
    const auto lost = [&](std::size_t i) {
        const double steps = masses[i] / step;
        return steps - std::floor(steps);
    };
    std::ranges::stable_sort(coarse, std::greater<>(), lost);
    auto missing = static_cast<std::int64_t>(std::llround(coarse_total / step.count()));
    for (const std::size_t i : coarse)
        missing -= std::llround(std::floor(masses[i] / step));
    for (std::size_t place = 0; place < coarse.size(); ++place) {
        const std::size_t i = coarse[place];
        const auto from_last = static_cast<std::int64_t>(coarse.size() - place);
        const double change = static_cast<std::int64_t>(place) < missing ? 1
                              : from_last <= -missing                    ? -1
                                                                         : 0;
        result[i] = (std::floor(masses[i] / step) + change) * step;
    }
    return result;
}

}  // namespace loafmark
