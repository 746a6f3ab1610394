#include "crumb_values.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include <opencv2/imgproc.hpp>

#include "part_cells.h"
#include "quantile.h"
#include "region_measures.h"
#include "size_distribution.h"

namespace loafmark::analysis {
namespace {

struct Count {
    std::vector<Cell> cells;
    cv::Mat labels;
    double openness = 0;
    double cell_count = 0;
    double per_cm2 = 0;
    std::vector<double> diameters;  // of counted cells
};

std::vector<cv::Rect> boxes_of(const cv::Mat& labels, std::size_t count) {
    std::vector<cv::Rect> boxes(count);
    std::vector<std::array<int, 4>> extent(count, {labels.cols, labels.rows, -1, -1});
    for (int y = 0; y < labels.rows; ++y)
        for (int x = 0; x < labels.cols; ++x) {
            const int label = labels.at<int>(y, x);
            if (label == 0) continue;
            auto& e = extent[static_cast<std::size_t>(label - 1)];
            e = {std::min(e[0], x), std::min(e[1], y), std::max(e[2], x), std::max(e[3], y)};
        }
    for (std::size_t i = 0; i < count; ++i)
        boxes[i] = {extent[i][0], extent[i][1], extent[i][2] - extent[i][0] + 1,
                    extent[i][3] - extent[i][1] + 1};
    return boxes;
}

// Cells per square unit where the frame cuts the slice: each wholly visible cell stands for the
// places at which it would have been wholly visible (Miles 1974, Lantuejoul 1980).
double edge_corrected_density(const Count& count, const CrumbInput& input) {
    constexpr double coarse = 0.5;  // units a pixel; box sizes are rounded to this
    const double shrink = input.unit_per_pixel / coarse;
    cv::Mat window;
    cv::resize(input.crumb.mask & input.visible, window, {}, shrink, shrink, cv::INTER_AREA);
    cv::Mat rim;
    cv::erode(input.visible, rim, cv::Mat(), {-1, -1}, 2, cv::BORDER_CONSTANT, 0);
    const std::vector<cv::Rect> boxes = boxes_of(count.labels, count.cells.size());
    std::map<std::pair<int, int>, double> eroded_area;
    double density = 0;
    for (const Cell& cell : count.cells) {
        if (!cell.counted) continue;
        const cv::Rect box = boxes[static_cast<std::size_t>(cell.id - 1)];
        const cv::Mat here = count.labels(box) == cell.id;
        if (cv::countNonZero(here & (rim(box) == 0)) > 0) continue;  // touches the photo's edge
        const std::pair key(static_cast<int>(std::ceil(box.width * shrink)),
                            static_cast<int>(std::ceil(box.height * shrink)));
        if (!eroded_area.contains(key)) {
            cv::Mat eroded;
            cv::erode(window, eroded,
                      cv::getStructuringElement(cv::MORPH_RECT, {key.first, key.second}), {-1, -1},
                      1, cv::BORDER_CONSTANT, 0);
            eroded_area[key] = cv::countNonZero(eroded) * coarse * coarse;
        }
        if (eroded_area[key] > 0) density += 1 / eroded_area[key];
    }
    return density;
}

Count count_cells(const CrumbInput& input) {
    Count count;
    const double u = input.unit_per_pixel;
    const cv::Mat open = input.openings.probability > input.openings.level;
    count.labels = part_cells(open, input.openings.parting, input.openings.rule);
    const std::vector<Region> regions = regions_of(count.labels);
    std::vector<bool> resolved(regions.size() + 1, false);
    for (std::size_t i = 0; i < regions.size(); ++i) {
        const Region& r = regions[i];
        Cell cell;
        cell.id = static_cast<int>(i + 1);
        cell.area = r.pixels * u * u;
        cell.equivalent_diameter = equivalent_diameter(cell.area);
        cell.centre = {r.centroid.x * u, r.centroid.y * u};
        resolved[i + 1] = cell.equivalent_diameter >= input.limit;
        const auto x = static_cast<int>(std::lround(r.centroid.x));
        const auto y = static_cast<int>(std::lround(r.centroid.y));
        cell.counted = resolved[i + 1] && input.crumb.mask.at<uchar>(y, x) != 0;
        if (cell.counted) count.diameters.push_back(cell.equivalent_diameter);
        count.cells.push_back(cell);
    }
    double open_pixels = 0;
    for (int y = 0; y < count.labels.rows; ++y)
        for (int x = 0; x < count.labels.cols; ++x)
            if (input.crumb.mask.at<uchar>(y, x) &&
                resolved[static_cast<std::size_t>(count.labels.at<int>(y, x))])
                open_pixels += 1;
    const double crumb_area = std::max(input.crumb.area, 1e-9);
    count.openness = open_pixels * u * u / crumb_area;
    count.cell_count = static_cast<double>(count.diameters.size());
    const double density =
        input.cut_by_frame ? edge_corrected_density(count, input) : count.cell_count / crumb_area;
    count.per_cm2 = 100 * density;
    return count;
}

// A value with the segmenter's range of true over measured and the scale's error. `power`: of
// length in the measure's unit.
Estimate with_range(double value, double least, double most, double length_error, int power) {
    const double scale = z95 * length_error * std::abs(power);
    return {value,
            value * (1 - std::hypot(1 - least, scale)),
            value * (1 + std::hypot(most - 1, scale)),
            {},
            {}};
}

constexpr std::array<Measure, 4> by_number = {
    Measure::cell_diameter_number_d10, Measure::cell_diameter_number_d50,
    Measure::cell_diameter_number_d90, Measure::cell_diameter_number_mean};
constexpr std::array<Measure, 4> by_area = {
    Measure::cell_diameter_area_d10, Measure::cell_diameter_area_d50,
    Measure::cell_diameter_area_d90, Measure::cell_diameter_area_mean};

std::array<double, 4> parts(const SizeSummary& s) {
    return {s.d10, s.d50, s.d90, s.mean};
}

void add_sizes(const Count& count, const CrumbInput& input, MeasureValues& values) {
    if (count.diameters.empty()) return;
    const std::array<double, 4> number = parts(summary_by_number(count.diameters));
    const std::array<double, 4> area = parts(summary_by_area(count.diameters));
    const auto diameter = [&](double value) {
        return with_range(value, input.known_error.diameter_least, input.known_error.diameter_most,
                          input.length_error, 1);
    };
    for (std::size_t k = 0; k < 4; ++k) {
        values[by_number[k]] = diameter(number[k]);
        values[by_area[k]] = diameter(area[k]);
    }
    values[Measure::coarseness] = values[Measure::cell_diameter_area_d50];
}

}  // namespace

CrumbResult crumb_values(const CrumbInput& input) {
    const Count count = count_cells(input);
    const KnownError& known = input.known_error;
    CrumbResult result;
    result.values[Measure::openness] =
        Estimate{count.openness,
                 std::max(0.0, count.openness - known.openness_below),
                 std::min(1.0, count.openness + known.openness_above),
                 {},
                 {}};
    result.values[Measure::cell_count] =
        with_range(count.cell_count, known.density_least, known.density_most, 0, 0);
    result.values[Measure::cells_per_cm2] =
        with_range(count.per_cm2, known.density_least, known.density_most, input.length_error, 2);
    // The crust's inner edge is placed to about half a millimetre.
    const double rim = 0.5 * std::sqrt(4 * 3.14159 * input.crumb.area);
    const double spread = z95 * std::hypot(2 * input.length_error * input.crumb.area, 0.5 * rim);
    result.values[Measure::crumb_area] =
        Estimate{input.crumb.area, input.crumb.area - spread, input.crumb.area + spread, {}, {}};
    add_sizes(count, input, result.values);
    result.cells = count.cells;
    result.labels = count.labels;
    return result;
}

}  // namespace loafmark::analysis
