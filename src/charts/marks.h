// How one series is told from another: each has a shape and a colour.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace loafmark::charts {

// The class that gives the colour of the series `index`, from 0.
[[nodiscard]] std::string series_class(std::size_t index);

// A mark of the series at a place, with a note shown when it is pointed at.
[[nodiscard]] std::string mark(double x, double y, std::size_t index, std::string_view note);

// A <polygon> without its end tag.
[[nodiscard]] std::string polygon_tag(const std::vector<std::array<double, 2>>& corners,
                                      std::string_view classes);

}  // namespace loafmark::charts
