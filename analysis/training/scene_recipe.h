// Scenes for training the search for slices: what kitchens may put before a camera, more widely
// drawn than the photos on which accuracy is judged.
#pragma once

#include <cstdint>
#include <vector>

#include "phantoms/phantom.h"

namespace loafmark::training {

// The part of the camera's frame that is made, pixels.
struct Window {
    int left = 0;
    int top = 0;
    int width = 0;
    int height = 0;
};

// One photo of the scene: its recipe's loaves, foam and places are the scene's; bread's colours,
// table, light and camera are its own.
struct Shot {
    phantoms::PhantomRecipe recipe;
    Window window;
};

// Slices made once, photographed several times: the whole view, small, and the view near one slice.
struct SceneRecipe {
    phantoms::PhantomRecipe made_once;
    std::vector<Shot> shots;
};

// Equal seeds, equal scenes. Tables are those of the development family, tinted at random; its
// seeds are never those of judged photos.
[[nodiscard]] SceneRecipe random_scene(std::uint32_t seed);

}  // namespace loafmark::training
