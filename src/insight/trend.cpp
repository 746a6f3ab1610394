#include "insight/trend.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "insight/bake_values.h"
#include "insight/trend_words.h"
#include "statistics/curve.h"

namespace loafmark::insight {
namespace {

// Steps along which a line is given for drawing.
constexpr int places_on_line = 33;

// Differences below this share of a value's size are rounding.
constexpr double rounding = 1e-9;

constexpr std::size_t most_points_for_bend = 2000;
constexpr int degrees_for_bend = 3;
constexpr std::string_view across_kinds =
    "a percent of protein is not the same protein in another grain or grade, so there is no slope "
    "over several; each stands alone";

// Of all flour, by share; nothing unless every flour states it, all of one kind and basis.
std::optional<double> protein_of(const journal::BakeEntry& bake, const FlourKinds& kinds) {
    double protein = 0;
    double shares = 0;
    const FlourKind* kind = nullptr;
    for (const journal::FlourShare& flour : bake.flours) {
        const auto found = kinds.find(flour.flour);
        if (!flour.protein || found == kinds.end()) return std::nullopt;
        if (kind && *kind != found->second) return std::nullopt;
        kind = &found->second;
        protein += flour.share.count() * percent(*flour.protein);
        shares += flour.share.count();
    }
    return shares > 0 ? std::optional(protein / shares) : std::nullopt;
}

std::optional<double> degrees(const std::optional<Celsius>& temperature) {
    return temperature ? std::optional(temperature->degrees()) : std::nullopt;
}

std::optional<double> x_of(const journal::BakeEntry& bake, const TrendQuestion& question) {
    switch (question.against) {
        case Against::hydration:
            if (!bake.hydration) return std::nullopt;
            return percent(*bake.hydration);
        case Against::date:
            return days_between(Date{1970, 1, 1}, bake.bake.date);
        case Against::share:
            return percent(main_flour(bake)->share);
        case Against::protein:
            return protein_of(bake, question.kinds);
        case Against::dough_temperature:
            return degrees(bake.bake.dough_temperature);
        case Against::room_temperature:
            return degrees(bake.bake.room_temperature);
    }
    return std::nullopt;
}

// What a bake is grouped by: its main flour, over protein the kind of its flour.
std::pair<std::int64_t, std::string> group_of(const journal::FlourShare& flour,
                                              const TrendQuestion& question) {
    if (question.against == Against::protein) return {0, question.kinds.at(flour.flour).name};
    return {flour.flour.value, flour.name};
}

// Fills the groups and counts what was left out.
void collect(const std::vector<journal::BakeEntry>& bakes, Trend& trend) {
    std::map<std::pair<std::int64_t, std::string>, TrendGroup> by_flour;
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
        const std::optional<double> x = flour ? x_of(bake, question) : std::nullopt;
        trend.poor_readings += poor_readings(bake);
        if (!mean || !x) {
            ++trend.without_value;
            continue;
        }
        const auto key = group_of(*flour, question);
        TrendGroup& group = by_flour[key];
        group.flour = flour->flour;
        group.name = key.second;
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

// A percent of protein is not the same protein in another grain: every kind alone.
void fit_apart(Trend& trend) {
    for (TrendGroup& group : trend.groups) {
        const auto line =
            values_differ(group) ? statistics::fit_line(points_of(group)) : std::nullopt;
        if (line)
            give_line(group, fit_of(*line, TrendModel::own_slope), *line, 0);
        else
            group.why_none = "its bakes do not differ in protein";
    }
    trend.why_none = std::string(across_kinds);
}

// Bends are looked for where they could be seen, and where it does not take long.
void find_bend(Trend& trend) {
    std::vector<std::vector<statistics::Point>> groups;
    std::size_t points = 0;
    for (const TrendGroup& group : trend.groups) {
        groups.push_back(points_of(group));
        points += group.points.size();
    }
    if (points > most_points_for_bend) return;
    const auto curve = statistics::fit_curve(groups);
    if (!curve || curve->fit.degrees_of_freedom < degrees_for_bend) return;
    const statistics::Coefficient& bend = curve->bend();
    if (!bend.interval || (bend.interval->low <= 0 && bend.interval->high >= 0)) return;
    const auto turn = curve->turning_point();
    // A curve through every point without any scatter is no bread's.
    double largest = 0;
    for (const auto& group : groups)
        for (const statistics::Point& point : group)
            largest = std::max(largest, std::abs(point.y));
    if (!turn || !(*curve->fit.residual_sd > rounding * largest)) return;
    trend.bend = TrendBend{bend, *turn, curve->fit.degrees_of_freedom};
}

void give_robust_slopes(Trend& trend) {
    for (TrendGroup& group : trend.groups)
        if (group.fit && group.fit->model != TrendModel::common_slope)
            group.fit->robust = statistics::robust_slope(points_of(group));
    if (trend.groups.size() == 1 && trend.common) trend.common = trend.groups.front().fit;
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
        case Against::protein:
            return "protein";
        case Against::dough_temperature:
            return "dough-temperature";
        case Against::room_temperature:
            return "room-temperature";
    }
    return "";
}

std::optional<Against> against_of_name(std::string_view name) {
    using enum Against;
    for (const Against against :
         {hydration, date, share, protein, dough_temperature, room_temperature})
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
        case Against::protein:
            return "protein";
        case Against::dough_temperature:
            return "dough temperature";
        case Against::room_temperature:
            return "room temperature";
    }
    return "";
}

std::string_view unit_of(Against against) {
    switch (against) {
        case Against::date:
            return "days since 1970-01-01";
        case Against::dough_temperature:
        case Against::room_temperature:
            return "\u00b0C";
        default:
            return "%";
    }
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
    if (question.against == Against::protein && trend.groups.size() > 1) {
        fit_apart(trend);
        give_robust_slopes(trend);
        trend.sentence = sentence_of(trend);
        return trend;
    }
    fit_common(trend);
    if (trend.common) find_bend(trend);
    if (trend.common && every_flour_has_enough(trend.groups)) fit_own(trend);
    if (!trend.common)
        for (TrendGroup& group : trend.groups)
            group.why_none = trend.why_none;
    give_robust_slopes(trend);
    trend.sentence = sentence_of(trend);
    return trend;
}

FlourKinds kinds_of(const std::vector<journal::Flour>& flours) {
    FlourKinds kinds;
    for (const journal::Flour& flour : flours) {
        std::string name = flour.grade.value_or("");
        if (!name.empty()) name += " ";
        kinds[flour.id] = {name + flour.grain.value_or("grain not noted"), flour.protein_basis};
    }
    return kinds;
}

}  // namespace loafmark::insight
