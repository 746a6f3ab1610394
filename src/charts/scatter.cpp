#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "charts/chart.h"
#include "charts/frame.h"
#include "charts/marks.h"
#include "charts/svg_text.h"
#include "charts/ticks.h"

namespace loafmark::charts {
namespace {

constexpr double label_height = 15;
constexpr double widest_label = 154;

struct Extent {
    double low = std::numeric_limits<double>::infinity();
    double high = -std::numeric_limits<double>::infinity();
    void take(double value) {
        low = std::min(low, value);
        high = std::max(high, value);
    }
    [[nodiscard]] bool empty() const { return low > high; }
};

bool finite(const ScatterPoint& p) {
    return std::isfinite(p.x) && std::isfinite(p.y);
}

bool finite(const LinePoint& p) {
    return std::isfinite(p.x) && std::isfinite(p.y) &&
           (!p.interval || (std::isfinite(p.interval->first) && std::isfinite(p.interval->second)));
}

// Without what cannot be drawn.
std::vector<Series> drawable(std::vector<Series> series) {
    for (Series& s : series) {
        std::erase_if(s.points, [](const ScatterPoint& p) { return !finite(p); });
        std::erase_if(s.line, [](const LinePoint& p) { return !finite(p); });
    }
    return series;
}

Extent extent_x(const std::vector<Series>& series) {
    Extent extent;
    for (const Series& s : series) {
        for (const ScatterPoint& p : s.points)
            extent.take(p.x);
        for (const LinePoint& p : s.line)
            extent.take(p.x);
    }
    return extent;
}

// Of points and lines; a band counts for at most as far again as these reach, since the band of a
// few points would press them flat.
Extent extent_y(const std::vector<Series>& series) {
    Extent seen;
    for (const Series& s : series) {
        for (const ScatterPoint& p : s.points)
            seen.take(p.y);
        for (const LinePoint& p : s.line)
            seen.take(p.y);
    }
    const double reach = (seen.high - seen.low) / 2;
    Extent extent = seen;
    for (const Series& s : series)
        for (const LinePoint& p : s.line)
            if (p.interval) {
                extent.take(std::max(p.interval->first, seen.low - reach));
                extent.take(std::min(p.interval->second, seen.high + reach));
            }
    return extent;
}

struct Scales {
    Plot plot;
    Scaling x;
    Scaling y;
};

std::string band_svg(const Series& series, std::size_t index, const Scales& scales) {
    std::vector<std::array<double, 2>> corners;
    const auto held = [&](double y) {
        return std::clamp(scales.y(y), scales.plot.top, scales.plot.bottom);
    };
    for (const LinePoint& p : series.line)
        if (p.interval) corners.push_back({scales.x(p.x), held(p.interval->second)});
    for (auto p = series.line.rbegin(); p != series.line.rend(); ++p)
        if (p->interval) corners.push_back({scales.x(p->x), held(p->interval->first)});
    if (corners.size() < 4) return "";
    return polygon_tag(corners, joined("band ", series_class(index))) + "</polygon>\n";
}

std::string line_svg(const Series& series, std::size_t index, const Scales& scales) {
    if (series.line.size() < 2) return "";
    std::string svg = opening("polyline", joined("mean ", series_class(index))) + " points=\"";
    for (const LinePoint& p : series.line)
        svg += coordinate(scales.x(p.x)) + "," + coordinate(scales.y(p.y)) + " ";
    svg.back() = '"';
    return svg + "/>\n";
}

std::string points_svg(const Series& series, std::size_t index, const Scales& scales) {
    std::string svg;
    for (const ScatterPoint& p : series.points) {
        const std::string drawn = mark(scales.x(p.x), scales.y(p.y), index, p.note);
        svg += p.link.empty() ? drawn
                              : joined("<a href=\"", xml_escaped(p.link), "\">", drawn, "</a>\n");
    }
    return svg;
}

// Names to the right of the plot, each near where its series ends, pushed apart where they would
// meet.
std::string names_svg(const std::vector<Series>& series, const Scales& scales) {
    struct Name {
        std::size_t index;
        double y;
    };
    std::vector<Name> names;
    for (std::size_t i = 0; i < series.size(); ++i) {
        if (series[i].points.empty()) continue;
        const auto last = std::ranges::max_element(series[i].points, {}, &ScatterPoint::x);
        names.push_back({i, scales.y(series[i].line.empty() ? last->y : series[i].line.back().y)});
    }
    std::ranges::sort(names, {}, &Name::y);
    for (std::size_t i = 1; i < names.size(); ++i)
        names[i].y = std::max(names[i].y, names[i - 1].y + label_height);
    double limit = scales.plot.bottom;
    for (auto name = names.rbegin(); name != names.rend(); ++name) {
        name->y = std::min(name->y, limit);
        limit = name->y - label_height;
    }
    std::string svg;
    for (const Name& name : names) {
        const double x = scales.plot.right + 12;
        svg += mark(x, name.y, name.index, series[name.index].name);
        svg += text_element(
            fitted(series[name.index].name, widest_label - 24),
            {x + 10, name.y + 4.5, "start", joined("name ", series_class(name.index))});
    }
    return svg;
}

double names_width(const std::vector<Series>& series) {
    double width = 0;
    for (const Series& s : series)
        width = std::max(width, text_width(s.name) + 28);
    return std::min(width, widest_label);
}

}  // namespace

std::string scatter_svg(const ScatterChart& chart, Embedding embedding) {
    const std::vector<Series> series = drawable(chart.series);
    const Extent xs = extent_x(series);
    const Extent ys = extent_y(series);
    if (xs.empty())
        return sheet(chart.title, chart.description,
                     text_element("nothing to show yet",
                                  {sheet_width / 2, sheet_height / 2, "middle", "axis-name"}),
                     embedding);

    const TickedRange x_range = chart.x.kind == AxisKind::date ? date_ticks(xs.low, xs.high, 5)
                                                               : number_ticks(xs.low, xs.high, 5);
    const TickedRange y_range = number_ticks(ys.low, ys.high, 5);
    Scales scales;
    scales.plot.right = sheet_width - 8 - names_width(series);
    scales.x = {x_range.low, x_range.high, scales.plot.left + 6, scales.plot.right - 6};
    scales.y = {y_range.low, y_range.high, scales.plot.bottom, scales.plot.top};

    std::string svg = y_axis(scales.plot, chart.y, y_range.ticks, scales.y) +
                      x_axis(scales.plot, chart.x, x_range.ticks, scales.x);
    for (std::size_t i = 0; i < series.size(); ++i)
        svg += band_svg(series[i], i, scales);
    for (std::size_t i = 0; i < series.size(); ++i)
        svg += line_svg(series[i], i, scales) + points_svg(series[i], i, scales);
    return sheet(chart.title, chart.description, svg + names_svg(series, scales), embedding);
}

}  // namespace loafmark::charts
