#include "face_interval.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <string_view>

#include "quantile.h"

namespace loafmark::analysis {
namespace {

constexpr double endless = std::numeric_limits<double>::infinity();

// How far the truth may lie below and above, as differences.
struct Reach {
    double below = 0, above = 0;
};

Reach by_ratio(double value, double least, double most) {
    return {value * (1 - least), value * (most - 1)};
}

bool between(Measure measure, Measure first, Measure last) {
    return measure >= first && measure <= last;
}

Reach known_reach(Measure measure, double value, const KnownError& known) {
    if (between(measure, Measure::cell_diameter_number_d10, Measure::cell_diameter_area_mean) ||
        measure == Measure::coarseness)
        return by_ratio(value, known.diameter_least, known.diameter_most);
    if (between(measure, Measure::openness_profile_1, Measure::openness_profile_10))
        return {known.band, known.band};
    if (between(measure, Measure::cell_diameter_3d_volume_d10,
                Measure::cell_diameter_3d_number_d50))
        return by_ratio(value, known.sphere_least, known.sphere_most);
    switch (measure) {
        case Measure::openness:
        case Measure::openness_fine:
            return {known.openness_below, known.openness_above};
        case Measure::cell_count:
        case Measure::cells_per_cm2:
            return by_ratio(value, known.density_least, known.density_most);
        case Measure::relative_span:
            return by_ratio(value, known.span_least, known.span_most);
        case Measure::mean_free_path:
            return by_ratio(value, known.path_least, known.path_most);
        case Measure::cell_axis_ratio:
            return {known.axis_ratio_below, known.axis_ratio_above};
        case Measure::cell_direction_strength:
            return {known.strength, known.strength};
        case Measure::unevenness:
        case Measure::unevenness_expected:
            return by_ratio(value, known.unevenness_least, known.unevenness_most);
        case Measure::large_cavity_share:
            return {known.cavity_share, known.cavity_share};
        case Measure::crust_separation_width:
        case Measure::crust_separation_height:
        case Measure::tunnel_width:
        case Measure::tunnel_height:
            return {0.5, 0.5};  // two edges, each to a fifth of a millimetre and more where torn
        case Measure::crust_separation_share_of_width:
        case Measure::tunnel_share_of_width:
            return {0.01, 0.01};
        case Measure::dense_base:
            return {1, 1};  // a band
        default:
            return {};
    }
}

int power_of_length(Measure measure) {
    const std::string_view unit = info_of(measure).unit;
    if (unit == "mm") return 1;
    return unit == "mm2" || unit == "1/cm2" ? 2 : 0;
}

Reach possible(Measure measure) {
    if (measure == Measure::cell_axis_ratio) return {1, endless};
    const std::string_view unit = info_of(measure).unit;
    const bool share = unit.empty() && measure != Measure::cell_count &&
                       measure != Measure::relative_span && measure != Measure::unevenness &&
                       measure != Measure::unevenness_expected;
    return {0, share ? 1 : endless};
}

double turned(double degrees) {
    return degrees - 180 * std::floor(degrees / 180);
}

// A resultant of length `strength` that may be wrong by `error` in any direction.
Estimate direction_interval(double degrees, const std::vector<double>& others,
                            const ErrorSources& sources) {
    const double error = std::max(sources.known.strength, 1e-6);
    double half = sources.strength > error
                      ? std::asin(error / sources.strength) / 2 * 180 / std::numbers::pi
                      : 90;
    double moved = 0;
    for (const double other : others)
        moved =
            std::max(moved, std::abs(other - degrees - 180 * std::round((other - degrees) / 180)));
    half = std::hypot(half, moved);
    if (half >= 90) return {degrees, 0, 180, {}, {}};
    return {degrees, turned(degrees - half), turned(degrees + half), {}, {}};
}

}  // namespace

Estimate face_interval(Measure measure, double value, const std::vector<double>& others,
                       const ErrorSources& sources) {
    if (measure == Measure::cell_direction) return direction_interval(value, others, sources);
    const Reach known = known_reach(measure, value, sources.known);
    const double scale = z95 * sources.length_error * power_of_length(measure) * value;
    double down = 0, up = 0;
    for (const double other : others)
        down = std::max(down, value - other), up = std::max(up, other - value);
    const Reach bound = possible(measure);
    return {value,
            std::max(bound.below, value - std::hypot(known.below, down, scale)),
            std::min(bound.above, value + std::hypot(known.above, up, scale)),
            {},
            {}};
}

}  // namespace loafmark::analysis
