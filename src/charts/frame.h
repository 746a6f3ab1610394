// The sheet that every chart is drawn on: its size, its axes, its words.
#pragma once

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "charts/chart.h"
#include "charts/ticks.h"

namespace loafmark::charts {

// The plot's rectangle within the sheet, in SVG user units.
struct Plot {
    double left = 42;
    double top = 30;
    double right = 350;
    double bottom = 240;
};

// Narrow, so that a phone shows letters at nearly their own size.
inline constexpr double sheet_width = 360;
inline constexpr double sheet_height = 284;

// From values to the plot's coordinates.
struct Scaling {
    double low = 0;
    double high = 1;
    double at_low = 0;  // SVG coordinate of `low`
    double at_high = 1;
    bool logarithmic = false;
    [[nodiscard]] double operator()(double value) const {
        const double part = logarithmic ? std::log(value / low) / std::log(high / low)
                                        : (value - low) / (high - low);
        return at_low + part * (at_high - at_low);
    }
};

// The <svg> element around `content`, with title and description for those who hear it; a
// stand-alone sheet has styles, ground and a heading too.
[[nodiscard]] std::string sheet(std::string_view title, std::string_view description,
                                const std::string& content, Embedding embedding,
                                double height = sheet_height);

// A chart of nothing, which says so.
[[nodiscard]] std::string empty_sheet(std::string_view title, std::string_view description,
                                      Embedding embedding);

// Hairlines across, with their numbers to the left; the axis' name stands above them.
[[nodiscard]] std::string y_axis(const Plot& plot, const Axis& axis, const std::vector<Tick>& ticks,
                                 const Scaling& y);
// The base line with ticks and numbers below; the axis' name at its right end.
[[nodiscard]] std::string x_axis(const Plot& plot, const Axis& axis, const std::vector<Tick>& ticks,
                                 const Scaling& x);

}  // namespace loafmark::charts
