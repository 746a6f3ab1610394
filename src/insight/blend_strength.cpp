#include <algorithm>

#include "arithmetic/near_names.h"
#include "insight/bake_values.h"
#include "insight/blend.h"
#include "insight/typical_flours.h"
#include "statistics/least_squares.h"

namespace loafmark::insight {
namespace {

constexpr int bakes_beyond_flours = 3;

// Of loaves whose volume was measured: cut face times length is too rough beside it.
std::optional<double> specific_volume(journal::BakeEntry bake) {
    std::erase_if(bake.loaves,
                  [](const journal::LoafEntry& loaf) { return !loaf.loaf.facts.volume; });
    const auto mean = bake_mean(bake, Measure::specific_volume);
    return mean ? std::optional(mean->value) : std::nullopt;
}

std::optional<double> measured(const journal::BakeEntry& bake, StrengthMeasure measure) {
    if (measure == StrengthMeasure::specific_volume_ml_per_g) return specific_volume(bake);
    const auto height = bake_mean(bake, Measure::loaf_height);
    return height ? std::optional(height->value) : std::nullopt;
}

// The bake's shares in the flours' order; nothing where it holds another flour.
std::optional<std::vector<double>> shares_of(const journal::BakeEntry& bake,
                                             const std::vector<journal::FlourId>& flours) {
    std::vector<double> shares(flours.size(), 0);
    double all = 0;
    for (const journal::FlourShare& flour : bake.flours) {
        const auto place = std::ranges::find(flours, flour.flour);
        if (place == flours.end()) return std::nullopt;
        shares[static_cast<std::size_t>(place - flours.begin())] = flour.share.count();
        all += flour.share.count();
    }
    return all > 0.999 ? std::optional(shares) : std::nullopt;
}

}  // namespace

std::optional<Fraction> share_of_protein_that_counts(const std::optional<std::string>& grain,
                                                     const std::optional<std::string>& grade) {
    if (!grain) return std::nullopt;
    if (!is_of_wheat_family(*grain)) return Fraction(0);
    if (!grade) return std::nullopt;
    return folded(*grade) == "white" ? Fraction(1) : Fraction(0.5);
}

std::optional<MixtureModel> mixture_model(const std::vector<journal::FlourId>& flours,
                                          const std::vector<journal::BakeEntry>& bakes,
                                          StrengthMeasure measure) {
    std::vector<std::vector<double>> columns(flours.size());
    std::vector<double> values;
    for (const journal::BakeEntry& bake : bakes) {
        const auto value = measured(bake, measure);
        const auto shares = shares_of(bake, flours);
        if (bake.bake.set_aside || !value || !shares) continue;
        values.push_back(*value);
        for (std::size_t i = 0; i < flours.size(); ++i)
            columns[i].push_back((*shares)[i]);
    }
    if (flours.empty() || values.size() < flours.size() + bakes_beyond_flours) return std::nullopt;
    const auto fit = statistics::least_squares(columns, values);
    if (!fit || !fit->residual_sd) return std::nullopt;
    MixtureModel model;
    for (const auto& coefficient : fit->coefficients)
        model.coefficients.push_back(coefficient.value);
    model.bakes = static_cast<int>(values.size());
    model.residual_sd = *fit->residual_sd;
    return model;
}

}  // namespace loafmark::insight
