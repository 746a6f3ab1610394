// From light on the sensor to the 8-bit photo: light through thin crumb, lens, sensor, processing.
#pragma once

#include <cstdint>

#include "analysis/picture.h"
#include "phantoms/render.h"

namespace loafmark::phantoms {

struct Development {
    double translucency = 0.35;     // share of the bread's light that wanders inside it
    double translucency_mm = 0.35;  // how far (standard deviation)
    double defocus_px = 0.6;        // standard deviation of the lens' blur
    double vignetting = 0.15;       // light lost in the corners
    double exposure_stops = 0;      // off a mean of 18 % grey metering
    Colour illuminant{1, 1, 1};     // what the camera's white balance takes for white
    double warmth = 0;              // off that balance: > 0 redder; a log2 ratio of red to blue
    double shot_noise = 0.010;      // standard deviation at white; falls with the root of light
    double read_noise = 0.002;      // standard deviation in the dark, of white
    double contrast = 0.25;         // strength of the S-shaped tone curve, 0..1
    double sharpening = 0.4;        // of the unsharp mask (1 px)
    double saturation = 1.05;
    std::uint32_t seed = 1;
};

// pixels_per_mm: of the cut face.
[[nodiscard]] Picture develop(const Radiance& radiance, const Development& how,
                              double pixels_per_mm, int threads);

}  // namespace loafmark::phantoms
