#include "insight/trend_words.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>
#include <vector>

#include "insight/plain_numbers.h"

namespace loafmark::insight {
namespace {

constexpr int days_in_sentence = 30;
constexpr int minutes_in_sentence = 10;

// As many as show two figures of `scale`.
int decimals_for(double scale) {
    if (!(scale > 0)) return 3;
    return std::clamp(1 - static_cast<int>(std::floor(std::log10(scale))), 0, 8);
}

std::string bakes(int n) {
    return counted(n, "bake", "bakes");
}

std::string name(const TrendQuestion& question) {
    return std::string(info_of(question.measure).name);
}

std::string x_name(Against against) {
    return std::string(plain_name_of(against));
}

std::string step_name(Against against) {
    switch (against) {
        case Against::hydration:
            return "a point of water";
        case Against::date:
            return "in " + std::to_string(days_in_sentence) + " days";
        case Against::share:
            return "a point of the main flour's share";
        case Against::protein:
            return "a point of protein";
        case Against::dough_temperature:
            return "a degree of dough temperature";
        case Against::room_temperature:
            return "a degree of room temperature";
        case Against::proof:
            return "in " + std::to_string(minutes_in_sentence) + " minutes of final proof";
        case Against::proof_at_25c:
            return "in " + std::to_string(minutes_in_sentence) +
                   " minutes of final proof as at 25 \u00b0C";
    }
    return "";
}

double step(Against against) {
    if (is_of_loaves(against)) return minutes_in_sentence;
    return against == Against::date ? days_in_sentence : 1;
}

std::string x_text(const TrendQuestion& question, const TrendPoint& point) {
    if (question.against == Against::date) return to_text(point.date);
    return fixed_text(point.x, 1) + " " + std::string(unit_of(question.against));
}

std::string x_wanted(Against against) {
    switch (against) {
        case Against::hydration:
            return "a known hydration";
        case Against::protein:
            return "flours of one grain, grade and basis whose protein is noted (loafmark flour "
                   "add "
                   "NAME --protein 11.5%)";
        case Against::dough_temperature:
            return "a dough temperature";
        case Against::room_temperature:
            return "a room temperature";
        case Against::proof:
            return "a final proof whose time is noted (loafmark bake edit BAKE --proof 75min)";
        case Against::proof_at_25c:
            return "a final proof whose time and temperature are noted (loafmark bake edit BAKE "
                   "--proof 75min --proof-temperature 26C)";
        default:
            return "a flour";
    }
}

std::string why_empty(const Trend& trend) {
    const MeasureInfo& info = info_of(trend.question.measure);
    if (info.state == MeasureState::not_yet)
        return std::string(info.name) + " is defined but not measured yet";
    if (trend.outside_temperature > 0)
        return "all loaves whose proof's time and temperature are known were proved colder than 15 "
               "or warmer than 32 \u00b0C, where minutes cannot be brought to 25 \u00b0C" +
               (trend.without_value == 0
                    ? ""
                    : "; " + bakes(trend.without_value) +
                          (trend.without_value == 1 ? " lacks " : " lack ") + name(trend.question) +
                          " or " + x_wanted(trend.question.against));
    if (trend.without_value > 0)
        return "no bake has both " + name(trend.question) + " and " +
               x_wanted(trend.question.against);
    if (trend.set_aside > 0)
        return trend.set_aside == 1 ? "the only bake is set aside"
                                    : "all " + bakes(trend.set_aside) + " are set aside";
    return "there are no bakes yet";
}

std::string with_unit(const std::string& number, std::string_view unit) {
    return unit.empty() ? number : number + " " + std::string(unit);
}

// "0.013", "95 % interval 0.006 to 0.020".
struct SlopeText {
    std::string value;
    std::string interval;
};

SlopeText slope_text(const TrendFit& fit, const TrendQuestion& question, bool unsigned_value) {
    const double k = step(question.against);
    const double value = k * (unsigned_value ? std::abs(fit.slope.value) : fit.slope.value);
    const auto& interval = fit.slope.interval;
    const double half = interval ? k * (interval->high - interval->low) / 2 : 0;
    const int decimals = decimals_for(half > 0 ? half : std::abs(value) / 10);
    const std::string_view unit = info_of(question.measure).unit;
    SlopeText text{with_unit(fixed_text(value, decimals), unit), ""};
    if (interval) {
        // Said of a fall, the interval is that of the fall.
        const bool fall = unsigned_value && fit.slope.value < 0;
        const double low = k * (fall ? -interval->high : interval->low);
        const double high = k * (fall ? -interval->low : interval->high);
        text.interval =
            "95 % interval " + fixed_text(low, decimals) + " to " + fixed_text(high, decimals);
    }
    return text;
}

bool holds_zero(const TrendFit& fit) {
    return fit.slope.interval && fit.slope.interval->low <= 0 && fit.slope.interval->high >= 0;
}

std::string group_word(const TrendQuestion& question) {
    return question.split == Split::bag ? "bag" : "flour";
}

// "from 6 bakes of one flour"; "from 8 loaves of 4 doughs of 2 flours, one common slope within
// doughs"
std::string from_what(const TrendFit& fit, const TrendQuestion& question) {
    std::string text = "from ";
    if (fit.points != fit.bakes)
        text +=
            counted(fit.points, "proof", "proofs") + " of " + counted(fit.bakes, "dough", "doughs");
    else
        text += bakes(fit.bakes);
    const std::string what = group_word(question);
    text += fit.groups == 1
                ? " of one " + what
                : " of " + std::to_string(fit.groups) + " " + what + "s, one common slope";
    return text + (fit.within_doughs ? ", each dough held against itself" : "");
}

std::string finding(const TrendFit& fit, const TrendQuestion& question) {
    const std::string what = name(question);
    if (!fit.slope.interval) {
        const SlopeText text = slope_text(fit, question, false);
        return what + " changes by " + text.value + " " + step_name(question.against) + ", " +
               from_what(fit, question) + "; no interval: " + fit.why_no_interval;
    }
    if (holds_zero(fit)) {
        const SlopeText text = slope_text(fit, question, false);
        return what + " changes by " + text.value + " " + step_name(question.against) + ", " +
               text.interval + ", " + from_what(fit, question) +
               ": the interval holds zero, so these bakes do not show whether it rises or falls";
    }
    const SlopeText text = slope_text(fit, question, true);
    return what + (fit.slope.value > 0 ? " rises by " : " falls by ") + text.value + " " +
           step_name(question.against) + ", " + text.interval + ", " + from_what(fit, question);
}

std::string place_text(double x, Against against) {
    if (against == Against::date) return to_text(days_after(Date{1970, 1, 1}, static_cast<int>(x)));
    return fixed_text(x, 1) + " " + std::string(unit_of(against));
}

// "; the line bends over, highest at 72.1 % (95 % interval 71.3 to 73.0 %)"
std::string bend_text(const Trend& trend) {
    if (!trend.bend) return "";
    const Against against = trend.question.against;
    const statistics::Ratio& turn = trend.bend->turning_point;
    std::string text = std::string("; it bends, ") +
                       (trend.bend->bend.value < 0 ? "highest" : "lowest") + " at " +
                       place_text(turn.value, against);
    if (!turn.interval) return text + ", a place that these bakes do not determine";
    return text + " (95 % interval " + place_text(turn.interval->low, against) + " to " +
           place_text(turn.interval->high, against) + ")";
}

std::string own_slopes(const Trend& trend) {
    std::string text;
    for (const TrendGroup& group : trend.groups) {
        if (!group.fit || group.fit->model != TrendModel::own_slope) continue;
        const SlopeText slope = slope_text(*group.fit, trend.question, false);
        text += (text.empty() ? "; taken alone, " : ", ") + group.label() + " " + slope.value;
        if (!slope.interval.empty()) text += " (" + slope.interval + ")";
    }
    return text;
}

}  // namespace

std::string why_no_trend(const Trend& trend) {
    if (trend.groups.empty()) return why_empty(trend);
    std::vector<TrendPoint> points;
    for (const TrendGroup& group : trend.groups)
        points.insert(points.end(), group.points.begin(), group.points.end());
    const TrendQuestion& question = trend.question;
    const int n = static_cast<int>(points.size());
    if (n == 1)
        return "there is one bake only; a trend wants at least two that differ in " +
               x_name(question.against);
    std::set<std::string> places;
    for (const TrendPoint& point : points)
        places.insert(x_text(question, point));
    if (places.size() == 1)
        return "all " + bakes(n) + " have the same " + x_name(question.against) + ", " +
               *places.begin();
    const bool some_flour_varies = std::ranges::any_of(trend.groups, [&](const TrendGroup& group) {
        return x_text(question, group.points.front()) != x_text(question, group.points.back());
    });
    if (!some_flour_varies)
        return "no " + group_word(question) + " was baked twice with different " +
               x_name(question.against) + ", so " + group_word(question) + " and " +
               x_name(question.against) + " cannot be told apart";
    return name(question) + " is the same in all bakes" +
           (trend.groups.size() > 1 ? " of each " + group_word(question) : "");
}

std::string why_no_interval(const TrendFit& fit) {
    if (fit.slope.interval) return "";
    const int spent = fit.intercepts + 1;
    return (fit.points == fit.bakes ? bakes(fit.bakes) : counted(fit.points, "point", "points")) +
           " less " + std::to_string(spent) + " fitted numbers (" +
           counted(fit.intercepts, "intercept", "intercepts") + " and a slope) leave " +
           counted(fit.degrees_of_freedom, "degree", "degrees") + " of freedom, and at least " +
           std::to_string(statistics::least_degrees_for_interval) + " are wanted";
}

std::string loaves_text(const TrendPoint& point) {
    std::string text;
    for (const int loaf : point.loaves)
        text += (text.empty() ? "" : ", ") + std::to_string(loaf);
    return text;
}

std::string sentence_of(const Trend& trend) {
    if (!trend.common)
        return "no trend of " + name(trend.question) + ": " + trend.why_none + own_slopes(trend);
    return finding(*trend.common, trend.question) + own_slopes(trend) + bend_text(trend);
}

}  // namespace loafmark::insight
