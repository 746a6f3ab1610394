// Random recipes across the whole range of loaves, light, tables and cameras.
#pragma once

#include <cstdint>
#include <vector>

#include "phantoms/phantom.h"

namespace loafmark::phantoms {

// `held_back` differs in loaves, light and tables, not only in the seed: nothing may be tuned on
// it.
enum class Family { development, held_back };

[[nodiscard]] PhantomRecipe random_loaf(std::uint32_t seed, int number, Family family);
// Views for judging scale and outline: real scenes at a fraction of the cost, since their foam is
// coarse and shallow and rays are few. One slice on a table, its scene (mats, strip, plate, hand,
// crumbs, turns, a photo without focal length or of low resolution) by the number; two to four
// slices; a standing half loaf with the strip beside it.
[[nodiscard]] PhantomRecipe shape_view(std::uint32_t seed, int number, Family family);
[[nodiscard]] PhantomRecipe several_view(std::uint32_t seed, int number, Family family);
[[nodiscard]] PhantomRecipe standing_view(std::uint32_t seed, int number, Family family);
// One slice in photos that ought to give the same measures: near square on, mirrored (the slice and
// not its target, whose markers have no mirror image), and from 20 degrees to a side.
struct ChangedViews {
    PhantomRecipe first;
    PhantomRecipe mirrored;
    PhantomRecipe tilted;
};
[[nodiscard]] ChangedViews changed_views(std::uint32_t seed, int number, Family family);

// A 40 mm patch of crumb of that family.
[[nodiscard]] PhantomRecipe random_patch(std::uint32_t seed, int number, Family family);
// The same of spheres that stand apart: what unfolding a section to bubbles takes for granted.
[[nodiscard]] PhantomRecipe sphere_patch(std::uint32_t seed, int number, Family family);

}  // namespace loafmark::phantoms
