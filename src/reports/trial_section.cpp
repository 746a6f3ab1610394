#include "reports/trial_section.h"

#include <algorithm>
#include <stdexcept>

#include "charts/chart.h"
#include "insight/plain_numbers.h"
#include "insight/tasting.h"
#include "insight/trial.h"
#include "reports/pictures.h"
#include "reports/plain_words.h"
#include "statistics/interval.h"

namespace loafmark::reports {
namespace {

using kainjow::mustache::data;

data sentences(const std::vector<std::string>& list) {
    data items{data::type::list};
    for (const std::string& text : list) {
        data item;
        item.set("words", as_sentence(text));
        items.push_back(item);
    }
    return items;
}

std::string settings_of(const journal::Trial& trial) {
    std::string text = "Varies " + trial.factor + "; asks: " + trial.question;
    for (const std::string_view state : journal::setting_states) {
        std::string list;
        for (const journal::TrialSetting& setting : trial.settings)
            if (setting.state == state)
                list += (list.empty() ? "" : ", ") + setting.setting +
                        (setting.rule ? " (" + *setting.rule + ")" : "");
        if (!list.empty()) text.append("; ").append(state).append(": ").append(list);
    }
    return text + ".";
}

// A bake's first slice that has a picture with a scale; ends only where there is nothing else.
const journal::SliceEntry* shown_slice_of(const journal::BakeEntry& bake,
                                          const ReportInput& input) {
    const journal::SliceEntry* found = nullptr;
    for (const journal::LoafEntry& loaf : bake.loaves)
        for (const journal::SliceEntry& slice : loaf.slices) {
            const auto kept = input.pictures.find(slice.slice.id);
            if (kept == input.pictures.end() || !kept->second.slice ||
                !has_scale(*kept->second.slice))
                continue;
            if (slice.slice.place != journal::end_of_loaf) return &slice;
            if (!found) found = &slice;
        }
    return found;
}

data line_up_of(const std::vector<insight::Contender>& contenders, const ReportInput& input,
                double& tallest) {
    data list{data::type::list};
    for (const insight::Contender& contender : contenders)
        for (const journal::BakeEntry& bake : contender.bakes) {
            const journal::SliceEntry* shown = shown_slice_of(bake, input);
            if (!shown) continue;
            const journal::ReadingPicture& picture = *input.pictures.at(shown->slice.id).slice;
            tallest = std::max(tallest, height_mm(picture));
            data slice;
            slice.set("cut_out", cut_out_again(picture, shown->slice.id, cut_face_of(bake)));
            slice.set("bake_id", std::to_string(bake.bake.id.value));
            slice.set("bake_title", bake.bake.title);
            slice.set("date", long_date(bake.bake.date));
            slice.set("label", contender.name);
            list.push_back(slice);
        }
    return list;
}

// Measures down, variants across.
data means_of(const insight::Comparison& comparison) {
    data rows{data::type::list};
    for (const insight::MeasureComparison& one : comparison.measures) {
        const MeasureInfo& info = info_of(one.measure);
        data row;
        row.set("measure", raised(info.name));
        data cells{data::type::list};
        for (const auto& mean : one.means) {
            data cell;
            cell.set("value", mean ? value_text(*mean, info) : std::string("-"));
            cells.push_back(cell);
        }
        row.set("cells", cells);
        rows.push_back(row);
    }
    return rows;
}

// A chart a variant: how far each measure lies from the control's, in percent of it. Only measures
// whose interval is determined have a place.
data charts_of(const insight::Comparison& comparison) {
    data list{data::type::list};
    for (std::size_t i = 1; i < comparison.contenders.size(); ++i) {
        charts::StripChart chart;
        chart.title = comparison.contenders[i].name + " against " +
                      comparison.contenders.front().name + ", the control";
        chart.description =
            "Differences in percent of the control with 95 % intervals that hold for all variants "
            "together.";
        chart.x = {"difference from the control", "%", charts::AxisKind::number};
        chart.borders = {0};
        chart.words = {"less", "more"};
        chart.look = i - 1;
        for (const insight::MeasureComparison& one : comparison.measures)
            for (const insight::MeasuredDifference& d : one.differences)
                if (d.contender == i && d.percent_interval)
                    chart.rows.push_back(
                        {raised(info_of(one.measure).name),
                         {{d.percent, as_sentence(d.sentence), "",
                           charts::Interval(d.percent_interval->low, d.percent_interval->high)}}});
        if (chart.rows.empty()) continue;
        data figure;
        figure.set("heading", chart.title);
        figure.set("svg", charts::strip_svg(chart, charts::Embedding::in_page));
        list.push_back(figure);
    }
    return list;
}

std::string verdict_words(insight::Verdict verdict) {
    switch (verdict) {
        case insight::Verdict::more:
            return "more, beyond chance";
        case insight::Verdict::less:
            return "less, beyond chance";
        case insight::Verdict::not_told_apart:
            return "not told apart";
        case insight::Verdict::cannot_tell:
            break;
    }
    return "no one can tell yet";
}

std::string with_sign(double value, int decimals) {
    return (value > 0 ? "+" : "") + insight::fixed_text(value, decimals);
}

// "-7.8 mm", and "-9.7 to -6.0" below it where there is an interval.
data with_interval(double value, const std::optional<statistics::Interval>& interval, int decimals,
                   const std::string& unit) {
    data cell;
    cell.set("value", with_sign(value, decimals) + (unit.empty() ? "" : " " + unit));
    cell.set("interval", interval ? data(with_sign(interval->low, decimals) + " to " +
                                         with_sign(interval->high, decimals))
                                  : data(false));
    return cell;
}

// Of a control of nought there are no percents.
data nothing() {
    data cell;
    cell.set("value", std::string("-"));
    cell.set("interval", data(false));
    return cell;
}

data differences_of(const insight::Comparison& comparison) {
    data rows{data::type::list};
    for (const insight::MeasureComparison& one : comparison.measures)
        for (const insight::MeasuredDifference& d : one.differences) {
            const MeasureInfo& info = info_of(one.measure);
            data row;
            row.set("measure", raised(info.name));
            row.set("variant", comparison.contenders[d.contender].name);
            row.set("difference",
                    with_interval(d.value, d.interval, info.decimals, raised(info.unit)));
            row.set("percent", d.percent_known()
                                   ? with_interval(d.percent, d.percent_interval, 1, "%")
                                   : nothing());
            row.set("verdict", verdict_words(d.verdict));
            rows.push_back(row);
        }
    return rows;
}

void set_comparison(data& section, const journal::Trial& trial, const ReportInput& input) {
    data headings{data::type::list};
    data differences{data::type::list};
    std::vector<std::string> why_none;
    data charts_list{data::type::list};
    try {
        const insight::Comparison comparison = insight::compare_trial(trial, input.journal_bakes());
        for (const insight::Contender& contender : comparison.contenders) {
            data heading;
            heading.set("name", contender.name);
            heading.set("bakes", counted(contender.bakes.size(), "bake", "bakes"));
            headings.push_back(heading);
        }
        differences = differences_of(comparison);
        for (const insight::MeasureComparison& one : comparison.measures)
            if (!one.differences.empty() && one.basis == insight::Basis::none) {
                why_none = {one.sentence};
                break;
            }
        charts_list = charts_of(comparison);
        section.set("rows", means_of(comparison));
        section.set("has_rows", true);
    } catch (const std::invalid_argument& error) {
        why_none = {error.what()};
        section.set("has_rows", false);
    }
    section.set("headings", headings);
    section.set("charts", charts_list);
    section.set("has_differences", differences.is_non_empty_list());
    section.set("differences", differences);
    section.set("why_none", sentences(why_none));
}

std::vector<std::string> design_of(const insight::TrialState& state) {
    std::vector<std::string> list;
    for (const insight::VariantState& variant : state.variants)
        list.push_back(variant.name + ": " + variant.sentence);
    for (const auto* more : {&state.drifts, &state.to_part, &state.repeats})
        list.insert(list.end(), more->begin(), more->end());
    return list;
}

std::vector<std::vector<journal::BakeId>> groups_of(
    const std::vector<insight::Contender>& contenders) {
    std::vector<std::vector<journal::BakeId>> groups;
    for (const insight::Contender& contender : contenders) {
        auto& group = groups.emplace_back();
        for (const journal::BakeEntry& bake : contender.bakes)
            group.push_back(bake.bake.id);
    }
    return groups;
}

}  // namespace

data trials_data(const ReportInput& input) {
    data list{data::type::list};
    for (const journal::Trial& trial : input.trials) {
        const auto contenders = insight::contenders_of(trial, input.bakes);
        if (contenders.empty()) continue;
        data section;
        section.set("trial_name", trial.name);
        section.set("settings", settings_of(trial));
        double tallest = 50;
        data line_up = line_up_of(contenders, input, tallest);
        section.set("upright_ruler", upright_ruler(tallest));
        section.set("has_line_up", line_up.is_non_empty_list());
        section.set("line_up", line_up);
        set_comparison(section, trial, input);
        section.set("design",
                    sentences(design_of(insight::state_of(trial, input.journal_bakes()))));
        std::vector<std::string> names;
        for (const insight::Contender& contender : contenders)
            names.push_back(contender.name);
        section.set("tastings", tasted_data(input.tastings, groups_of(contenders), names));
        list.push_back(section);
    }
    return list;
}

data tasted_data(const std::vector<journal::Tasting>& tastings,
                 const std::vector<std::vector<journal::BakeId>>& groups,
                 const std::vector<std::string>& names) {
    const insight::TasteSummary summary = insight::summary_of(tastings, groups);
    data rows{data::type::list};
    std::vector<std::string> keys;
    for (const journal::TastingLine& line : journal::tasting_lines)
        keys.emplace_back(line.key);
    keys.emplace_back("liking");
    for (const std::string& key : keys) {
        data row;
        row.set("line", key == "liking" ? "how well liked" : insight::line_words(key));
        data cells{data::type::list};
        bool any = false;
        for (const insight::BakeTasting& bake : summary.bakes) {
            data cell;
            cell.set("value", std::string("-"));
            for (const insight::LineMean& mean : bake.lines)
                if (mean.key == key) {
                    cell.set("value", insight::fixed_text(mean.value, 1));
                    any = true;
                }
            cells.push_back(cell);
        }
        row.set("cells", cells);
        if (any) rows.push_back(row);
    }
    if (!rows.is_non_empty_list()) return data(false);
    data headings{data::type::list};
    std::vector<std::string> words;
    for (std::size_t i = 0; i < summary.bakes.size(); ++i) {
        data heading;
        heading.set("name", names[i]);
        heading.set("tasters", counted(summary.bakes[i].tasters.size(), "taster", "tasters"));
        headings.push_back(heading);
        for (const std::string& said : summary.bakes[i].good_for)
            words.push_back((groups.size() > 1 ? names[i] + ". " : "") + said);
    }
    for (std::size_t i = 0; i < summary.against_first.size(); ++i)
        for (const insight::TasteDifference& d : summary.against_first[i])
            words.push_back(names[i + 1] + " against " + names.front() + ": " + d.sentence);
    std::string when;
    for (const insight::BakeTasting& bake : summary.bakes)
        for (const std::string& one : bake.when)
            if (when.find(one) == std::string::npos) when += (when.empty() ? "" : "; ") + one;
    data tasted;
    tasted.set("headings", headings);
    tasted.set("rows", rows);
    tasted.set("when", when.empty() ? data(false) : data(as_sentence(when)));
    tasted.set("words", sentences(words));
    return tasted;
}

}  // namespace loafmark::reports
