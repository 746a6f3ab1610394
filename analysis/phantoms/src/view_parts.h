// What shape views of all kinds share: cheap bread, a ruler's reading, things beside a slice.
#pragma once

#include <string>

#include "draws.h"
#include "framing.h"

namespace loafmark::phantoms {

// A recipe with table, light, sensor and settings that keep a photo's cost low; its one slice is
// still without a shape.
[[nodiscard]] PhantomRecipe cheap_scene(Dice& dice, std::uint32_t seed, int number, Family family);

// A slice of that flour with foam that is coarse enough to be cheap.
[[nodiscard]] SliceRecipe cheap_slice(Dice& dice, const FlourLook& flour, Family family);

// Lays the slice so that the middle of its turned outline lies there.
void lay_at(SliceRecipe& slice, PlanePoint middle_mm, double angle);

// What a ruler with half millimetres says of the height of the cut, read a little wrong.
void rule(Dice& dice, const PhantomRecipe& recipe, SliceRecipe& slice);

// Fingers or a knife, their ends a few millimetres from the slice; `from_right` or from the left.
[[nodiscard]] std::vector<Solid> hand_beside(Dice& dice, const SliceRecipe& slice, bool from_right);

// A phone's lens, a photo of at least 8 pixels a millimetre, held as people hold it.
[[nodiscard]] CameraWish hand_held(Dice& dice);

[[nodiscard]] std::string surface_name(Surface surface);

}  // namespace loafmark::phantoms
