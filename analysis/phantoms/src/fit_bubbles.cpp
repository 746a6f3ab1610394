#include <algorithm>
#include <cmath>

#include "phantoms/foam.h"

namespace loafmark::phantoms {

namespace {

WallRules rules_of(const FoamRecipe& r) {
    return {0,
            static_cast<float>(r.wall_mm),
            static_cast<float>(r.wall_spread_mm),
            static_cast<float>(r.open_pairs),
            static_cast<float>(r.torn_pairs),
            static_cast<float>(r.irregularity),
            static_cast<float>(r.roughness_mm),
            r.seed,
            static_cast<float>(r.rim_mm),
            static_cast<float>(r.torn_mm),
            static_cast<float>(r.torn_share)};
}

struct Swelling {
    float mm;
    double openness;
};

// The swelling that brings the cut's openness nearest to the wanted one.
Swelling best_swelling(const std::vector<float>& tried, const std::vector<double>& got,
                       double wanted) {
    if (wanted <= got.front()) return {tried.front(), got.front()};
    for (std::size_t i = 1; i < got.size(); ++i)
        if (got[i] >= wanted) {
            const double t = (wanted - got[i - 1]) / std::max(1e-9, got[i] - got[i - 1]);
            return {tried[i - 1] + static_cast<float>(t) * (tried[i] - tried[i - 1]), wanted};
        }
    return {tried.back(), got.back()};
}

}  // namespace

FittedBubbles fit_bubbles(const FoamRecipe& recipe, const PlaneFields& fields, double thickness_mm,
                          const OpennessInCut& openness_in_cut) {
    FittedBubbles fitted{{}, rules_of(recipe)};
    const float reach = 0.12f * static_cast<float>(recipe.diameter_mm) + 0.05f;
    std::vector<float> swellings;
    constexpr int n = 16;
    for (int i = 0; i <= n; ++i)
        swellings.push_back(reach * (-0.6f + 1.6f * static_cast<float>(i) / n));
    // The finest cells come on top: measures leave them out as too small to resolve.
    const double fines = std::min(0.3, 0.02 * recipe.fines_per_mm3);
    const double wanted = recipe.openness + (1 - recipe.openness) * fines;
    // Judged as if nothing were torn: above a torn face the plane of the cut is air.
    WallRules in_the_plane = fitted.rules;
    in_the_plane.torn_mm = 0;
    double crowding = 0.9;
    for (int round = 0; round < 4; ++round) {
        fitted.bubbles = pack_bubbles(recipe, fields, thickness_mm, crowding);
        const Swelling best = best_swelling(
            swellings, openness_in_cut(fitted.bubbles, in_the_plane, swellings), wanted);
        fitted.rules.swell_mm = best.mm;
        if (std::fabs(best.openness - wanted) < 0.01) break;
        crowding *= best.openness < wanted ? 1.5 : 0.6;
    }
    return fitted;
}

}  // namespace loafmark::phantoms
