#include "median_line.h"

#include "quantile.h"

namespace loafmark::analysis {

MedianLine line_of_medians(const std::vector<cv::Point2d>& points) {
    std::vector<double> values;
    for (std::size_t i = 0; i < points.size(); ++i)
        for (std::size_t j = i + 1; j < points.size(); ++j)
            if (points[j].x > points[i].x)
                values.push_back((points[j].y - points[i].y) / (points[j].x - points[i].x));
    MedianLine line;
    if (points.empty()) return line;
    if (!values.empty()) line.slope = median_of(values);
    values.clear();
    for (const cv::Point2d& p : points)
        values.push_back(p.y - line.slope * p.x);
    line.level = median_of(values);
    return line;
}

}  // namespace loafmark::analysis
