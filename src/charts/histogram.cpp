#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "charts/chart.h"
#include "charts/frame.h"
#include "charts/svg_text.h"
#include "charts/ticks.h"

namespace loafmark::charts {
namespace {

constexpr int classes_a_decade = 10;
constexpr double gap = 1;  // between bars, in SVG units

double edge(int index) {
    return std::pow(10, static_cast<double>(index) / classes_a_decade);
}

// The class that holds `value`; edges belong to the class above, a hair of rounding allowed.
int class_of(double value) {
    return static_cast<int>(std::floor(std::log10(value) * classes_a_decade + 1e-9));
}

bool counts(double value) {
    return std::isfinite(value) && value > 0;
}

std::string bars(const Histogram& histogram, const Scaling& x, const Scaling& y) {
    std::string svg;
    for (const HistogramClass& c : histogram.classes) {
        if (!(c.share > 0)) continue;
        const double left = x(std::log10(c.low)) + gap / 2;
        const double right = x(std::log10(c.high)) - gap / 2;
        const double top = y(100 * c.share);
        svg += "<rect class=\"bar\"" + attribute("x", left) + attribute("y", top) +
               attribute("width", right - left) + attribute("height", y(0) - top) + "><title>" +
               xml_escaped(short_number(std::round(c.low * 100) / 100) + " to " +
                           short_number(std::round(c.high * 100) / 100) + " " + histogram.x.unit +
                           ": " + short_number(std::round(c.share * 1000) / 10) + " %, " +
                           std::to_string(c.count) + " counted") +
               "</title></rect>\n";
    }
    return svg;
}

std::string median_mark(const Histogram& histogram, const Plot& plot, const Scaling& x) {
    if (!histogram.median || !counts(*histogram.median)) return "";
    const double at = x(std::log10(*histogram.median));
    const bool to_the_left = at > (plot.left + plot.right) / 2;
    return line_element(at, plot.top - 4, at, plot.bottom, "mark") +
           text_element(histogram.median_name, {to_the_left ? at - 5 : at + 5, plot.top + 6,
                                                to_the_left ? "end" : "start", "label"});
}

}  // namespace

std::vector<HistogramClass> log_classes(const std::vector<double>& values,
                                        const std::vector<double>& weights) {
    if (values.size() != weights.size())
        throw std::invalid_argument("log_classes: one weight a value is wanted");
    int first = 0;
    int last = -1;
    double total = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!counts(values[i])) continue;
        const int at = class_of(values[i]);
        first = last < first ? at : std::min(first, at);
        last = std::max(last < first ? at : last, at);
        total += weights[i];
    }
    std::vector<HistogramClass> classes;
    for (int i = first; i <= last; ++i)
        classes.push_back({edge(i), edge(i + 1), 0, 0});
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!counts(values[i])) continue;
        HistogramClass& c = classes[static_cast<std::size_t>(class_of(values[i]) - first)];
        if (total > 0) c.share += weights[i] / total;
        ++c.count;
    }
    return classes;
}

std::string histogram_svg(const Histogram& histogram, Embedding embedding) {
    if (histogram.classes.empty())
        return empty_sheet(histogram.title, histogram.description, embedding);
    const auto highest = std::ranges::max_element(histogram.classes, {}, &HistogramClass::share);
    const TickedRange y_range = number_ticks(0, std::max(100 * highest->share, 1.0), 4);
    const Plot plot;
    const double low = histogram.classes.front().low;
    const double high = histogram.classes.back().high;
    const Scaling x{std::log10(low), std::log10(high), plot.left + 6, plot.right - 6};
    const Scaling y{0, y_range.high, plot.bottom, plot.top};
    std::vector<Tick> ticks = log_ticks(low, high);
    for (Tick& tick : ticks)
        tick.value = std::log10(tick.value);
    return sheet(histogram.title, histogram.description,
                 y_axis(plot, histogram.y, y_range.ticks, y) + bars(histogram, x, y) +
                     x_axis(plot, histogram.x, ticks, x) + median_mark(histogram, plot, x),
                 embedding);
}

}  // namespace loafmark::charts
