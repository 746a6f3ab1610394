// Places bubbles: drawn by size, set down from the largest to the smallest, each at that of a few
// random places where it overlaps least.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "brick.h"
#include "phantoms/foam.h"
#include "phantoms/random.h"

namespace loafmark::phantoms {

namespace {

constexpr float pi = std::numbers::pi_v<float>;
constexpr float least_diameter = 0.22f;
constexpr float fine_depth = 3;  // mm; deeper, the finest bubbles are not worth their cost

// Free distance to the nearest bubble on a coarse lattice, kept up to date bubble by bubble.
class FreeSpace {
  public:
    FreeSpace(Vec3 low, Vec3 high)
        : low_(low),
          nx_(static_cast<int>((high.x - low.x) / step) + 2),
          ny_(static_cast<int>((high.y - low.y) / step) + 2),
          nz_(static_cast<int>((high.z - low.z) / step) + 2),
          free_(static_cast<std::size_t>(nx_) * ny_ * nz_, 1e3f) {}

    // Interpolated between nodes: the small must find the gaps beside the large.
    [[nodiscard]] float at(Vec3 p) const {
        const Vec3 q = (p - low_) * (1 / step);
        const int i = std::clamp(floor_int(q.x), 0, nx_ - 2),
                  j = std::clamp(floor_int(q.y), 0, ny_ - 2),
                  k = std::clamp(floor_int(q.z), 0, nz_ - 2);
        const float fx = q.x - static_cast<float>(i), fy = q.y - static_cast<float>(j),
                    fz = q.z - static_cast<float>(k);
        float sum = 0;
        for (int c = 0; c < 8; ++c) {
            const int dx = c & 1, dy = (c >> 1) & 1, dz = c >> 2;
            sum += (dx ? fx : 1 - fx) * (dy ? fy : 1 - fy) * (dz ? fz : 1 - fz) *
                   std::min(free_[index(i + dx, j + dy, k + dz)], 20.0f);
        }
        return sum;
    }

    // Nodes within `reach` of the surface learn of the bubble; later ones are no larger than that.
    void fill(const Bubble& b, float reach) {
        const float m = b.most_radius + reach;
        const int i0 = node(b.centre.x - m - low_.x, nx_), i1 = node(b.centre.x + m - low_.x, nx_);
        const int j0 = node(b.centre.y - m - low_.y, ny_), j1 = node(b.centre.y + m - low_.y, ny_);
        const int k0 = node(b.centre.z - m - low_.z, nz_), k1 = node(b.centre.z + m - low_.z, nz_);
        for (int k = k0; k <= k1; ++k)
            for (int j = j0; j <= j1; ++j)
                for (int i = i0; i <= i1; ++i) {
                    const Vec3 p =
                        low_ +
                        Vec3{static_cast<float>(i), static_cast<float>(j), static_cast<float>(k)} *
                            step -
                        b.centre;
                    const Vec3 u{dot(b.unit_from_mm[0], p), dot(b.unit_from_mm[1], p),
                                 dot(b.unit_from_mm[2], p)};
                    const float d = (length(u) - 1) * std::sqrt(b.least_radius * b.most_radius);
                    float& f = free_[index(i, j, k)];
                    f = std::min(f, d);
                }
    }

