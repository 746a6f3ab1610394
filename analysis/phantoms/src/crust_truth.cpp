// The crust's thickness as measures define it, from the very reflectance that is rendered.
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "phantoms/truth.h"

namespace loafmark::phantoms {

namespace {

constexpr double depth_step = 0.05, deepest = 10;  // mm
constexpr int depths = static_cast<int>(deepest / depth_step);
constexpr double place_step = 0.5;    // mm along the outline
constexpr double window = 10;         // mm of outline over which lightness is averaged
constexpr int rim = 6;                // the depth of 0.3 mm
constexpr double least_contrast = 5;  // in L*: with less, a crust's end cannot be told

// L* of CIE 1976 of a reflectance under the white that lights it.
double lightness(Colour c) {
    const double y = luminance(c);
    return y > 0.008856 ? 116 * std::cbrt(y) - 16 : 903.3 * y;
}

// One place on the outline and the lightness below it.
struct Place {
    bool base = false;
    std::array<double, depths> lightness{};
};

std::vector<Place> places_along(const std::vector<PlanePoint>& outline, const PlaneFields& fields,
                                const BreadLook& look) {
    double turning = 0;
    for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++)
        turning += outline[j].x * outline[i].y - outline[i].x * outline[j].y;
    const double sign = turning > 0 ? 1 : -1;
    std::vector<Place> places;
    double next = 0, walked = 0;
    for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
        const PlanePoint a = outline[j], b = outline[i];
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        for (; next < walked + length; next += place_step) {
            const double t = (next - walked) / length;
            const PlanePoint p{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
            const PlanePoint in{-sign * (b.y - a.y) / length, sign * (b.x - a.x) / length};
            Place place;
            place.base = p.y > -0.5;
            for (int k = 0; k < depths; ++k) {
                const Vec3 at{static_cast<float>(p.x + k * depth_step * in.x),
                              static_cast<float>(p.y + k * depth_step * in.y), 0};
                place.lightness[static_cast<std::size_t>(k)] =
                    lightness(bread_albedo(look, fields, BreadPart::face, at));
            }
            places.push_back(place);
        }
        walked += length;
    }
    return places;
}

double crumb_lightness(const PlaneFields& fields, const BreadLook& look) {
    std::vector<double> values;
    constexpr int every = 3;
    for (int j = 0; j < fields.ny; j += every)
        for (int i = 0; i < fields.nx; i += every) {
            const float x = fields.x0 + static_cast<float>(i) * fields.step,
                        y = fields.y0 + static_cast<float>(j) * fields.step;
            if (plane_at(fields, x, y).crumb_depth < 5) continue;
            values.push_back(lightness(bread_albedo(look, fields, BreadPart::face, {x, y, 0})));
        }
    return values.empty() ? 0 : quantile(values, 0.5);
}

// The depth at which lightness, averaged along the outline, is half-way to the crumb's.
std::optional<double> crust_end(const std::vector<Place>& places, std::size_t middle,
                                double crumb) {
    const auto n = static_cast<long>(places.size());
    constexpr long reach = static_cast<long>(window / place_step / 2);
    std::array<double, depths> mean{};
    for (long k = -reach; k <= reach; ++k) {
        const long at = (static_cast<long>(middle) + k + n) % n;
        const Place& place = places[static_cast<std::size_t>(at)];
        for (std::size_t d = 0; d < mean.size(); ++d)
            mean[d] += place.lightness[d] / static_cast<double>(2 * reach + 1);
    }
    if (std::abs(crumb - mean[rim]) < least_contrast) return std::nullopt;
    const double half = (mean[rim] + crumb) / 2, way = crumb > mean[rim] ? 1 : -1;
    for (std::size_t d = rim + 1; d < mean.size(); ++d)
        if (way * (mean[d] - half) >= 0) {
            const double t = (half - mean[d - 1]) / (mean[d] - mean[d - 1]);
            return (static_cast<double>(d) - 1 + t) * depth_step;
        }
    return std::nullopt;
}

}  // namespace

TrueMeasures crust_measures(const std::vector<PlanePoint>& outline, const PlaneFields& fields,
                            const BreadLook& look) {
    const std::vector<Place> places = places_along(outline, fields, look);
    const double crumb = crumb_lightness(fields, look);
    TrueMeasures out;
    for (const bool base : {false, true}) {
        double sum = 0;
        int all = 0, known = 0;
        for (std::size_t i = 0; i < places.size(); ++i) {
            if (places[i].base != base) continue;
            ++all;
            if (const auto depth = crust_end(places, i, crumb)) {
                sum += *depth;
                ++known;
            }
        }
        if (known * 2 > all)
            out[base ? Measure::crust_thickness_base : Measure::crust_thickness_top] = sum / known;
    }
    return out;
}

}  // namespace loafmark::phantoms
