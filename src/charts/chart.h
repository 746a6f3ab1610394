// Charts as SVG text, all in one look. Numbers and words in, text out; nothing here knows of bread.
// Every text is escaped. A stand-alone chart is a whole file; one for a page takes the page's
// colours and needs a document that sets none but, if it likes, the CSS variables of chart_style().
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace loafmark::charts {

enum class Embedding {
    standalone,  // an .svg file, with its styles and an XML declaration
    in_page,     // an <svg> element within HTML; the page holds chart_style() once
};

enum class AxisKind {
    number,
    date,   // values are days since 1970-01-01
    ratio,  // positive numbers on a logarithmic axis; of x only
};

struct Axis {
    std::string name;  // "water"
    std::string unit;  // "%"; empty for a plain number
    AxisKind kind = AxisKind::number;
};

using Interval = std::pair<double, double>;  // low, high

struct ScatterPoint {
    double x = 0;
    double y = 0;
    std::string note;       // shown when pointed at
    std::string link = {};  // a place of the page that the mark leads to, "#bake-7"; in_page only
    std::string id = {};    // of the mark that leads there, so that the page can lead back to it
    std::optional<Interval> x_interval = std::nullopt;  // drawn as hairs through the mark
    std::optional<Interval> y_interval = std::nullopt;
};

// A place on a line, with the interval around it where there is one.
struct LinePoint {
    double x = 0;
    double y = 0;
    std::optional<Interval> interval;
};

// Points of one kind, marked by a shape and a colour of their own, and the line through them.
struct Series {
    std::string name;  // empty where there is but one and no need of it
    std::vector<ScatterPoint> points;
    std::vector<LinePoint> line;  // left to right; empty: no line
};

struct ScatterChart {
    std::string title;        // also read out by screen readers
    std::string description;  // what is to be seen, in a sentence
    Axis x;
    Axis y;
    std::vector<Series> series;
};

// Points with their intervals, lines and bands. Values that are not finite are left out. No points
// gives a chart that says so.
[[nodiscard]] std::string scatter_svg(const ScatterChart& chart, Embedding embedding);

// One value of a strip.
struct StripPoint {
    double x = 0;
    std::string note;
    std::string link = {};
    std::optional<Interval> interval = std::nullopt;
};

struct StripRow {
    std::string name;
    std::vector<StripPoint> points;
};

// Rows of values along one axis, a mark of its own for each row.
struct StripChart {
    std::string title;
    std::string description;
    Axis x;
    std::vector<StripRow> rows;  // one without points takes no room, but keeps its look
    // Where the axis is parted, rising, and a word for each part: one more than borders.
    std::vector<double> borders;
    std::vector<std::string> words;
    // Colour and shape of all rows, counted from 0; none: each row has its own.
    std::optional<std::size_t> look = std::nullopt;
};

// As tall as its rows ask for. On a ratio axis a hair that reaches to nought goes to the axis' end;
// what is not finite is left out. No points gives a chart that says so.
[[nodiscard]] std::string strip_svg(const StripChart& chart, Embedding embedding);

// One class of a histogram: [low, high) on a logarithmic axis.
struct HistogramClass {
    double low = 0;
    double high = 0;
    double share = 0;  // of all weight, 0 to 1
    int count = 0;
};

struct Histogram {
    std::string title;
    std::string description;
    Axis x;                               // positive numbers
    Axis y;                               // of the shares, which are drawn in percent
    std::vector<HistogramClass> classes;  // joining, small to large
    std::optional<double> median;         // marked on the x axis
    std::string median_name;
};

[[nodiscard]] std::string histogram_svg(const Histogram& histogram, Embedding embedding);

// Classes of ratio 10^0.1 (ten a decade, edges at powers of it) from the one that holds the
// smallest value to the one that holds the largest; `share` counts each value with its weight.
// Values that are not positive and finite are left out. Throws std::invalid_argument when lengths
// differ.
[[nodiscard]] std::vector<HistogramClass> log_classes(const std::vector<double>& values,
                                                      const std::vector<double>& weights);

// The styles that in_page charts want, for a <style> element. Light and dark.
[[nodiscard]] std::string chart_style();

}  // namespace loafmark::charts
