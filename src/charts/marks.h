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

// Intervals of more points than these would be one grey, and are not drawn.
inline constexpr std::size_t most_with_hairs = 150;

// A mark of the series at a place, with a note shown when it is pointed at.
[[nodiscard]] std::string mark(double x, double y, std::size_t index, std::string_view note);

// `drawn`, leading to `link` where there is one, with the `id` of that place where there is one.
[[nodiscard]] std::string linked(std::string_view link, const std::string& drawn,
                                 std::string_view id = {});

// A <polygon> without its end tag.
[[nodiscard]] std::string polygon_tag(const std::vector<std::array<double, 2>>& corners,
                                      std::string_view classes);

}  // namespace loafmark::charts
