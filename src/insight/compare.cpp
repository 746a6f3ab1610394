#include "insight/compare.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <stdexcept>
#include <utility>

#include "insight/compare_words.h"
#include "insight/recipe.h"
#include "insight/steadiness.h"
#include "statistics/ratio.h"

namespace loafmark::insight {
namespace {

using statistics::GroupMeans;

// One bake's value within a comparison.
struct Value {
    int contender = 0;
    Date day;
    double value = 0;
};

std::vector<Contender> contenders_of(const std::vector<journal::BakeEntry>& chosen) {
    std::vector<Contender> list;
    std::map<Recipe, std::size_t> known;
    std::set<journal::BakeId> taken;
    for (const journal::BakeEntry& bake : chosen) {
        if (bake.bake.set_aside || !taken.insert(bake.bake.id).second) continue;
        const auto [place, fresh] = known.try_emplace(recipe_of(bake), list.size());
        if (fresh) list.push_back({recipe_words(bake), {}});
        list[place->second].bakes.push_back(bake);
    }
    std::map<std::string, int> names;
    for (const Contender& contender : list)
        ++names[contender.name];
    for (Contender& contender : list)
        if (names[contender.name] > 1) contender.name = contender.bakes.front().bake.title;
    return list;
}

void check(const std::vector<Contender>& contenders) {
    if (contenders.size() >= 2) return;
    throw std::invalid_argument(
        contenders.empty() ? "no bake is left to compare, all are set aside"
                           : "there is one recipe only, " + contenders.front().name +
                                 ": a comparison wants a control and a bake that differs from it");
}

std::vector<Value> values_of(const std::vector<Contender>& contenders, Measure measure,
                             EndSlices ends) {
    std::vector<Value> values;
    for (std::size_t i = 0; i < contenders.size(); ++i)
        for (const journal::BakeEntry& bake : contenders[i].bakes)
            if (const auto mean = bake_mean(bake, measure, ends))
                values.push_back({static_cast<int>(i), bake.bake.date, mean->value});
    return values;
}

void give_means(MeasureComparison& comparison, const std::vector<Value>& values,
                std::size_t contenders) {
    comparison.means.resize(contenders);
    comparison.bakes.resize(contenders, 0);
    for (const Value& value : values) {
        const auto i = static_cast<std::size_t>(value.contender);
        comparison.means[i] = comparison.means[i].value_or(0) + value.value;
        ++comparison.bakes[i];
    }
    for (std::size_t i = 0; i < contenders; ++i)
        if (comparison.means[i]) *comparison.means[i] /= comparison.bakes[i];
}

// The contenders that have the measure, numbered anew; the control is 0.
struct Present {
    std::vector<std::size_t> contenders;
    std::vector<Value> values;
};

std::optional<Present> present(const MeasureComparison& comparison,
                               const std::vector<Value>& values) {
    if (!comparison.means.front()) return std::nullopt;
    Present result;
    std::map<int, int> number;
    for (std::size_t i = 0; i < comparison.means.size(); ++i)
        if (comparison.means[i]) {
            number[static_cast<int>(i)] = static_cast<int>(result.contenders.size());
            result.contenders.push_back(i);
        }
    if (result.contenders.size() < 2) return std::nullopt;
    for (Value value : values) {
        value.contender = number[value.contender];
        result.values.push_back(value);
    }
    return result;
}

bool one_day(const std::vector<Value>& values) {
    return std::ranges::all_of(values, [&](const Value& v) { return v.day == values.front().day; });
}

std::optional<GroupMeans> by_own_repeats(const Present& present) {
    std::vector<statistics::BlockedValue> blocked;
    for (const Value& value : present.values)
        blocked.push_back(
            {value.contender, days_between(Date{1970, 1, 1}, value.day), value.value});
    auto means =
        statistics::blocked_group_means(blocked, static_cast<int>(present.contenders.size()));
    double largest = 0;
    for (const Value& value : present.values)
        largest = std::max(largest, std::abs(value.value));
    if (!means || means->degrees_of_freedom < statistics::least_degrees_to_judge ||
        means->residual_sd <= 1e-12 * largest)
        return std::nullopt;
    return means;
}

// Plain means, judged by a scatter from elsewhere.
GroupMeans plain_means(const Present& present) {
    const std::size_t n = present.contenders.size();
    GroupMeans means;
    means.means.assign(n, 0.0);
    means.sizes.assign(n, 0);
    for (const Value& value : present.values) {
        means.means[static_cast<std::size_t>(value.contender)] += value.value;
        ++means.sizes[static_cast<std::size_t>(value.contender)];
    }
    means.unscaled_covariance.assign(n * n, 0.0);
    for (std::size_t i = 0; i < n; ++i) {
        means.means[i] /= means.sizes[i];
        means.unscaled_covariance[i * n + i] = 1.0 / means.sizes[i];
    }
    return means;
}

Verdict verdict_of(const std::optional<statistics::Interval>& interval) {
    if (!interval) return Verdict::cannot_tell;
    if (interval->low > 0) return Verdict::more;
    if (interval->high < 0) return Verdict::less;
    return Verdict::not_told_apart;
}

std::optional<statistics::Interval> percent_interval(const GroupMeans& means, std::size_t variant,
                                                     double critical) {
    const double variance = means.residual_sd * means.residual_sd;
    const auto ratio =
        statistics::fieller({means.means[variant], means.means[0],
                             variance * means.unscaled_covariance_of(variant, variant),
                             variance * means.unscaled_covariance_of(0, 0),
                             variance * means.unscaled_covariance_of(variant, 0)},
                            critical);
    if (!ratio || !ratio->interval) return std::nullopt;
    return statistics::Interval{100 * (ratio->interval->low - 1),
                                100 * (ratio->interval->high - 1)};
}

void give_differences(MeasureComparison& comparison, const Present& present,
                      const GroupMeans& means) {
    const bool judged = comparison.basis != Basis::none;
    const auto judged_list =
        judged ? statistics::against_control(means, 0) : std::vector<statistics::Difference>{};
    for (std::size_t i = 1; i < present.contenders.size(); ++i) {
        MeasuredDifference d;
        d.contender = present.contenders[i];
        d.value = means.means[i] - means.means[0];
        d.percent = 100 * d.value / means.means[0];
        if (judged) {
            d.interval = judged_list[i - 1].interval;
            d.p = judged_list[i - 1].p;
            d.percent_interval = percent_interval(means, i, judged_list[i - 1].critical_value);
        }
        d.verdict = verdict_of(d.interval);
        comparison.differences.push_back(d);
    }
}

}  // namespace

std::vector<Measure> compared_measures() {
    // How light stands beside how tall: where doughs differ in mass, height alone misleads.
    return {Measure::loaf_height,        Measure::specific_volume, Measure::height_to_width,
            Measure::cross_section_area, Measure::openness,        Measure::openness_fine,
            Measure::coarseness,         Measure::cells_per_cm2,   Measure::unevenness,
            Measure::crumb_density,      Measure::slice_density};
}

MeasureComparison compare_measure(const std::vector<Contender>& contenders, Measure measure,
                                  const std::vector<journal::BakeEntry>& journal, EndSlices ends) {
    MeasureComparison result;
    result.measure = measure;
    const std::vector<Value> values = values_of(contenders, measure, ends);
    give_means(result, values, contenders.size());
    const auto here = present(result, values);
    if (!here) {
        result.sentence = result.means.front() ? "no variant has it" : "the control has none";
        return result;
    }
    const bool same_day = one_day(here->values);
    const Steadiness steadiness = steadiness_of(journal, measure, ends);
    auto means = by_own_repeats(*here);
    if (means) {
        result.basis = same_day ? Basis::repeats : Basis::days;
    } else {
        means = plain_means(*here);
        const auto judge = judge_of(steadiness, same_day);
        if (judge && judge->sd > 0) {
            result.basis = Basis::journal;
            means->residual_sd = judge->sd;
            means->degrees_of_freedom = judge->degrees_of_freedom;
        }
    }
    if (result.basis != Basis::none) {
        result.sd = means->residual_sd;
        result.degrees_of_freedom = means->degrees_of_freedom;
    }
    give_differences(result, *here, *means);
    result.sentence = basis_sentence(result, steadiness, same_day);
    for (MeasuredDifference& difference : result.differences)
        difference.sentence = sentence_of(difference, result, contenders);
    return result;
}

Comparison compare(const std::vector<journal::BakeEntry>& chosen,
                   const std::vector<journal::BakeEntry>& journal, EndSlices ends) {
    return compare(contenders_of(chosen), journal, ends);
}

Comparison compare(std::vector<Contender> contenders,
                   const std::vector<journal::BakeEntry>& journal, EndSlices ends) {
    Comparison result;
    result.contenders = std::move(contenders);
    check(result.contenders);
    for (const Measure measure : compared_measures()) {
        MeasureComparison one = compare_measure(result.contenders, measure, journal, ends);
        if (std::ranges::any_of(one.means, [](const auto& mean) { return mean.has_value(); }))
            result.measures.push_back(std::move(one));
    }
    result.confounded = confounding_of(result.contenders);
    result.notes = dough_mass_notes(result.contenders);
    for (std::string& note : reading_notes(result.contenders))
        result.notes.push_back(std::move(note));
    return result;
}

}  // namespace loafmark::insight