  private:
    static constexpr float step = 0.5f;
    [[nodiscard]] static int node(float offset, int n) {
        return std::clamp(static_cast<int>(offset / step + 0.5f), 0, n - 1);
    }
    [[nodiscard]] std::size_t index(int i, int j, int k) const {
        return (static_cast<std::size_t>(k) * ny_ + j) * nx_ + i;
    }
    Vec3 low_;
    int nx_, ny_, nz_;
    std::vector<float> free_;
};

float gaussian(RandomStream& random) {
    const float u = std::max(random.next(), 1e-7f);
    return std::sqrt(-2 * std::log(u)) * std::cos(2 * pi * random.next());
}

struct Domain {
    Vec3 low;
    Vec3 high;   // z: 0 to the thickness; bubbles may stick out
    float bend;  // and bent space draws on those this much farther up
    [[nodiscard]] float area() const { return (high.x - low.x) * (high.y - low.y); }
};

// Nothing that no light reaches is worth placing: below this depth the bubble is left out.
float useful_depth(float diameter) {
    return 2.0f + 5 * diameter;
}

struct Seedling {
    float diameter;
    float z;
};

void add_population(std::vector<Seedling>& out, const Domain& domain, double gas_mm3_per_mm3,
                    RandomStream& random, auto&& draw_diameter) {
    const float depth = domain.high.z;
    double volume = 0;
    // Bubbles also lie above the cut and below the slice, as far as they reach into it.
    const double wanted = gas_mm3_per_mm3 * domain.area() * depth;
    while (volume < wanted) {
        const float d = draw_diameter();
        const float z = random.between(-d / 2 - domain.bend, depth + d / 2);
        volume += pi / 6 * d * d * d * depth / (depth + d + domain.bend);
        if (z - d / 2 < useful_depth(d)) out.push_back({d, z});
    }
}

std::vector<Seedling> draw_sizes(const FoamRecipe& recipe, const Domain& domain, double crowding) {
    RandomStream random(hash32(recipe.seed, 101));
    std::vector<Seedling> seeds;
    const double gas = crowding * recipe.openness;
    const float spread = static_cast<float>(recipe.spread);
    // Number-weighted median from the volume-weighted one (Hatch-Choate).
    const auto log_normal = [&](double volume_median) {
        const float d = static_cast<float>(volume_median);
        const float drawn = d * std::exp(-3 * spread * spread + spread * gaussian(random));
        return std::clamp(drawn, least_diameter, 6 * d);
    };
    add_population(seeds, domain, gas * (1 - recipe.cavern_share - recipe.matrix_share), random,
                   [&] { return log_normal(recipe.diameter_mm); });
    add_population(seeds, domain, gas * recipe.matrix_share, random,
                   [&] { return log_normal(std::min(recipe.matrix_mm, recipe.diameter_mm)); });
    if (recipe.cavern_share > 0)
        add_population(seeds, domain, gas * recipe.cavern_share, random, [&] {
            return static_cast<float>(recipe.cavern_mm) * random.between(0.7f, 1.5f);
        });
    const auto fines = static_cast<std::size_t>(
        recipe.fines_per_mm3 *
        static_cast<double>(domain.area() * (fine_depth + 0.2f + domain.bend)));
    for (std::size_t i = 0; i < fines; ++i) {
        const float u = random.next();
        seeds.push_back(
            {least_diameter + 0.3f * u * u, random.between(-0.2f - domain.bend, fine_depth)});
    }
    std::sort(seeds.begin(), seeds.end(), [](const Seedling& a, const Seedling& b) {
        return a.diameter != b.diameter ? a.diameter > b.diameter : a.z < b.z;
    });
    return seeds;
}

// Rotation rows: the first along the longest axis.
struct Axes {
    Vec3 a, b, c;
};

Axes bubble_axes(const FoamRecipe& recipe, const PlaneFields& fields, Vec3 p, float near_crust,
                 RandomStream& random) {
    Vec3 direction = normalised({gaussian(random), gaussian(random), gaussian(random)});
    const float angle = static_cast<float>(recipe.direction);
    Vec3 preferred{std::cos(angle), -std::sin(angle), 0};
    if (near_crust > 0) {
        const float h = 1;
        const Vec3 slope{
            plane_at(fields, p.x + h, p.y).outline - plane_at(fields, p.x - h, p.y).outline,
            plane_at(fields, p.x, p.y + h).outline - plane_at(fields, p.x, p.y - h).outline, 0};
        const Vec3 along = normalised(Vec3{-slope.y, slope.x, 0} + Vec3{1e-6f, 0, 0});
        preferred = dot(preferred, along) < 0 ? -preferred : preferred;
        preferred = normalised(preferred * (1 - near_crust) + along * near_crust);
    }
    if (dot(direction, preferred) < 0) direction = -direction;
    const float pull = std::min(1.0f, static_cast<float>(recipe.alignment) + 0.6f * near_crust);
    const Vec3 a = normalised(direction * (1 - pull) + preferred * pull);
    const Vec3 helper = std::fabs(a.z) < 0.9f ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
    const Vec3 b = normalised(cross(a, helper));
    return {a, b, cross(a, b)};
}

Bubble shaped_bubble(const FoamRecipe& recipe, const PlaneFields& fields, Vec3 centre, float radius,
                     float near_crust, RandomStream& random) {
    const Axes axes = bubble_axes(recipe, fields, centre, near_crust, random);
    const float stretch =
        1 + (static_cast<float>(recipe.elongation) - 1) * (0.3f + 1.4f * random.next()) +
        0.7f * near_crust;
    const float second = 1 + (stretch - 1) * random.between(0.1f, 0.7f);
    const float scale = radius / std::cbrt(stretch * second);
    const float ra = scale * stretch, rb = scale * second, rc = scale;
    return {centre, {axes.a * (1 / ra), axes.b * (1 / rb), axes.c * (1 / rc)}, rc, ra, 0};
}

// A bubble that grew by swallowing its neighbours: lobes that reach to the hull of the first.
std::vector<Bubble> run_together(const Bubble& hull, std::uint32_t group, RandomStream& random) {
    std::vector<Bubble> lobes;
    const auto add = [&](Vec3 offset_in_hull, float size) {
        Bubble lobe = hull;
        lobe.group = group;
        lobe.least_radius *= size;
        lobe.most_radius *= size;
        for (int row = 0; row < 3; ++row) {
            const Vec3 axis = hull.unit_from_mm[row];
            const float along = row == 0   ? offset_in_hull.x
                                : row == 1 ? offset_in_hull.y
                                           : offset_in_hull.z;
            lobe.centre = lobe.centre + axis * (along / dot(axis, axis));
            lobe.unit_from_mm[row] = axis * (1 / size);
        }
        lobes.push_back(lobe);
    };
    add({0, 0, 0}, random.between(0.55f, 0.8f));
    const int count = 3 + static_cast<int>(random.next() * 5);
    for (int i = 0; i < count; ++i) {
        const float size = random.between(0.3f, 0.62f);
        const Vec3 way = normalised({gaussian(random), gaussian(random), gaussian(random)});
        add(way * (1.05f - size * random.between(0.75f, 1.0f)), size);
    }
    return lobes;
}

}  // namespace

Bubble sphere(Vec3 centre, float radius) {
    const float k = 1 / radius;
    return {centre, {{k, 0, 0}, {0, k, 0}, {0, 0, k}}, radius, radius, 0};
}

std::vector<Bubble> pack_bubbles(const FoamRecipe& recipe, const PlaneFields& fields,
                                 double thickness_mm, double crowding) {
    const Domain domain{{fields.x0, fields.y0, 0},
                        {fields.x0 + fields.step * static_cast<float>(fields.nx - 1),
                         fields.y0 + fields.step * static_cast<float>(fields.ny - 1),
                         static_cast<float>(thickness_mm)},
                        deepest_bend(static_cast<float>(recipe.irregularity))};
    const std::vector<Seedling> seeds = draw_sizes(recipe, domain, crowding);
    const float reach_z = domain.bend + (seeds.empty() ? 1 : seeds.front().diameter / 2);
    FreeSpace free(domain.low - Vec3{0, 0, reach_z}, domain.high + Vec3{0, 0, reach_z});
    std::vector<Bubble> bubbles;
    bubbles.reserve(seeds.size());
    const float zone = static_cast<float>(recipe.crust_zone_mm);
    RandomStream random(hash32(recipe.seed, 202));
    for (const Seedling& seed : seeds) {
        // Some bubbles grow into a neighbour instead of keeping clear of it.
        const bool clings = random.next() < recipe.clinging;
        Vec3 best{};
        float best_room = -1e9f, best_radius = 0, best_near = 0;
        for (int attempt = 0; attempt < 8; ++attempt) {
            const Vec3 c{random.between(domain.low.x, domain.high.x),
                         random.between(domain.low.y, domain.high.y), seed.z};
            const float depth = plane_at(fields, c.x, c.y).crumb_depth;
            const float near = 1 - smooth_step(0, zone, depth);
            const float patch = std::exp(static_cast<float>(recipe.patchiness) * 1.6f *
                                         value_noise(c * (1 / 16.0f), recipe.seed + 5));
            const float local = seed.diameter < 0.6f ? 1 - 0.15f * near : (1 - 0.5f * near) * patch;
            const float radius = seed.diameter / 2 * local;
            // Half buried in the crust is where a bubble would burst: leave it out.
            if (depth < 0.35f * radius) continue;
            const float room = (free.at(c) - radius) / radius;
            if (room > best_room) {
                best = c;
                best_room = room;
                best_radius = radius;
                best_near = near;
            }
            if (clings ? room > -1.0f && room < -0.2f : room > -0.12f) {
                best = c;
                best_radius = radius;
                best_near = near;
                break;
            }
        }
        if (best_radius < 0.4f * least_diameter) continue;
        const Bubble one = shaped_bubble(recipe, fields, best, best_radius, best_near, random);
        const bool lobed = best_radius > 0.6f && random.next() < recipe.lobed;
        const std::vector<Bubble> parts =
            lobed ? run_together(one, static_cast<std::uint32_t>(bubbles.size() + 1), random)
                  : std::vector<Bubble>{one};
        for (const Bubble& part : parts) {
            bubbles.push_back(part);
            free.fill(part, std::max(best_radius, 0.3f));
        }
    }
    return bubbles;
}

}  // namespace loafmark::phantoms
