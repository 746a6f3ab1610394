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

constexpr double line_height = 15;   // of a name's lines
constexpr double between_names = 3;  // more than that
constexpr double widest_label = 112;
constexpr double beside_label = 24;  // the mark before it

struct Extent {
    double low = std::numeric_limits<double>::infinity();
    double high = -std::numeric_limits<double>::infinity();
    void take(double value) {
        low = std::min(low, value);
        high = std::max(high, value);
    }
    // As far as `reach` beyond what was seen.
    void take(const Interval& interval, const Extent& seen, double reach) {
        take(std::max(interval.first, seen.low - reach));
        take(std::min(interval.second, seen.high + reach));
    }
    [[nodiscard]] bool empty() const { return low > high; }
};

bool finite(const std::optional<Interval>& interval) {
    return !interval || (std::isfinite(interval->first) && std::isfinite(interval->second));
}

bool finite(const ScatterPoint& p) {
    return std::isfinite(p.x) && std::isfinite(p.y) && finite(p.x_interval) && finite(p.y_interval);
}

bool finite(const LinePoint& p) {
    return std::isfinite(p.x) && std::isfinite(p.y) && finite(p.interval);
}

// Without what cannot be drawn.
std::vector<Series> drawable(std::vector<Series> series, AxisKind x) {
    const auto fits = [&](const auto& p) { return finite(p) && (x != AxisKind::ratio || p.x > 0); };
    for (Series& s : series) {
        std::erase_if(s.points, [&](const ScatterPoint& p) { return !fits(p); });
        std::erase_if(s.line, [&](const LinePoint& p) { return !fits(p); });
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
    const double reach = (extent.high - extent.low) / 4;
    const Extent seen = extent;
    for (const Series& s : series)
        for (const ScatterPoint& p : s.points)
            if (p.x_interval) extent.take(*p.x_interval, seen, reach);
    if (seen.low > 0) extent.low = std::max(extent.low, seen.low / 2);
    return extent;
}

// Of points and lines; bands and intervals count for at most as far again as these reach, since the
// band of a few points would press them flat. What is never below zero is not drawn there.
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
    for (const Series& s : series) {
        for (const LinePoint& p : s.line)
            if (p.interval) extent.take(*p.interval, seen, reach);
        for (const ScatterPoint& p : s.points)
            if (p.y_interval) extent.take(*p.y_interval, seen, reach);
    }
    if (seen.low >= 0) extent.low = std::max(extent.low, 0.0);
    return extent;
}

struct Scales {
    Plot plot;
    Scaling x;
    Scaling y;
    // Within the plot.
    [[nodiscard]] double at_x(double value) const {
        if (x.logarithmic && !(value > 0)) return plot.left;
        return std::clamp(x(value), plot.left, plot.right);
    }
    [[nodiscard]] double at_y(double value) const {
        return std::clamp(y(value), plot.top, plot.bottom);
    }
};

