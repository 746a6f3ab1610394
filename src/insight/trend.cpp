#include "insight/trend.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <span>
#include <stdexcept>

#include "insight/trend_points.h"
#include "insight/trend_words.h"
#include "statistics/curve.h"

namespace loafmark::insight {
namespace {

using statistics::Point;

// Steps along which a line is given for drawing.
constexpr int places_on_line = 33;

// Differences below this share of a value's size are rounding.
constexpr double rounding = 1e-9;

constexpr std::size_t most_points_for_bend = 2000;
constexpr int degrees_for_bend = 3;
constexpr std::string_view across_kinds =
    "a percent of protein is not the same protein in another grain or grade, so there is no slope "
    "over several; each stands alone";

// Points that share an intercept: those of a group, but for doughs that were split, each of which
// is a block of its own.
struct Blocks {
    std::vector<std::vector<Point>> points;
    std::vector<std::size_t> group;  // that a block belongs to, by its place
    bool any_split = false;
    bool within_doughs = false;  // only split doughs are left
    int bakes = 0;               // that the points come from
};

// Degrees of freedom that lines with one slope leave.
int degrees_left(const std::vector<std::vector<Point>>& blocks) {
    int degrees = -1;
    for (const std::vector<Point>& block : blocks)
        degrees += static_cast<int>(block.size()) - 1;
    return degrees;
}

Blocks blocks_of(std::span<const TrendGroup> groups, bool split_only) {
    Blocks blocks;
    blocks.within_doughs = split_only;
    for (std::size_t g = 0; g < groups.size(); ++g) {
        std::vector<Point> together;
        std::map<journal::BakeId, std::vector<Point>> split;
        for (const TrendPoint& p : groups[g].points) {
            if (split_only && !p.split_dough) continue;
            (p.split_dough ? split[p.bake] : together).push_back({p.x, p.y});
        }
        blocks.any_split = blocks.any_split || !split.empty();
        blocks.bakes += static_cast<int>(together.size() + split.size());
        if (!together.empty()) {
            blocks.points.push_back(std::move(together));
            blocks.group.push_back(g);
        }
        for (auto& [bake, points] : split) {
            blocks.points.push_back(std::move(points));
            blocks.group.push_back(g);
        }
    }
    return blocks;
}

Blocks blocks_of(std::span<const TrendGroup> groups) {
    Blocks within = blocks_of(groups, true);
    if (degrees_left(within.points) >= statistics::least_degrees_for_interval) return within;
    return blocks_of(groups, false);
}

std::vector<Point> points_of(const TrendGroup& group) {
    std::vector<Point> points;
    for (const TrendPoint& p : group.points)
        points.push_back({p.x, p.y});
    return points;
}

TrendFit fit_of(const statistics::ParallelLines& lines, const Blocks& blocks, TrendModel model) {
    TrendFit fit;
    fit.model = model;
    fit.slope = lines.slope;
    fit.residual_sd = lines.residual_sd;
    fit.degrees_of_freedom = lines.degrees_of_freedom;
    fit.intercepts = static_cast<int>(lines.group_sizes.size());
    fit.groups = static_cast<int>(std::set(blocks.group.begin(), blocks.group.end()).size());
    for (const std::size_t size : lines.group_sizes)
        fit.points += static_cast<int>(size);
    fit.bakes = blocks.bakes;
    fit.within_doughs = blocks.within_doughs;
    fit.why_no_interval = why_no_interval(fit);
    return fit;
}

// The line of group `g`. With doughs in blocks it goes through the middle of the group's points,
// and only its slope has an interval.
void give_line(TrendGroup& group, std::size_t g, const TrendFit& fit,
               const statistics::ParallelLines& lines, const Blocks& blocks) {
    group.fit = fit;
    const double low = group.points.front().x;
    const double high = group.points.back().x;
    if (!blocks.any_split) {
        const auto index =
            static_cast<std::size_t>(std::ranges::find(blocks.group, g) - blocks.group.begin());
        group.intercept = lines.intercepts[index];
        group.line = lines.trace(index, low, high, places_on_line);
        return;
    }
    double x = 0;
    double y = 0;
    for (const TrendPoint& point : group.points) {
        x += point.x / static_cast<double>(group.points.size());
        y += point.y / static_cast<double>(group.points.size());
    }
    const auto height = [&](double at) { return y + lines.slope.value * (at - x); };
    group.intercept = {height(0), std::nullopt, std::nullopt};
    for (const double end : {low, high})
        group.line.push_back({end, height(end), std::nullopt});
}

// Equal values have a slope of nought with no scatter at all, which says nothing of the bread.
bool values_differ(const std::vector<Point>& points) {
    const auto [low, high] = std::ranges::minmax(points, {}, &Point::y);
    return high.y - low.y > rounding * std::max(std::abs(low.y), std::abs(high.y));
}

std::optional<statistics::ParallelLines> lines_of(const Blocks& blocks) {
    if (std::ranges::none_of(blocks.points, values_differ)) return std::nullopt;
    return statistics::fit_parallel_lines(blocks.points);
}

void fit_common(Trend& trend, const Blocks& blocks) {
    const auto lines = lines_of(blocks);
    if (!lines) {
        trend.why_none = why_no_trend(trend);
        return;
    }
    trend.common = fit_of(*lines, blocks,
                          trend.groups.size() == 1 ? TrendModel::line : TrendModel::common_slope);
    for (std::size_t g = 0; g < trend.groups.size(); ++g)
        give_line(trend.groups[g], g, *trend.common, *lines, blocks);
}

bool every_group_has_enough(const std::vector<TrendGroup>& groups) {
    return groups.size() > 1 && std::ranges::all_of(groups, [](const TrendGroup& group) {
               return std::ssize(group.points) >= bakes_for_own_slope;
           });
}

// This group's points alone; whether they gave a line.
bool fit_alone(TrendGroup& group) {
    const Blocks blocks = blocks_of(std::span(&group, 1));
    const auto line = lines_of(blocks);
    if (!line) return false;
    group.line.clear();
    give_line(group, 0, fit_of(*line, blocks, TrendModel::own_slope), *line, blocks);
    return true;
}

// A percent of protein is not the same protein in another grain: every kind alone.
void fit_apart(Trend& trend) {
    for (TrendGroup& group : trend.groups)
        if (!fit_alone(group)) group.why_none = "its bakes do not differ in protein";
    trend.why_none = std::string(across_kinds);
}

// Bends are looked for where they could be seen, and where it does not take long.
void find_bend(Trend& trend, const Blocks& blocks) {
    double largest = 0;
    std::size_t points = 0;
    for (const std::vector<Point>& block : blocks.points) {
        points += block.size();
        for (const Point& point : block)
            largest = std::max(largest, std::abs(point.y));
    }
    if (points > most_points_for_bend) return;
    const auto curve = statistics::fit_curve(blocks.points);
    if (!curve || curve->fit.degrees_of_freedom < degrees_for_bend) return;
    const statistics::Coefficient& bend = curve->bend();
    if (!bend.interval || (bend.interval->low <= 0 && bend.interval->high >= 0)) return;
    const auto turn = curve->turning_point();
    // A curve through every point without any scatter is no bread's.
    if (!turn || !(*curve->fit.residual_sd > rounding * largest)) return;
    trend.bend = TrendBend{bend, *turn, curve->fit.degrees_of_freedom};
}

// Of doughs that were split, slopes between doughs would be mixed with those within.
void give_robust_slopes(Trend& trend) {
    for (TrendGroup& group : trend.groups) {
        const bool split = std::ranges::any_of(group.points, &TrendPoint::split_dough);
        if (group.fit && group.fit->model != TrendModel::common_slope && !split)
            group.fit->robust = statistics::robust_slope(points_of(group));
    }
    if (trend.groups.size() == 1 && trend.common) trend.common = trend.groups.front().fit;
}

void fit(Trend& trend) {
    if (trend.question.against == Against::protein && trend.groups.size() > 1) {
        fit_apart(trend);
    } else {
        const Blocks blocks = blocks_of(trend.groups);
        fit_common(trend, blocks);
        if (trend.common) find_bend(trend, blocks);
        // A group whose points say nothing alone keeps the common slope.
        if (trend.common && every_group_has_enough(trend.groups))
            for (TrendGroup& group : trend.groups)
                fit_alone(group);
        if (!trend.common)
            for (TrendGroup& group : trend.groups)
                group.why_none = trend.why_none;
    }
    give_robust_slopes(trend);
    trend.sentence = sentence_of(trend);
}

}  // namespace

bool wants_measured_only(const TrendQuestion& question) {
    using enum Against;
    return question.split == Split::flour &&
           info_of(question.measure).origin == MeasureOrigin::photo &&
           (question.against == hydration || question.against == date || question.against == share);
}

Trend measured_trend(const journal::MeasuredBakes& bakes, const TrendQuestion& question) {
    if (!wants_measured_only(question))
        throw std::invalid_argument("measured_trend: this question wants whole bakes");
    Trend trend;
    trend.question = question;
    collect_points(bakes, trend);
    fit(trend);
    return trend;
}

Trend find_trend(const std::vector<journal::BakeEntry>& bakes, const TrendQuestion& question) {
    Trend trend;
    trend.question = question;
    collect_points(bakes, trend);
    fit(trend);
    return trend;
}

}  // namespace loafmark::insight
