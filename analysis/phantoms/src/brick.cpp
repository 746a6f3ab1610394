#include "brick.h"

#include <algorithm>
#include <cmath>

#include "phantoms/random.h"

namespace loafmark::phantoms {

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
    nearest_id_.fill(no_bubble);
    second_id_.fill(no_bubble);
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

float Brick::level(int i, int j, int k, float swell_mm) const {
    const std::size_t n = node(i, j, k);
    const TwoNearest two{nearest_[n], second_[n], nearest_id_[n], second_id_[n]};
    return bread_level(source_.field(), two, position(i, j, k), {x_[n], y_[n], z_[n]}, swell_mm);
}

}  // namespace loafmark::phantoms
