#include "part_cells.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <numeric>

namespace loafmark::analysis {
namespace {

// Basins in flooding order, joined as a forest (union-find with path halving).
class Basins {
  public:
    [[nodiscard]] int add(float peak) {
        parent_.push_back(static_cast<int>(parent_.size()));
        peak_.push_back(peak);
        return parent_.back();
    }
    [[nodiscard]] int root(int basin) {
        while (parent_[static_cast<std::size_t>(basin)] != basin) {
            int& up = parent_[static_cast<std::size_t>(basin)];
            up = parent_[static_cast<std::size_t>(up)];
            basin = up;
        }
        return basin;
    }
    // Joins two roots met at height `saddle` if the rule calls them one cell. The higher peak, met
    // first, stays.
    void meet(int a, int b, float saddle, const PartingRule& rule) {
        const float lower =
            std::min(peak_[static_cast<std::size_t>(a)], peak_[static_cast<std::size_t>(b)]);
        if (saddle < rule.saddle_share * lower && lower - saddle >= rule.least_rise) return;
        if (peak_[static_cast<std::size_t>(a)] < peak_[static_cast<std::size_t>(b)])
            std::swap(a, b);
        parent_[static_cast<std::size_t>(b)] = a;
    }
    [[nodiscard]] std::size_t size() const { return parent_.size(); }

  private:
    std::vector<int> parent_;
    std::vector<float> peak_;
};

// Highest first, in reading order where equal. Heights are sorted by their 1024th parts of the
// greatest (a counting sort): finer differences decide nothing about where cells part.
std::vector<int> open_pixels_by_height(const cv::Mat& open, const cv::Mat& height) {
    constexpr std::size_t steps = 1024;
    double most = 0;
    cv::minMaxLoc(height, nullptr, &most);
    const float scale = most > 0 ? static_cast<float>(steps - 1) / static_cast<float>(most) : 0;
    const auto step_of = [&](float h) {
        return steps - 1 - static_cast<std::size_t>(std::max(0.0f, h * scale));
    };
    std::vector<std::size_t> start(steps + 1, 0);
    for (int y = 0; y < open.rows; ++y)
        for (int x = 0; x < open.cols; ++x)
            if (open.at<uchar>(y, x)) ++start[step_of(height.at<float>(y, x)) + 1];
    std::partial_sum(start.begin(), start.end(), start.begin());
    std::vector<int> pixels(start.back());
    for (int y = 0; y < open.rows; ++y)
        for (int x = 0; x < open.cols; ++x)
            if (open.at<uchar>(y, x))
                pixels[start[step_of(height.at<float>(y, x))]++] = y * open.cols + x;
    return pixels;
}

}  // namespace

cv::Mat part_cells(const cv::Mat& open, const cv::Mat& height, const PartingRule& rule) {
    constexpr int none = -1;
    cv::Mat basin_of(open.size(), CV_32S, cv::Scalar(none));
    Basins basins;
    const int w = open.cols, h = open.rows;
    for (const int pixel : open_pixels_by_height(open, height)) {
        const int x = pixel % w, y = pixel / w;
        const float here = height.at<float>(y, x);
        int& mine = basin_of.at<int>(y, x);
        float highest = 0;
        for (const auto& [nx, ny] :
             std::array<std::array<int, 2>, 4>{{{x - 1, y}, {x + 1, y}, {x, y - 1}, {x, y + 1}}}) {
            if (nx < 0 || ny < 0 || nx >= w || ny >= h) continue;
            const int other = basin_of.at<int>(ny, nx);
            if (other == none) continue;
            const int root = basins.root(other);
            if (mine != none && basins.root(mine) != root)
                basins.meet(basins.root(mine), root, here, rule);
            // To the highest neighbour: the first would draw walls aside, to one side of the face.
            const float there = height.at<float>(ny, nx);
            if (mine == none || there > highest) {
                mine = root;
                highest = there;
            }
        }
        if (mine == none) mine = basins.add(here);
    }
    // Numbers in reading order, so that a label map looks the same however the flood ran.
    std::vector<int> number(basins.size(), 0);
    int next = 0;
    cv::Mat labels = cv::Mat::zeros(open.size(), CV_32S);
    for (int y = 0; y < h; ++y)
        for (int x = 0; x < w; ++x) {
            if (basin_of.at<int>(y, x) == none) continue;
            const auto root = static_cast<std::size_t>(basins.root(basin_of.at<int>(y, x)));
            if (number[root] == 0) number[root] = ++next;
            labels.at<int>(y, x) = number[root];
        }
    return labels;
}

}  // namespace loafmark::analysis
