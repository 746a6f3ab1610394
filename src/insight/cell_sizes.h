// How the opening of a cut face shares out over small and large cells.
#pragma once

#include <optional>
#include <vector>

namespace loafmark::insight {

// Areas of circles of these diameters, up to a common factor: what weights cells "by area".
[[nodiscard]] std::vector<double> relative_areas(const std::vector<double>& diameters);

// The smallest diameter such that cells up to it hold half of all opening; in the diameters' unit.
// Nothing for no cells.
[[nodiscard]] std::optional<double> half_of_opening(const std::vector<double>& diameters);

}  // namespace loafmark::insight
