#include "edge_density.h"

#include <cmath>
#include <map>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {

double edge_corrected_density(const CellMap& cells, const cv::Mat& crumb, const cv::Mat& visible) {
    constexpr double coarse = 0.5;  // units a pixel; box sizes are rounded to this
    const double shrink = cells.unit_per_pixel / coarse;
    cv::Mat window;
    cv::resize(crumb & visible, window, {}, shrink, shrink, cv::INTER_AREA);
    cv::Mat rim;
    cv::erode(visible, rim, cv::Mat(), {-1, -1}, 2, cv::BORDER_CONSTANT, 0);
    std::map<std::pair<int, int>, double> eroded_area;
    double density = 0;
    for (std::size_t label = 1; label < cells.counted.size(); ++label) {
        if (!cells.counted[label]) continue;
        const cv::Rect& box = cells.regions[label - 1].box;
        const cv::Mat here = cells.labels(box) == static_cast<int>(label);
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

}  // namespace loafmark::analysis
