#pragma once

#include <iosfwd>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace loafmark::phantoms {

inline constexpr std::string_view usage =
    "usage: loafmark-phantoms samples DIR [--only NAME]\n"
    "       loafmark-phantoms set DIR --seed N --count K [--from I] [--held-back] [KIND]\n"
    "\n"
    "samples  the sample images of the project\n"
    "set      K random photos of the series N, from number I on; --held-back: of the family that\n"
    "         differs in loaves, light and tables\n"
    "KIND     none: one slice with crumb in full detail. --patches: 40 mm of crumb;\n"
    "         --spheres: the same of round bubbles that stand apart.\n"
    "         Cheap views for scale and outline: --shape: one slice in many scenes;\n"
    "         --several: two to four slices; --standing: a half loaf with the strip upright;\n"
    "         --variants: one slice in photos turned, mirrored, tilted, halved, without truth\n"
    "options  --threads T (default: all), --fast (fewer rays, for a quick look)\n"
    "\n"
    "Per photo: NAME.jpg, NAME.truth.json, NAME.cells.png, NAME.specks.png; docs/phantoms.md "
    "describes them.\n";

class BadCommandLine : public std::runtime_error {
    using std::runtime_error::runtime_error;
};

// Runs one command; progress goes to `progress`. Throws BadCommandLine, or std::exception when the
// work fails. Returns the exit code.
int run(const std::vector<std::string>& arguments, std::ostream& progress);

}  // namespace loafmark::phantoms
