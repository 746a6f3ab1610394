#include "insight/compare_words.h"

#include <cmath>
#include <set>

#include "insight/plain_numbers.h"
#include "insight/reading_notes.h"
#include "insight/recipe.h"

namespace loafmark::insight {
namespace {

std::string signed_text(double value, int decimals) {
    return (value > 0 ? "+" : "") + fixed_text(value, decimals);
}

std::string percent_part(const MeasuredDifference& d) {
    if (!d.percent_known()) return "";  // of a control that has none
    std::string text = " (" + signed_text(d.percent, 1) + " %";
    if (d.percent_interval)
        text += ", " + signed_text(d.percent_interval->low, 1) + " to " +
                signed_text(d.percent_interval->high, 1);
    return text + ")";
}

std::string verdict_words(Verdict verdict) {
    switch (verdict) {
        case Verdict::more:
            return "more than the control, beyond chance";
        case Verdict::less:
            return "less than the control, beyond chance";
        case Verdict::not_told_apart:
            return "not told apart from the control";
        case Verdict::cannot_tell:
            return "no one can tell yet";
    }
    return "";
}

std::set<Date> days_of(const Contender& contender) {
    std::set<Date> days;
    for (const journal::BakeEntry& bake : contender.bakes)
        days.insert(bake.bake.date);
    return days;
}

bool share_a_day(const Contender& a, const Contender& b) {
    const std::set<Date> days = days_of(a);
    for (const Date day : days_of(b))
        if (days.contains(day)) return true;
    return false;
}

}  // namespace

std::string measured_text(double value, Measure measure) {
    const MeasureInfo& info = info_of(measure);
    std::string text = fixed_text(value, info.decimals);
    if (!info.unit.empty()) text.append(" ").append(info.unit);
    return text;
}

std::string sentence_of(const MeasuredDifference& d, const MeasureComparison& comparison,
                        const std::vector<Contender>& contenders) {
    const MeasureInfo& info = info_of(comparison.measure);
    std::string text = contenders[d.contender].name + ": " + signed_text(d.value, info.decimals);
    if (!info.unit.empty()) text.append(" ").append(info.unit);
    if (d.interval)
        text += ", 95 % interval " + signed_text(d.interval->low, info.decimals) + " to " +
                signed_text(d.interval->high, info.decimals);
    return text + percent_part(d) + ": " + verdict_words(d.verdict);
}

std::string basis_sentence(const MeasureComparison& comparison, const Steadiness& steadiness,
                           bool same_day) {
    const auto scatter = [&] {
        return measured_text(*comparison.sd, comparison.measure) + ", " +
               std::to_string(comparison.degrees_of_freedom) + " df";
    };
    switch (comparison.basis) {
        case Basis::days:
            return "judged within bake days by the repeats compared (single bakes scatter by " +
                   scatter() + ")";
        case Basis::repeats:
            return "judged by the repeats compared (single bakes scatter by " + scatter() + ")";
        case Basis::journal:
            return "too few repeats here, so judged by all repeats of the journal: " +
                   steadiness_sentence(steadiness, same_day);
        case Basis::none:
            return steadiness_sentence(steadiness, same_day);
    }
    return "";
}

std::vector<std::string> confounding_of(const std::vector<Contender>& contenders) {
    std::vector<std::string> list;
    const Contender& control = contenders.front();
    for (std::size_t i = 1; i < contenders.size(); ++i) {
        std::vector<std::string> parts =
            differences(control.bakes.front(), contenders[i].bakes.front());
        if (!share_a_day(control, contenders[i]))
            parts.push_back("the day (" + to_text(control.bakes.front().bake.date) + ", " +
                            to_text(contenders[i].bakes.front().bake.date) + ")");
        if (parts.size() > 1)
            list.push_back(contenders[i].name + " and the control differ in " + joined(parts) +
                           ": what each of them did cannot be told apart");
    }
    return list;
}

std::vector<std::string> dough_mass_notes(const std::vector<Contender>& contenders) {
    const auto mean_dough = [](const Contender& contender) -> std::optional<double> {
        double sum = 0;
        int count = 0;
        for (const journal::BakeEntry& bake : contender.bakes)
            if (const auto dough = loaf_dough(bake)) {
                sum += dough->count();
                ++count;
            }
        return count > 0 ? std::optional(sum / count) : std::nullopt;
    };
    std::vector<std::string> notes;
    const auto control = mean_dough(contenders.front());
    if (!control) return notes;
    for (std::size_t i = 1; i < contenders.size(); ++i) {
        const auto dough = mean_dough(contenders[i]);
        if (!dough || std::abs(*dough - *control) <= mass_that_matters * *control) continue;
        notes.push_back(contenders[i].name + ": " + fixed_text(*dough, 0) +
                        " g of dough a loaf against " + fixed_text(*control, 0) + " g, " +
                        signed_text(100 * (*dough / *control - 1), 1) +
                        " %: part of a difference in height is dough; specific volume and " +
                        "openness do not mind it");
    }
    return notes;
}

std::vector<std::string> reading_notes(const std::vector<Contender>& contenders) {
    ReadingNotes notes;
    for (const Contender& contender : contenders)
        for (const journal::BakeEntry& bake : contender.bakes)
            notes.add(bake);
    return notes.all();
}

}  // namespace loafmark::insight
