// Distances to the two nearest bubbles on a small block of nodes, and the bread between them.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "phantoms/foam.h"
#include "phantoms/foam_field.h"

namespace loafmark::phantoms {

// Which bubbles can matter where: lists of bubbles per cube of space.
class BubbleIndex {
  public:
    BubbleIndex(const std::vector<Bubble>& bubbles, float margin_mm);
    // The bubbles whose reach meets the box, ascending, each once.
    [[nodiscard]] std::vector<std::uint32_t> near(Vec3 low, Vec3 high) const;
    [[nodiscard]] BubbleCubes view() const {
        return {starts_.data(), members_.data(), low_, nx_, ny_, nz_};
    }
    [[nodiscard]] const std::vector<std::uint32_t>& starts() const { return starts_; }
    [[nodiscard]] const std::vector<std::uint32_t>& members() const { return members_; }

  private:
    [[nodiscard]] std::array<int, 6> cubes(Vec3 low, Vec3 high) const;
    static constexpr float side = BubbleCubes::side;
    Vec3 low_{};
    int nx_ = 1, ny_ = 1, nz_ = 1;
    std::vector<std::uint32_t> starts_;
    std::vector<std::uint32_t> members_;
};

// The voxels of such a step over the fields' rectangle between two depths; without values.
[[nodiscard]] VoxelGrid grid_over(const PlaneFields& fields, float step, float z_from, float z_to);

// Everything that the level set at a node depends on.
struct FoamSource {
    const std::vector<Bubble>* bubbles;
    const BubbleIndex* index;
    WallRules rules;
    PlaneFields fields;
    [[nodiscard]] FoamField field() const { return {bubbles->data(), rules, fields}; }
};

// Up to side^3 nodes at origin + (i, j, k) step.
class Brick {
  public:
    static constexpr int side = 16;
    Brick(const FoamSource& source, Vec3 origin, float step, int nx, int ny, int nz);
    // The level set in mm at a node of the brick: positive in air, negative in bread.
    [[nodiscard]] float level(int i, int j, int k, float swell_mm) const;

  private:
    void bend_space();
    void add(std::uint32_t id);
    [[nodiscard]] Vec3 position(int i, int j, int k) const;
    static std::size_t node(int i, int j, int k) {
        return (static_cast<std::size_t>(k) * side + static_cast<std::size_t>(j)) * side +
               static_cast<std::size_t>(i);
    }
    static constexpr std::size_t nodes = static_cast<std::size_t>(side) * side * side;

    const FoamSource& source_;
    Vec3 origin_;
    float step_;
    int nx_, ny_, nz_;
    float beyond_;
    Vec3 shift_low_{}, shift_high_{};  // bounds of how far the nodes' positions are bent
    std::array<float, nodes> x_, y_, z_;
    std::array<float, nodes> nearest_, second_;
    std::array<std::uint32_t, nodes> nearest_id_, second_id_;
};

}  // namespace loafmark::phantoms
