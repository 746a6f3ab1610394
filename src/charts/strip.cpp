#include <algorithm>
#include <cmath>
#include <limits>

#include "charts/chart.h"
#include "charts/frame.h"
#include "charts/marks.h"
#include "charts/svg_text.h"
#include "charts/ticks.h"

namespace loafmark::charts {
namespace {

constexpr double head = 22;        // for the words of the parts
constexpr double row_height = 41;  // name above, marks below
constexpr double name_below = 14;  // from a row's top to its name's foot
constexpr double marks_below = 30;
constexpr double foot = 44;
constexpr double mark_width = 9;
constexpr double step_aside = 5;  // of a mark that would hide the one before

struct Ends {
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
};

bool has_place(double value, const StripChart& chart) {
    return std::isfinite(value) && (chart.x.kind != AxisKind::ratio || value > 0);
}

Ends ends_of(const StripChart& chart) {
    Ends ends;
    const auto take = [&](double value) {
        ends.low = std::min(ends.low, value);
        ends.high = std::max(ends.high, value);
    };
    for (const StripRow& row : chart.rows)
        for (const StripPoint& point : row.points) {
            take(point.x);
            if (!point.interval) continue;
            if (has_place(point.interval->first, chart)) take(point.interval->first);
            take(point.interval->second);
        }
    return ends;
}

StripChart drawable(StripChart chart) {
    for (StripRow& row : chart.rows)
        std::erase_if(row.points, [&](const StripPoint& p) {
            return !has_place(p.x, chart) ||
                   (p.interval &&
                    !(std::isfinite(p.interval->first) && has_place(p.interval->second, chart)));
        });
    std::erase_if(chart.borders, [&](double border) { return !has_place(border, chart); });
    return chart;
}

std::string row_svg(const StripRow& row, std::size_t index, double top, const Plot& plot,
                    const Scaling& x, bool with_hairs) {
    const double level = top + marks_below;
    std::string svg =
        text_element(fitted(row.name, plot.right - plot.left),
                     {plot.left, top + name_below, "start", joined("name ", series_class(index))}) +
        line_element(plot.left, level, plot.right, level, "hair");
    std::vector<StripPoint> points = row.points;
    std::ranges::stable_sort(points, {}, &StripPoint::x);
    std::string hairs;
    std::string marks;
    double last = -std::numeric_limits<double>::infinity();
    int aside = 0;
    for (const StripPoint& point : points) {
        const double at = x(point.x);
        aside = at - last < mark_width ? (aside + 1) % 3 : 0;
        const double y = level + (aside == 0 ? 0 : aside == 1 ? -step_aside : step_aside);
        last = at;
        if (point.interval && with_hairs) {
            const auto& [low, high] = *point.interval;
            // What reaches to nought has no end on a logarithmic axis.
            const double from = x.logarithmic && !(low > 0) ? plot.left : x(low);
            hairs += joined("M", coordinate(from), " ", coordinate(y), "H", coordinate(x(high)));
        }
        marks += linked(point.link, mark(at, y, index, point.note));
    }
    if (!hairs.empty())
        svg +=
            opening("path", joined("whisker ", series_class(index))) + " d=\"" + hairs + "\"/>\n";
    return svg + marks;
}

// Each word over the middle of its part, moved aside where it would meet the one before; left out
// where that brings it beyond the plot.
std::string parts_svg(const StripChart& chart, const Plot& plot, const Scaling& x) {
    constexpr double between = 8;
    std::string svg;
    double left = plot.left;
    double taken = plot.left - between;
    for (std::size_t i = 0; i < chart.words.size(); ++i) {
        const bool last = i >= chart.borders.size();
        const double right =
            last ? plot.right : std::clamp(x(chart.borders[i]), plot.left, plot.right);
        const double width = text_width(chart.words[i]);
        const double start = std::max((left + right - width) / 2, taken + between);
        if (start + width <= plot.right + between) {
            svg += text_element(chart.words[i], {start, 14, "start", "axis-name"});
            taken = start + width;
        }
        if (last) break;
        svg += line_element(right, 19, right, plot.bottom, "border");
        left = right;
    }
    return svg;
}

}  // namespace

std::string strip_svg(const StripChart& given, Embedding embedding) {
    const StripChart chart = drawable(given);
    const auto shown =
        std::ranges::count_if(chart.rows, [](const StripRow& row) { return !row.points.empty(); });
    if (shown == 0) return empty_sheet(chart.title, chart.description, embedding);
    const Ends ends = ends_of(chart);
    const bool ratio = chart.x.kind == AxisKind::ratio;
    const TickedRange range =
        ratio ? ratio_ticks(ends.low, ends.high) : number_ticks(ends.low, ends.high, 5);
    Plot plot;
    plot.left = 14;
    plot.right = sheet_width - 14;
    plot.top = head;
    plot.bottom = head + row_height * static_cast<double>(shown) + 4;
    const Scaling x{range.low, range.high, plot.left, plot.right, ratio};
    std::size_t points = 0;
    for (const StripRow& row : chart.rows)
        points += row.points.size();
    std::string svg = parts_svg(chart, plot, x) + x_axis(plot, chart.x, range.ticks, x);
    double top = head;
    for (std::size_t i = 0; i < chart.rows.size(); ++i) {
        if (chart.rows[i].points.empty()) continue;
        svg +=
            row_svg(chart.rows[i], chart.look.value_or(i), top, plot, x, points <= most_with_hairs);
        top += row_height;
    }
    return sheet(chart.title, chart.description, svg, embedding, plot.bottom + foot);
}

}  // namespace loafmark::charts
