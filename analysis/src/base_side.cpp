#include "base_side.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "side_looks.h"

namespace loafmark::analysis {
namespace {

// How the odds of a side being the base fall with its looks: logits of a conditional logit model
// (McFadden 1974), fitted to 23 000 drawn outlines of tin, lidded and free-form loaves, most of
// them roughened as the search for an outline does.
constexpr double asymmetry_weight = -65.6;
constexpr double corner_weight = -18;
constexpr double unevenness_weight = -5.91;  // of its logarithm
constexpr double least_unevenness = 0.01;
constexpr double flare_weight = 79.2;  // a tin is a little narrower at its foot
constexpr double most_flare = 0.03;
constexpr double crown_weight = -11.3;  // what narrows far more towards a side is a crown
constexpr double least_crown = 0.12;
// How much more often a base lies along the photo's lower edge than in any other direction, and how
// well people lay it so. Assumed, so that even a square laid base down leaves no doubt.
constexpr double habit = 20;
constexpr double habit_radians = 0.3;
constexpr double sure = 0.85;
constexpr double all_but_sure = 0.95;

double logit_of(const SideLooks& looks, cv::Point2d down) {
    const double turn = std::acos(std::clamp(looks.direction.dot(down), -1.0, 1.0)) / habit_radians;
    return asymmetry_weight * looks.asymmetry + corner_weight * looks.corners +
           unevenness_weight * std::log(looks.unevenness + least_unevenness) +
           flare_weight * std::clamp(looks.narrowing, -most_flare, most_flare) +
           crown_weight * std::max(0.0, looks.narrowing - least_crown) +
           std::log(1 + habit * std::exp(-turn * turn / 2));
}

}  // namespace

BaseSide base_side(const Polyline& outline, cv::Point2d down) {
    if (outline.size() < 3 || !(area_inside(outline) > 0)) return {down, {}};
    const std::array<SideLooks, 4> sides = looks_of_sides(outline);
    std::array<double, 4> odds{};
    for (std::size_t k = 0; k < 4; ++k)
        odds[k] = logit_of(sides[k], down);
    const double most = *std::max_element(odds.begin(), odds.end());
    for (double& o : odds)
        o = std::exp(o - most);
    std::array<std::size_t, 4> order{0, 1, 2, 3};
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return odds[a] > odds[b]; });
    const double all = std::accumulate(odds.begin(), odds.end(), 0.0);
    BaseSide side{sides[order[0]].direction, {}};
    double named = odds[order[0]];
    if (named >= sure * all) return side;
    for (std::size_t k = 1; k < order.size() && named < all_but_sure * all; ++k) {
        side.rivals.push_back(sides[order[k]].direction);
        named += odds[order[k]];
    }
    return side;
}

}  // namespace loafmark::analysis
