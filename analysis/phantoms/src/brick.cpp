#include "brick.h"

#include <algorithm>
#include <cmath>

#include "phantoms/random.h"

namespace loafmark::phantoms {

namespace {

constexpr std::uint32_t nobody = 0xffffffffU;

// Wide bends stay in the plane: bubbles are placed near the cut alone, and bending that pulled the
// cut far above them would leave bare patches. `deepest_bend` bounds the rest.
Vec3 bend(Vec3 p, const WallRules& rules) {
    const float w = rules.warp;
    Vec3 wide = vector_noise(p * (1 / 5.0f), rules.seed + 12) * (0.75f * w) +
                vector_noise(p * (1 / 13.0f), rules.seed + 13) * (1.6f * w);
    wide.z *= 0.1f;
    return vector_noise(p * (1 / 0.9f), rules.seed + 10) * (0.09f * w) +
           vector_noise(p * (1 / 2.1f), rules.seed + 11) * (0.26f * w) + wide;
}

// Wall of a pair of neighbours at a place, mm; below any thickness where it is torn away.
float wall_between(const FoamSource& source, std::uint32_t a, std::uint32_t b, Vec3 p) {
    constexpr float gone = -50, tiny = 0.3f;
    const WallRules& rules = source.rules;
    const Bubble &one = (*source.bubbles)[a], &other = (*source.bubbles)[b];
    if (one.group != 0 && one.group == other.group) return gone;
    const std::uint32_t low = std::min(a, b), high = std::max(a, b);
    const std::uint32_t h = hash32(hash32(low, rules.seed), high);
    const float fate = unit_float(h);
    // The walls of the finest cells burst most easily: they pit the cells beside them.
    const float less = std::min(one.least_radius, other.least_radius);
    const bool pits = less < tiny && std::max(one.least_radius, other.least_radius) > 4 * less;
    if (fate < (pits ? std::min(0.6f, 4 * rules.open_pairs) : rules.open_pairs)) return gone;
    if (fate < rules.open_pairs + rules.torn_pairs) {
        const float rag =
            value_noise(p * (1 / 1.4f), h) + 0.5f * value_noise(p * (1 / 0.4f), h + 1);
        if (rag > -0.1f) return gone;
    }
    const float thick = 0.5f + 0.5f * value_noise(p * (1 / 2.5f), rules.seed + 21);
    return rules.wall_mm + rules.wall_spread_mm * thick * thick;
}

}  // namespace

float deepest_bend(float warp) {
    return (0.09f + 0.26f + 0.1f * (0.75f + 1.6f)) * warp;
}

float reach_beyond(const WallRules& rules) {
    return std::max(0.4f, rules.wall_mm + rules.wall_spread_mm + 0.05f);
}

BubbleIndex::BubbleIndex(const std::vector<Bubble>& bubbles, float margin_mm) {
    Vec3 high{-1e9f, -1e9f, -1e9f};
    low_ = {1e9f, 1e9f, 1e9f};
    for (const Bubble& b : bubbles) {
        const float m = b.most_radius + margin_mm;
        low_ = {std::min(low_.x, b.centre.x - m), std::min(low_.y, b.centre.y - m),
                std::min(low_.z, b.centre.z - m)};
        high = {std::max(high.x, b.centre.x + m), std::max(high.y, b.centre.y + m),
                std::max(high.z, b.centre.z + m)};
    }
    if (!bubbles.empty()) {
        nx_ = static_cast<int>((high.x - low_.x) / side) + 1;
        ny_ = static_cast<int>((high.y - low_.y) / side) + 1;
        nz_ = static_cast<int>((high.z - low_.z) / side) + 1;
    }
    starts_.assign(static_cast<std::size_t>(nx_) * ny_ * nz_ + 1, 0);
    const auto visit = [&](const Bubble& b, auto&& act) {
        const float m = b.most_radius + margin_mm;
        const auto c = cubes(b.centre - Vec3{m, m, m}, b.centre + Vec3{m, m, m});
        for (int k = c[4]; k <= c[5]; ++k)
            for (int j = c[2]; j <= c[3]; ++j)
                for (int i = c[0]; i <= c[1]; ++i)
                    act((static_cast<std::size_t>(k) * ny_ + j) * nx_ + i);
    };
    for (const Bubble& b : bubbles)
        visit(b, [&](std::size_t cube) { ++starts_[cube + 1]; });
    for (std::size_t i = 1; i < starts_.size(); ++i)
        starts_[i] += starts_[i - 1];
    members_.resize(starts_.back());
    std::vector<std::uint32_t> filled(starts_.begin(), starts_.end() - 1);
    for (std::size_t id = 0; id < bubbles.size(); ++id)
        visit(bubbles[id],
              [&](std::size_t cube) { members_[filled[cube]++] = static_cast<std::uint32_t>(id); });
}

std::array<int, 6> BubbleIndex::cubes(Vec3 low, Vec3 high) const {
    const auto cube = [](float offset, int n) {
        return std::clamp(floor_int(offset / side), 0, n - 1);
    };
    return {cube(low.x - low_.x, nx_),  cube(high.x - low_.x, nx_), cube(low.y - low_.y, ny_),
            cube(high.y - low_.y, ny_), cube(low.z - low_.z, nz_),  cube(high.z - low_.z, nz_)};
}

std::vector<std::uint32_t> BubbleIndex::near(Vec3 low, Vec3 high) const {
    std::vector<std::uint32_t> found;
    const auto c = cubes(low, high);
    for (int k = c[4]; k <= c[5]; ++k)
        for (int j = c[2]; j <= c[3]; ++j)
            for (int i = c[0]; i <= c[1]; ++i) {
                const std::size_t cube = (static_cast<std::size_t>(k) * ny_ + j) * nx_ + i;
                found.insert(found.end(), members_.begin() + starts_[cube],
                             members_.begin() + starts_[cube + 1]);
            }
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
}

Brick::Brick(const FoamSource& source, Vec3 origin, float step, int nx, int ny, int nz)
    : source_(source),
      origin_(origin),
      step_(step),
      nx_(nx),
      ny_(ny),
      nz_(nz),
      beyond_(reach_beyond(source.rules)) {
    nearest_.fill(beyond_);
    second_.fill(beyond_);
    nearest_id_.fill(nobody);
    second_id_.fill(nobody);
    bend_space();
    for (const std::uint32_t id :
         source_.index->near(origin + shift_low_, position(nx - 1, ny - 1, nz - 1) + shift_high_))
        add(id);
}

Vec3 Brick::position(int i, int j, int k) const {
    return origin_ +
           Vec3{static_cast<float>(i), static_cast<float>(j), static_cast<float>(k)} * step_;
}

// Bends the nodes' positions; computed on every fourth node and interpolated.
void Brick::bend_space() {
    constexpr int coarse = side / 4 + 1;
    std::array<Vec3, coarse * coarse * coarse> lattice{};
    const float w = source_.rules.warp;
    if (w > 0) {
        shift_low_ = {1e9f, 1e9f, 1e9f};
        shift_high_ = {-1e9f, -1e9f, -1e9f};
        for (int c = 0; c < coarse * coarse * coarse; ++c) {
            const Vec3 s = bend(
                position(4 * (c % coarse), 4 * (c / coarse % coarse), 4 * (c / coarse / coarse)),
                source_.rules);
            lattice[static_cast<std::size_t>(c)] = s;
            shift_low_ = {std::min(shift_low_.x, s.x), std::min(shift_low_.y, s.y),
                          std::min(shift_low_.z, s.z)};
            shift_high_ = {std::max(shift_high_.x, s.x), std::max(shift_high_.y, s.y),
                           std::max(shift_high_.z, s.z)};
        }
    }
    const auto at = [&](int i, int j, int k) {
        return lattice[static_cast<std::size_t>((k * coarse + j) * coarse + i)];
    };
    for (int k = 0; k < nz_; ++k)
        for (int j = 0; j < ny_; ++j)
            for (int i = 0; i < nx_; ++i) {
                Vec3 shift{};
                if (w > 0) {
                    const int a = i / 4, b = j / 4, c = k / 4;
                    const float fx = static_cast<float>(i & 3) / 4,
                                fy = static_cast<float>(j & 3) / 4,
                                fz = static_cast<float>(k & 3) / 4;
                    const auto lerp = [](Vec3 p, Vec3 q, float t) { return p + (q - p) * t; };
                    const Vec3 near = lerp(lerp(at(a, b, c), at(a + 1, b, c), fx),
                                           lerp(at(a, b + 1, c), at(a + 1, b + 1, c), fx), fy);
                    const Vec3 deep =
                        lerp(lerp(at(a, b, c + 1), at(a + 1, b, c + 1), fx),
                             lerp(at(a, b + 1, c + 1), at(a + 1, b + 1, c + 1), fx), fy);
                    shift = lerp(near, deep, fz);
                }
                const Vec3 p = position(i, j, k) + shift;
                const std::size_t n = node(i, j, k);
                x_[n] = p.x;
                y_[n] = p.y;
                z_[n] = p.z;
            }
}

// Doubles its pace where the processor has wide vectors; the results are the same.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
__attribute__((target_clones("avx2", "default")))
#endif
void Brick::add(std::uint32_t id) {
    const Bubble& b = (*source_.bubbles)[id];
    const float reach = b.most_radius + beyond_ + std::max(0.0f, source_.rules.swell_mm);
    const Vec3 low = b.centre - origin_ - shift_high_ - Vec3{reach, reach, reach};
    const Vec3 high = b.centre - origin_ - shift_low_ + Vec3{reach, reach, reach};
    const auto first = [&](float c) { return std::max(0, -floor_int(-c / step_)); };
    const auto last = [&](float c, int n) { return std::min(n - 1, floor_int(c / step_)); };
    const int i0 = first(low.x), i1 = last(high.x, nx_);
    const int j0 = first(low.y), j1 = last(high.y, ny_);
    const int k0 = first(low.z), k1 = last(high.z, nz_);
    const Vec3 r0 = b.unit_from_mm[0], r1 = b.unit_from_mm[1], r2 = b.unit_from_mm[2];
    for (int k = k0; k <= k1; ++k)
        for (int j = j0; j <= j1; ++j) {
            const std::size_t row = node(0, j, k);
            for (int i = i0; i <= i1; ++i) {
                const std::size_t n = row + static_cast<std::size_t>(i);
                const float px = x_[n] - b.centre.x, py = y_[n] - b.centre.y,
                            pz = z_[n] - b.centre.z;
                const float u = r0.x * px + r0.y * py + r0.z * pz;
                const float v = r1.x * px + r1.y * py + r1.z * pz;
                const float w = r2.x * px + r2.y * py + r2.z * pz;
                const float d = (std::sqrt(u * u + v * v + w * w) - 1) * b.least_radius;
                const bool nearer = d < nearest_[n];
                const bool between = !nearer && d < second_[n];
                second_[n] = nearer ? nearest_[n] : (between ? d : second_[n]);
                second_id_[n] = nearer ? nearest_id_[n] : (between ? id : second_id_[n]);
                nearest_[n] = nearer ? d : nearest_[n];
                nearest_id_[n] = nearer ? id : nearest_id_[n];
            }
        }
}

// Positive in air.
float Brick::foam_level(std::size_t n, float swell_mm) const {
    const WallRules& rules = source_.rules;
    float bread = nearest_[n] - swell_mm;  // positive in bread
    const Vec3 p{x_[n], y_[n], z_[n]};
    const float gap = second_[n] - nearest_[n];
    const float most_wall = rules.wall_mm + rules.wall_spread_mm;
    if (most_wall > 0 && nearest_id_[n] != nobody) {
        // Beyond the reach of any wall the exact one does not matter: a safe distance will do.
        const bool near = second_id_[n] != nobody && gap < most_wall + 0.1f;
        const float wall = near ? wall_between(source_, nearest_id_[n], second_id_[n], p) : 0;
        bread = std::max(bread, (wall - gap) / 2);
    }
    if (rules.roughness_mm > 0 && std::fabs(bread) < 0.15f)
        bread += rules.roughness_mm * (value_noise(p * (1 / 0.55f), rules.seed + 31) +
                                       0.6f * value_noise(p * (1 / 0.22f), rules.seed + 32));
    return -bread;
}

float Brick::level(int i, int j, int k, float swell_mm) const {
    const Vec3 p = position(i, j, k);
    const PlaneSample here = plane_at(source_.fields, p.x, p.y);
    // The crust holds no cells.
    float air = std::min(foam_level(node(i, j, k), swell_mm), here.crumb_depth);
    // Below the cut the flank is rough; in the cut the outline is exact.
    float flank = here.outline;
    if (std::fabs(flank) < 0.5f)
        flank += std::min(1.0f, std::fabs(p.z)) * 0.25f *
                 value_noise(p * (1 / 1.2f), source_.rules.seed + 41);
    return std::max(air, flank);
}

}  // namespace loafmark::phantoms
