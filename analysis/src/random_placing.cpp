#include <algorithm>
#include <cmath>
#include <numeric>

#include <opencv2/imgproc.hpp>

#include "quantile.h"
#include "tiles.h"

namespace loafmark::analysis {
namespace {

constexpr int shuffles = 200;
constexpr int tries = 8;      // to find a place clear of the cells that are there
constexpr double coarse = 1;  // working units a pixel of the ground that cells are placed on

// A small generator that gives the same numbers everywhere (xorshift64*, Vigna 2016).
class Random {
  public:
    explicit Random(unsigned seed) : state_(0x9E3779B97F4A7C15ull * (seed + 1ull)) {}
    [[nodiscard]] std::size_t below(std::size_t n) {
        state_ ^= state_ >> 12, state_ ^= state_ << 25, state_ ^= state_ >> 27;
        return static_cast<std::size_t>((state_ * 0x2545F4914F6CDD1Dull) >> 33) % n;
    }

  private:
    std::uint64_t state_;
};

// A cell as an upright ellipse with its box's proportions and its own area, on the coarse ground.
struct Stamp {
    std::vector<cv::Point> spots;  // from its middle; one for a cell of a pixel or less
    double area_each = 0;          // coarse pixels that each spot stands for
};

Stamp stamp_of(const Region& region, double shrink) {
    const double area = region.pixels * shrink * shrink;
    const double shape = std::sqrt(static_cast<double>(region.box.width) / region.box.height);
    const double radius = std::sqrt(area / CV_PI);
    const double rx = radius * shape, ry = radius / shape;
    Stamp stamp;
    for (int y = -static_cast<int>(ry); y <= static_cast<int>(ry); ++y)
        for (int x = -static_cast<int>(rx); x <= static_cast<int>(rx); ++x)
            if (x * x * ry * ry + y * y * rx * rx <= rx * rx * ry * ry)
                stamp.spots.emplace_back(x, y);
    if (stamp.spots.empty()) stamp.spots.emplace_back(0, 0);
    stamp.area_each = area / static_cast<double>(stamp.spots.size());
    return stamp;
}

// Where cells are set down again and again.
class Ground {
  public:
    Ground(const Tiling& tiling, double shrink) {
        cv::Mat numbers;
        tiling.tile_of.convertTo(numbers, CV_32F);
        cv::resize(numbers, numbers, {}, shrink, shrink, cv::INTER_NEAREST);
        numbers.convertTo(tile_of_, CV_32S);
        for (int y = 0; y < tile_of_.rows; ++y)
            for (int x = 0; x < tile_of_.cols; ++x)
                if (tile_of_.at<int>(y, x) >= 0) places_.emplace_back(x, y);
        taken_ = cv::Mat::zeros(tile_of_.size(), CV_32S);
    }

    [[nodiscard]] bool empty() const { return places_.empty(); }

    void clear(std::vector<Tile>& tiles) {
        ++round_;
        for (Tile& tile : tiles)
            tile.open = 0;
    }

    void place(const Stamp& stamp, Random& random, std::vector<Tile>& tiles, double pixels_each) {
        cv::Point middle;
        for (int t = 0; t < tries; ++t) {
            middle = places_[random.below(places_.size())];
            if (clear_at(stamp, middle)) break;
        }
        for (const cv::Point& spot : stamp.spots) {
            const cv::Point p = middle + spot;
            if (!cv::Rect({0, 0}, tile_of_.size()).contains(p)) continue;
            const int tile = tile_of_.at<int>(p);
            if (tile < 0) continue;
            taken_.at<int>(p) = round_;
            tiles[static_cast<std::size_t>(tile)].open += stamp.area_each * pixels_each;
        }
    }

  private:
    [[nodiscard]] bool clear_at(const Stamp& stamp, cv::Point middle) const {
        return std::all_of(stamp.spots.begin(), stamp.spots.end(), [&](const cv::Point& spot) {
            const cv::Point p = middle + spot;
            return cv::Rect({0, 0}, tile_of_.size()).contains(p) && tile_of_.at<int>(p) >= 0 &&
                   taken_.at<int>(p) != round_;
        });
    }

    cv::Mat tile_of_, taken_;
    std::vector<cv::Point> places_;
    int round_ = 0;
};

}  // namespace

std::optional<double> unevenness_expected(const CellMap& cells, const Tiling& tiling,
                                          unsigned seed) {
    const double shrink = cells.unit_per_pixel / coarse;
    Ground ground(tiling, shrink);
    std::vector<std::size_t> order;
    for (std::size_t label = 1; label < cells.counted.size(); ++label)
        if (cells.counted[label]) order.push_back(label - 1);
    if (order.empty() || ground.empty()) return std::nullopt;
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return cells.regions[a].pixels > cells.regions[b].pixels;
    });
    std::vector<Stamp> stamps;
    for (const std::size_t at : order)
        stamps.push_back(stamp_of(cells.regions[at], shrink));
    Random random(seed);
    std::vector<Tile> tiles = tiling.tiles;
    std::vector<double> seen;
    for (int k = 0; k < shuffles; ++k) {
        ground.clear(tiles);
        for (const Stamp& stamp : stamps)
            ground.place(stamp, random, tiles, 1 / (shrink * shrink));
        if (const auto one = unevenness(tiles)) seen.push_back(*one);
    }
    if (seen.empty()) return std::nullopt;
    return median_of(seen);
}

}  // namespace loafmark::analysis
