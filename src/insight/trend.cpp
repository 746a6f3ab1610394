#include "insight/trend.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "insight/bake_values.h"
#include "insight/trend_words.h"

namespace loafmark::insight {
namespace {

// Steps along which a line is given for drawing.
constexpr int places_on_line = 33;

// Differences below this share of a value's size are rounding.
constexpr double rounding = 1e-9;

std::optional<double> x_of(const journal::BakeEntry& bake, Against against) {
    switch (against) {
        case Against::hydration:
            if (!bake.hydration) return std::nullopt;
            return percent(*bake.hydration);
        case Against::date:
            return days_between(Date{1970, 1, 1}, bake.bake.date);
        case Against::share:
            return percent(main_flour(bake)->share);
    }
    return std::nullopt;
}

// Fills the groups and counts what was left out.
void collect(const std::vector<journal::BakeEntry>& bakes, Trend& trend) {
    std::map<journal::FlourId, TrendGroup> by_flour;
    for (const journal::BakeEntry& bake : bakes) {
        const journal::FlourShare* flour = main_flour(bake);
        if (trend.question.flour && (!flour || flour->flour != *trend.question.flour)) continue;
        if (bake.bake.set_aside) {
            ++trend.set_aside;
            continue;
        }
        const TrendQuestion& question = trend.question;
        const auto mean = bake_mean(bake, question.measure, question.ends);
        if (question.ends == EndSlices::left_out)
            trend.end_slices += end_slices(bake, question.measure);
        const std::optional<double> x = flour ? x_of(bake, trend.question.against) : std::nullopt;
        if (!mean || !x) {
            ++trend.without_value;
            continue;
        }
        TrendGroup& group = by_flour[flour->flour];
        group.flour = flour->flour;
        group.name = flour->name;
        group.points.push_back(
            {bake.bake.id, bake.bake.date, bake.bake.title, *x, mean->value, mean->slices});
    }
    for (auto& [id, group] : by_flour)
        trend.groups.push_back(std::move(group));
}

void put_in_order(std::vector<TrendGroup>& groups) {
    for (TrendGroup& group : groups)
        std::ranges::sort(group.points, {},
                          [](const TrendPoint& p) { return std::tuple(p.x, p.date, p.bake); });
    std::ranges::sort(groups, {}, [](const TrendGroup& group) {
        return std::tuple(-std::ssize(group.points), group.name, group.flour);
    });
}

std::vector<statistics::Point> points_of(const TrendGroup& group) {
    std::vector<statistics::Point> points;
    for (const TrendPoint& p : group.points)
        points.push_back({p.x, p.y});
    return points;
}

TrendFit fit_of(const statistics::ParallelLines& lines, TrendModel model) {
    TrendFit fit;
    fit.model = model;
    fit.slope = lines.slope;
    fit.residual_sd = lines.residual_sd;
    fit.degrees_of_freedom = lines.degrees_of_freedom;
    fit.flours = static_cast<int>(lines.group_sizes.size());
    for (const std::size_t size : lines.group_sizes)
        fit.bakes += static_cast<int>(size);
    fit.why_no_interval = why_no_interval(fit);
    return fit;
}

void give_line(TrendGroup& group, const TrendFit& fit, const statistics::ParallelLines& lines,
               std::size_t index) {
    group.fit = fit;
    group.intercept = lines.intercepts[index];
    group.line = lines.trace(index, group.points.front().x, group.points.back().x, places_on_line);
}

// Equal values have a slope of nought with no scatter at all, which says nothing of the bread.
bool values_differ(const TrendGroup& group) {
    const auto [low, high] = std::ranges::minmax(group.points, {}, &TrendPoint::y);
    return high.y - low.y > rounding * std::max(std::abs(low.y), std::abs(high.y));
}

void fit_common(Trend& trend) {
    std::vector<std::vector<statistics::Point>> groups;
    for (const TrendGroup& group : trend.groups)
        groups.push_back(points_of(group));
    const auto lines = std::ranges::any_of(trend.groups, values_differ)
                           ? statistics::fit_parallel_lines(groups)
                           : std::nullopt;
    if (!lines) {
        trend.why_none = why_no_trend(trend);
        return;
    }
    trend.common =
        fit_of(*lines, trend.groups.size() == 1 ? TrendModel::line : TrendModel::common_slope);
    for (std::size_t i = 0; i < trend.groups.size(); ++i)
        give_line(trend.groups[i], *trend.common, *lines, i);
}

bool every_flour_has_enough(const std::vector<TrendGroup>& groups) {
    return groups.size() > 1 && std::ranges::all_of(groups, [](const TrendGroup& group) {
               return std::ssize(group.points) >= bakes_for_own_slope;
           });
}

void fit_own(Trend& trend) {
    for (TrendGroup& group : trend.groups) {
        // A flour whose bakes say nothing alone keeps the common slope.
        if (!values_differ(group)) continue;
        if (const auto line = statistics::fit_line(points_of(group)))
            give_line(group, fit_of(*line, TrendModel::own_slope), *line, 0);
    }
}

}  // namespace

std::string_view name_of(Against against) {
    switch (against) {
        case Against::hydration:
            return "hydration";
        case Against::date:
            return "date";
        case Against::share:
            return "share";
    }
    return "";
}

std::optional<Against> against_of_name(std::string_view name) {
    for (const Against against : {Against::hydration, Against::date, Against::share})
        if (name_of(against) == name) return against;
    return std::nullopt;
}

std::string_view plain_name_of(Against against) {
    switch (against) {
        case Against::hydration:
            return "water";
        case Against::date:
            return "date";
        case Against::share:
            return "share of the main flour";
    }
    return "";
}

std::string_view unit_of(Against against) {
    return against == Against::date ? "days since 1970-01-01" : "%";
}

std::string_view name_of(TrendModel model) {
    switch (model) {
        case TrendModel::line:
            return "line";
        case TrendModel::common_slope:
            return "common slope";
        case TrendModel::own_slope:
            return "own slope";
    }
    return "";
}

Trend find_trend(const std::vector<journal::BakeEntry>& bakes, const TrendQuestion& question) {
    Trend trend;
    trend.question = question;
    collect(bakes, trend);
    put_in_order(trend.groups);
    fit_common(trend);
    if (trend.common && every_flour_has_enough(trend.groups)) fit_own(trend);
    if (!trend.common)
        for (TrendGroup& group : trend.groups)
            group.why_none = trend.why_none;
    trend.sentence = sentence_of(trend);
    return trend;
}

}  // namespace loafmark::insight
