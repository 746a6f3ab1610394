#include "cell_map.h"

#include <cmath>

namespace loafmark::analysis {
namespace {

void place_in(CellMap& cells, const cv::Mat& crumb) {
    cells.counted.assign(cells.resolved.size(), 0);
    std::vector<Matter> matter_of(cells.resolved.size(), Matter::solid);
    for (std::size_t label = 1; label < cells.resolved.size(); ++label) {
        if (!cells.resolved[label]) continue;  // a cell without pixels is none
        const cv::Point2d& centre = cells.regions[label - 1].centroid;
        const auto x = static_cast<int>(std::lround(centre.x));
        const auto y = static_cast<int>(std::lround(centre.y));
        cells.counted[label] = crumb.at<uchar>(y, x) != 0;
        matter_of[label] =
            cells.diameter(static_cast<int>(label)) >= cells.cavity ? Matter::cavity : Matter::cell;
    }
    cells.matter.create(crumb.size(), CV_8U);
    for (int y = 0; y < crumb.rows; ++y) {
        const int* labels = cells.labels.ptr<int>(y);
        const uchar* inside = crumb.ptr<uchar>(y);
        uchar* matter = cells.matter.ptr<uchar>(y);
        for (int x = 0; x < crumb.cols; ++x)
            matter[x] = static_cast<uchar>(
                inside[x] ? matter_of[static_cast<std::size_t>(labels[x])] : Matter::outside);
    }
}

}  // namespace

double CellMap::area(int label) const {
    return regions[static_cast<std::size_t>(label - 1)].pixels * unit_per_pixel * unit_per_pixel;
}

double CellMap::diameter(int label) const {
    return equivalent_diameter(area(label));
}

std::vector<double> CellMap::counted_diameters() const {
    std::vector<double> diameters;
    for (std::size_t label = 1; label < counted.size(); ++label)
        if (counted[label]) diameters.push_back(diameter(static_cast<int>(label)));
    return diameters;
}

namespace {

void find_resolved(CellMap& cells, double limit) {
    cells.regions = regions_of(cells.labels);
    cells.resolved.assign(cells.regions.size() + 1, 0);
    for (std::size_t label = 1; label < cells.resolved.size(); ++label)
        cells.resolved[label] = cells.diameter(static_cast<int>(label)) >= limit;
}

}  // namespace

CellMap cell_map(const Openings& openings, double level, const cv::Mat& crumb, double limit,
                 double unit_per_pixel) {
    CellMap cells;
    cells.unit_per_pixel = unit_per_pixel;
    cells.labels = part_cells(openings.probability > level, openings.parting, openings.rule);
    find_resolved(cells, limit);
    place_in(cells, crumb);
    return cells;
}

CellMap redrawn_at(const CellMap& cells, const cv::Mat& probability, double level,
                   const cv::Mat& crumb, double limit) {
    CellMap other = cells;
    other.matter = cv::Mat();
    other.labels = cells.labels.clone();
    cv::Mat& labels = other.labels;
    const auto at_level = static_cast<float>(level);
    // Once down and to the right, once up and to the left.
    for (int y = 0; y < labels.rows; ++y) {
        const float* p = probability.ptr<float>(y);
        int* label = labels.ptr<int>(y);
        const int* above = y > 0 ? labels.ptr<int>(y - 1) : nullptr;
        for (int x = 0; x < labels.cols; ++x) {
            if (p[x] <= at_level)
                label[x] = 0;
            else if (label[x] == 0)
                label[x] = x > 0 && label[x - 1] ? label[x - 1] : above ? above[x] : 0;
        }
    }
    for (int y = labels.rows - 1; y >= 0; --y) {
        const float* p = probability.ptr<float>(y);
        int* label = labels.ptr<int>(y);
        const int* below = y + 1 < labels.rows ? labels.ptr<int>(y + 1) : nullptr;
        for (int x = labels.cols - 1; x >= 0; --x)
            if (p[x] > at_level && label[x] == 0)
                label[x] = x + 1 < labels.cols && label[x + 1] ? label[x + 1]
                           : below                             ? below[x]
                                                               : 0;
    }
    find_resolved(other, limit);
    place_in(other, crumb);
    return other;
}

CellMap within(const CellMap& cells, const cv::Mat& crumb, double cavity) {
    CellMap other = cells;
    other.matter = cv::Mat();
    other.cavity = cavity;
    place_in(other, crumb);
    return other;
}

}  // namespace loafmark::analysis
