#include "region_measures.h"

#include <cmath>
#include <numbers>

namespace loafmark::analysis {

std::vector<Region> regions_of(const cv::Mat& labels) {
    std::vector<Region> regions;
    for (int y = 0; y < labels.rows; ++y) {
        const int* row = labels.ptr<int>(y);
        for (int x = 0; x < labels.cols; ++x) {
            if (row[x] == 0) continue;
            const auto at = static_cast<std::size_t>(row[x] - 1);
            if (at >= regions.size()) regions.resize(at + 1);
            regions[at].pixels += 1;
            regions[at].centroid += cv::Point2d(x, y);
        }
    }
    for (Region& region : regions)
        if (region.pixels > 0) region.centroid /= static_cast<double>(region.pixels);
    return regions;
}

double equivalent_diameter(double area) {
    return std::sqrt(4 * area / std::numbers::pi);
}

}  // namespace loafmark::analysis
