#include "statistics/robust_slope.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>
#include <vector>

#include "statistics/quantiles.h"

namespace loafmark::statistics {
namespace {

constexpr double tail = 0.025;
constexpr double normal_quantile = 1.959963984540054;  // of 0.975
constexpr std::size_t most_for_exact = 50;

std::vector<double> pair_slopes(std::span<const Point> points) {
    std::vector<double> slopes;
    slopes.reserve(points.size() * (points.size() - 1) / 2);
    for (std::size_t i = 0; i < points.size(); ++i)
        for (std::size_t j = i + 1; j < points.size(); ++j)
            if (points[i].x != points[j].x)
                slopes.push_back((points[j].y - points[i].y) / (points[j].x - points[i].x));
    std::ranges::sort(slopes);
    return slopes;
}

std::map<double, int> ties(std::span<const Point> points, double Point::*coordinate) {
    std::map<double, int> counts;
    for (const Point& point : points)
        ++counts[point.*coordinate];
    return counts;
}

// The greatest number of pairs in disorder that chance undercuts with at most the tail's
// probability; -1 where there is none. Counts of orders with k inversions by the usual recurrence.
int exact_rank(std::size_t n) {
    std::vector<double> share{1};  // of orders of i things with k pairs in disorder
    for (std::size_t i = 2; i <= n; ++i) {
        std::vector<double> next(share.size() + i - 1, 0.0);
        for (std::size_t k = 0; k < share.size(); ++k)
            for (std::size_t moved = 0; moved < i; ++moved)
                next[k + moved] += share[k] / static_cast<double>(i);
        share = std::move(next);
    }
    double sum = 0;
    int rank = -1;
    for (std::size_t k = 0; k < share.size() && (sum += share[k]) <= tail; ++k)
        rank = static_cast<int>(k);
    return rank;
}

double tied_part(const std::map<double, int>& counts) {
    double sum = 0;
    for (const auto& [value, count] : counts)
        sum += count * (count - 1.0) * (2.0 * count + 5);
    return sum;
}

// The 0-based rank of the lower end among the sorted slopes; nothing where there is none.
std::optional<std::size_t> lower_rank(std::span<const Point> points, std::size_t slopes) {
    const auto n = static_cast<double>(points.size());
    const auto in_x = ties(points, &Point::x);
    const auto in_y = ties(points, &Point::y);
    const bool tied = in_x.size() < points.size() || in_y.size() < points.size();
    if (!tied && points.size() <= most_for_exact) {
        const int rank = exact_rank(points.size());
        return rank < 0 ? std::nullopt : std::optional(static_cast<std::size_t>(rank));
    }
    if (points.size() < 5) return std::nullopt;
    const double sigma =
        std::sqrt((n * (n - 1) * (2 * n + 5) - tied_part(in_x) - tied_part(in_y)) / 18);
    const double rank = (static_cast<double>(slopes) - normal_quantile * sigma) / 2;
    if (rank < 0) return std::nullopt;
    return static_cast<std::size_t>(std::floor(rank));
}

}  // namespace

std::optional<RobustSlope> robust_slope(std::span<const Point> points) {
    for (const Point& point : points)
        if (!std::isfinite(point.x) || !std::isfinite(point.y))
            throw std::invalid_argument("robust_slope: a point is not finite");
    if (points.size() < 2 || points.size() > most_points_for_robust_slope) return std::nullopt;
    const std::vector<double> slopes = pair_slopes(points);
    if (slopes.empty()) return std::nullopt;
    RobustSlope result{*median(slopes), std::nullopt, static_cast<int>(points.size())};
    const auto low = lower_rank(points, slopes.size());
    if (low && 2 * *low < slopes.size())
        result.interval = Interval{slopes[*low], slopes[slopes.size() - 1 - *low]};
    return result;
}

}  // namespace loafmark::statistics
