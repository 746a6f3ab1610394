#include "reports/trial_section.h"

#include <algorithm>
#include <stdexcept>

#include "insight/plain_numbers.h"
#include "insight/tasting.h"
#include "insight/trial.h"
#include "reports/pictures.h"
#include "reports/plain_words.h"

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
const journal::ReadingPicture* picture_of(const journal::BakeEntry& bake,
                                          const ReportInput& input) {
    const journal::ReadingPicture* found = nullptr;
    for (const journal::LoafEntry& loaf : bake.loaves)
        for (const journal::SliceEntry& slice : loaf.slices) {
            const auto kept = input.pictures.find(slice.slice.id);
            if (kept == input.pictures.end() || !kept->second.slice ||
                !has_scale(*kept->second.slice))
                continue;
            if (slice.slice.place != journal::end_of_loaf) return &*kept->second.slice;
            if (!found) found = &*kept->second.slice;
        }
    return found;
}

data line_up_of(const std::vector<insight::Contender>& contenders, const ReportInput& input) {
    data list{data::type::list};
    for (const insight::Contender& contender : contenders)
        for (const journal::BakeEntry& bake : contender.bakes) {
            const journal::ReadingPicture* picture = picture_of(bake, input);
            if (!picture) continue;
            const std::string date = long_date(bake.bake.date);
            data slice = picture_data(*picture, "Cut face of " + bake.bake.title + ", " + date);
            slice.set("bake_id", std::to_string(bake.bake.id.value));
            slice.set("bake_title", bake.bake.title);
            slice.set("date", date);
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
        row.set("measure", std::string(info.name));
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

void set_comparison(data& section, const journal::Trial& trial, const ReportInput& input) {
    data headings{data::type::list};
    std::vector<std::string> differences;
    try {
        const insight::Comparison comparison = insight::compare_trial(trial, input.journal_bakes());
        for (const insight::Contender& contender : comparison.contenders) {
            data heading;
            heading.set("name", contender.name);
            heading.set("bakes", counted(contender.bakes.size(), "bake", "bakes"));
            headings.push_back(heading);
        }
        for (const insight::MeasureComparison& one : comparison.measures) {
            for (const insight::MeasuredDifference& d : one.differences)
                differences.push_back(std::string(info_of(one.measure).name) + ", " + d.sentence);
            if (!one.differences.empty() && one.basis == insight::Basis::none) {
                differences.push_back(one.sentence);
                break;
            }
        }
        section.set("rows", means_of(comparison));
        section.set("has_rows", true);
    } catch (const std::invalid_argument& error) {
        differences.emplace_back(error.what());
        section.set("has_rows", false);
    }
    section.set("headings", headings);
    section.set("differences", sentences(differences));
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
        data line_up = line_up_of(contenders, input);
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
