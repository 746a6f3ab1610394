// A whole photo's worth of rays.
#pragma once

#include <vector>

#include "phantoms/camera.h"
#include "phantoms/pixel.h"

namespace loafmark::phantoms {

// Linear light as it falls on the sensor: rows top to bottom, pixels left to right.
struct Radiance {
    int width = 0;
    int height = 0;
    std::vector<Colour> light;
    std::vector<float> bread;  // per pixel, the share that slices cover
};

// The camera ready for rays in the target's frame.
[[nodiscard]] PixelCamera pixel_camera(const Camera& camera);

// Equal seeds give equal pictures for any number of threads.
[[nodiscard]] Radiance render(const SceneView& scene, const PixelCamera& camera, int width,
                              int height, SampleCount samples, std::uint32_t seed, int threads);

}  // namespace loafmark::phantoms