std::string band_svg(const Series& series, std::size_t index, const Scales& scales) {
    std::vector<std::array<double, 2>> corners;
    for (const LinePoint& p : series.line)
        if (p.interval) corners.push_back({scales.x(p.x), scales.at_y(p.interval->second)});
    for (auto p = series.line.rbegin(); p != series.line.rend(); ++p)
        if (p->interval) corners.push_back({scales.x(p->x), scales.at_y(p->interval->first)});
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

// All intervals of a series as one path.
std::string hairs_svg(const Series& series, std::size_t index, const Scales& scales) {
    std::string path;
    const auto add = [&](double x1, double y1, char to, double end) {
        path +=
            joined("M", coordinate(x1), " ", coordinate(y1), std::string(1, to), coordinate(end));
    };
    for (const ScatterPoint& p : series.points) {
        if (p.x_interval)
            add(scales.at_x(p.x_interval->first), scales.y(p.y), 'H',
                scales.at_x(p.x_interval->second));
        if (p.y_interval)
            add(scales.x(p.x), scales.at_y(p.y_interval->first), 'V',
                scales.at_y(p.y_interval->second));
    }
    if (path.empty()) return "";
    return opening("path", joined("whisker ", series_class(index))) + " d=\"" + path + "\"/>\n";
}

std::string points_svg(const Series& series, std::size_t index, const Scales& scales) {
    std::string svg;
    for (const ScatterPoint& p : series.points)
        svg += linked(p.link, mark(scales.x(p.x), scales.y(p.y), index, p.note), p.id);
    return svg;
}

// Names to the right of the plot, each near where its series ends, pushed apart where they would
// meet.
std::string names_svg(const std::vector<Series>& series, const Scales& scales) {
    struct Name {
        std::size_t index;
        double y;  // of its first line
        std::vector<std::string> lines;
        [[nodiscard]] double height() const {
            return line_height * static_cast<double>(lines.size()) +
                   (lines.size() > 1 ? between_names : 0);
        }
    };
    std::vector<Name> names;
    for (std::size_t i = 0; i < series.size(); ++i) {
        if (series[i].name.empty() || (series[i].points.empty() && series[i].line.empty()))
            continue;
        const double end = series[i].line.empty()
                               ? std::ranges::max_element(series[i].points, {}, &ScatterPoint::x)->y
                               : series[i].line.back().y;
        names.push_back({i, scales.y(end), wrapped(series[i].name, widest_label - beside_label)});
    }
    std::ranges::stable_sort(names, {}, &Name::y);
    for (std::size_t i = 1; i < names.size(); ++i)
        names[i].y = std::max(names[i].y, names[i - 1].y + names[i - 1].height());
    double limit = scales.plot.bottom + line_height;
    for (auto name = names.rbegin(); name != names.rend(); ++name) {
        name->y = std::min(name->y, limit - name->height());
        limit = name->y;
    }
    std::string svg;
    for (const Name& name : names) {
        const double x = scales.plot.right + 12;
        svg += mark(x, name.y, name.index, series[name.index].name);
        const std::string classes = joined("name ", series_class(name.index));
        double y = name.y + 4.5;
        for (const std::string& line : name.lines) {
            svg += text_element(line, {x + 10, y, "start", classes});
            y += line_height;
        }
    }
    return svg;
}

TickedRange x_ticks(AxisKind kind, const Extent& extent) {
    switch (kind) {
        case AxisKind::date:
            return date_ticks(extent.low, extent.high, 5);
        case AxisKind::ratio:
            return ratio_ticks(extent.low, extent.high);
        case AxisKind::number:
            break;
    }
    return number_ticks(extent.low, extent.high, 5);
}

double names_width(const std::vector<Series>& series) {
    double width = 0;
    for (const Series& s : series)
        for (const std::string& line : s.name.empty()
                                           ? std::vector<std::string>{}
                                           : wrapped(s.name, widest_label - beside_label))
            width = std::max(width, text_width(line) + beside_label);
    return std::min(width, widest_label);
}

}  // namespace

std::string scatter_svg(const ScatterChart& chart, Embedding embedding) {
    const std::vector<Series> series = drawable(chart.series, chart.x.kind);
    const Extent xs = extent_x(series);
    const Extent ys = extent_y(series);
    if (xs.empty()) return empty_sheet(chart.title, chart.description, embedding);

    const TickedRange x_range = x_ticks(chart.x.kind, xs);
    const TickedRange y_range = number_ticks(ys.low, ys.high, 5);
    Scales scales;
    scales.plot.right = sheet_width - 4 - names_width(series);
    scales.x = {x_range.low, x_range.high, scales.plot.left + 6, scales.plot.right - 6,
                chart.x.kind == AxisKind::ratio};
    scales.y = {y_range.low, y_range.high, scales.plot.bottom, scales.plot.top};

    std::string svg = y_axis(scales.plot, chart.y, y_range.ticks, scales.y) +
                      x_axis(scales.plot, chart.x, x_range.ticks, scales.x);
    for (std::size_t i = 0; i < series.size(); ++i)
        svg += band_svg(series[i], i, scales);
    std::size_t points = 0;
    for (const Series& s : series)
        points += s.points.size();
    if (points <= most_with_hairs)
        for (std::size_t i = 0; i < series.size(); ++i)
            svg += hairs_svg(series[i], i, scales);
    for (std::size_t i = 0; i < series.size(); ++i)
        svg += line_svg(series[i], i, scales) + points_svg(series[i], i, scales);
    return sheet(chart.title, chart.description, svg + names_svg(series, scales), embedding);
}

}  // namespace loafmark::charts
