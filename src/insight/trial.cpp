#include "insight/trial.h"

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>

#include "insight/plain_numbers.h"
#include "insight/settings.h"
#include "statistics/group_means.h"
#include "statistics/repeatability.h"

namespace loafmark::insight {
namespace {

using journal::BakeEntry;
using Group = std::vector<const BakeEntry*>;

std::vector<Group> groups_of(const journal::Trial& trial, const std::vector<BakeEntry>& bakes) {
    std::vector<Group> groups(trial.variants.size());
    for (const journal::TrialBake& member : trial.bakes)
        for (const BakeEntry& bake : bakes)
            if (bake.bake.id == member.bake && !bake.bake.set_aside)
                groups.at(static_cast<std::size_t>(member.variant)).push_back(&bake);
    return groups;
}

std::set<Date> days_of(const Group& group) {
    std::set<Date> days;
    for (const BakeEntry* bake : group)
        days.insert(bake->bake.date);
    return days;
}

// The control's bakes of that day, which are what a bake is held against; else all of them.
Group references(const BakeEntry& bake, const Group& control) {
    Group same_day;
    for (const BakeEntry* one : control)
        if (one->bake.date == bake.bake.date) same_day.push_back(one);
    return same_day.empty() ? control : same_day;
}

// How a held setting of one variant's bakes compares with the control's.
struct Moved {
    int bakes = 0;  // that differ from every control bake they are held against
    int known = 0;  // that could be held against one
    std::string variant_text;
    std::string control_text;
};

Moved moved_against_control(const Group& group, const Group& control, const std::string& setting) {
    Moved moved;
    for (const BakeEntry* bake : group) {
        const auto own = setting_of(*bake, setting);
        if (!own) continue;
        bool any = false;
        bool alike = false;
        std::string theirs;
        for (const BakeEntry* reference : references(*bake, control)) {
            const auto other = setting_of(*reference, setting);
            if (!other) continue;
            any = true;
            alike = alike || !differ(*own, *other, setting);
            if (theirs.empty()) theirs = other->text;
        }
        if (!any) continue;
        ++moved.known;
        if (alike) continue;
        if (moved.bakes++ == 0) {
            moved.variant_text = own->text;
            moved.control_text = theirs;
        }
    }
    return moved;
}

// Of the control's own bakes on one day: a drift that no variant is needed for.
std::string moved_within(const Group& group, const std::string& setting) {
    std::vector<std::string> values;
    std::vector<Setting> settings;
    for (const BakeEntry* bake : group)
        if (const auto own = setting_of(*bake, setting)) {
            const bool known = std::ranges::any_of(
                settings, [&](const Setting& s) { return !differ(s, *own, setting); });
            if (!known) settings.push_back(*own);
        }
    if (settings.size() < 2) return "";
    std::string text;
    for (const Setting& one : settings)
        text += (text.empty() ? "" : ", ") + one.text;
    return text;
}

int not_noted(const std::vector<Group>& groups, const std::string& setting) {
    int missing = 0;
    for (const Group& group : groups)
        for (const BakeEntry* bake : group)
            if (!setting_of(*bake, setting)) ++missing;
    return missing;
}

int bakes_in(const std::vector<Group>& groups) {
    int count = 0;
    for (const Group& group : groups)
        count += static_cast<int>(group.size());
    return count;
}

// Rules that name what is to be equal can be looked up.
std::string target_of(const journal::TrialSetting& setting) {
    if (!setting.rule) return "";
    for (const std::string_view word : {"handling", "readiness", "dough temperature"})
        if (setting.rule->find("equal " + std::string(word)) != std::string::npos)
            return std::string(word);
    return "";
}

// What must not move: held settings, and what fitted ones are to make equal.
struct Watched {
    std::string setting;
    std::string why;  // "held", "water was fitted to it"
};
std::vector<Watched> watched_of(const journal::Trial& trial) {
    std::vector<Watched> list;
    for (const journal::TrialSetting& setting : trial.settings) {
        if (setting.state == "held") list.push_back({setting.setting, "held"});
        const std::string target = target_of(setting);
        if (!target.empty()) list.push_back({target, setting.setting + " was fitted to it"});
    }
    return list;
}

std::string fitted_text(const journal::Trial& trial, const Group& group) {
    std::string text;
    for (const journal::TrialSetting& setting : trial.settings) {
        if (setting.state != "fitted") continue;
        std::vector<std::string> values;
        for (const BakeEntry* bake : group)
            if (const auto own = setting_of(*bake, setting.setting);
                own && std::ranges::find(values, own->text) == values.end())
                values.push_back(own->text);
        text += (text.empty() ? "" : ", ") + setting.setting;
        for (std::size_t i = 0; i < values.size(); ++i)
            text += (i == 0 ? " " : " and ") + values[i];
        if (values.empty()) text += " not noted";
    }
    return text;
}

std::string baked_text(const VariantState& state) {
    return counted(state.bakes, "bake", "bakes") + " on " + counted(state.days, "day", "days");
}

void judge(VariantState& state, const std::vector<std::string>& moved) {
    if (state.bakes == 0) {
        state.sentence = "not baked yet";
    } else if (!moved.empty()) {
        state.sentence = "not fair: ";
        for (std::size_t i = 0; i < moved.size(); ++i)
            state.sentence += (i == 0 ? "" : "; ") + moved[i];
    } else {
        state.fair = true;
        state.sentence = "fair: " + baked_text(state);
        if (state.days_with_control == 0)
            state.sentence +=
                ", none of them beside the control, so that what the day did is in it";
        else if (state.days_with_control < state.days)
            state.sentence += ", beside the control on " + std::to_string(state.days_with_control);
        else
            state.sentence += ", each beside the control";
    }
}

void look_at_variant(TrialState& result, const journal::Trial& trial,
                     const std::vector<Group>& groups, std::size_t i) {
    VariantState& state = result.variants[i];
    std::vector<std::string> moved_list;
    if (groups.front().empty()) {
        state.sentence = "cannot be judged: the control was not baked";
        return;
    }
    for (const Watched& watched : watched_of(trial)) {
        const Moved moved = moved_against_control(groups[i], groups.front(), watched.setting);
        if (moved.bakes == 0) continue;
        moved_list.push_back(watched.setting + " moved (" + moved.variant_text +
                             " where the control had " + moved.control_text + ", in " +
                             std::to_string(moved.bakes) + " of " +
                             counted(moved.known, "bake", "bakes") + "; " + watched.why + ")");
        if (moved.bakes == moved.known)
            result.to_part.push_back("to part " + trial.factor + " from " + watched.setting +
                                     ", bake " + state.name + " with " + watched.setting + " " +
                                     moved.control_text + ", or " + trial.variants.front() +
                                     " with " + moved.variant_text);
    }
    judge(state, moved_list);
}

void look_at_control(TrialState& result, const journal::Trial& trial,
                     const std::vector<Group>& groups) {
    VariantState& state = result.variants.front();
    state.sentence = state.bakes == 0 ? "not baked yet" : "the control: " + baked_text(state);
    state.fair = state.bakes > 0;
    for (const Watched& watched : watched_of(trial)) {
        const std::string values = moved_within(groups.front(), watched.setting);
        if (!values.empty())
            result.drifts.push_back(watched.setting + " moved between the control's own bakes (" +
                                    values + "): it widens the scatter");
        const int missing = not_noted(groups, watched.setting);
        if (missing > 0)
            result.drifts.push_back(
                watched.setting + " was not noted in " + std::to_string(missing) + " of " +
                counted(bakes_in(groups), "bake", "bakes") + ": whether it held is not known");
    }
}

int degrees_left(const std::vector<Group>& groups) {
    std::vector<statistics::BlockedValue> values;
    int number = 0;
    double made_up = 0;  // the design alone decides
    for (const Group& group : groups) {
        if (group.empty()) continue;
        for (const BakeEntry* bake : group)
            values.push_back(
                {number, days_between(Date{1970, 1, 1}, bake->bake.date), made_up += 1.7});
        ++number;
    }
    if (number < 2) return 0;
    const auto means = statistics::blocked_group_means(values, number);
    return means ? means->degrees_of_freedom : 0;
}

void look_for_repeats(TrialState& result) {
    for (const VariantState& state : result.variants) {
        if (state.bakes == 0) result.repeats.push_back(state.name + ": bake it, on two days");
        if (state.bakes == 1)
            result.repeats.push_back(state.name +
                                     ": bake it once more, on another day beside the control");
        if (state.bakes > 1 && state.days == 1)
            result.repeats.push_back(state.name +
                                     ": all its bakes are of one day; bake it on another");
    }
    if (result.degrees_of_freedom < statistics::least_degrees_to_judge)
        result.repeats.push_back(
            "the trial leaves " + counted(result.degrees_of_freedom, "degree", "degrees") +
            " of freedom to chance, " + std::to_string(statistics::least_degrees_to_judge) +
            " are wanted before its own repeats can judge");
}

}  // namespace

TrialState state_of(const journal::Trial& trial, const std::vector<BakeEntry>& bakes) {
    const std::vector<Group> groups = groups_of(trial, bakes);
    const std::set<Date> control_days = days_of(groups.front());
    TrialState result;
    for (std::size_t i = 0; i < groups.size(); ++i) {
        VariantState& state = result.variants.emplace_back();
        state.name = trial.variants[i];
        state.with = groups[i].empty() ? "" : fitted_text(trial, groups[i]);
        state.bakes = static_cast<int>(groups[i].size());
        const std::set<Date> days = days_of(groups[i]);
        state.days = static_cast<int>(days.size());
        for (const Date& day : days)
            if (control_days.contains(day)) ++state.days_with_control;
    }
    look_at_control(result, trial, groups);
    for (std::size_t i = 1; i < groups.size(); ++i)
        look_at_variant(result, trial, groups, i);
    result.degrees_of_freedom = degrees_left(groups);
    look_for_repeats(result);
    return result;
}

std::vector<Contender> contenders_of(const journal::Trial& trial,
                                     const std::vector<BakeEntry>& bakes,
                                     std::vector<int>* places) {
    const std::vector<Group> groups = groups_of(trial, bakes);
    std::vector<Contender> list;
    for (std::size_t i = 0; i < groups.size(); ++i) {
        if (groups[i].empty()) continue;
        Contender& contender = list.emplace_back();
        contender.name = trial.variants[i];
        const std::string with = fitted_text(trial, groups[i]);
        if (!with.empty()) contender.name += ", with its " + with;
        for (const BakeEntry* bake : groups[i])
            contender.bakes.push_back(*bake);
        if (places) places->push_back(static_cast<int>(i));
    }
    return list;
}

Comparison compare_trial(const journal::Trial& trial, const std::vector<BakeEntry>& journal,
                         EndSlices ends) {
    std::vector<int> places;
    std::vector<Contender> contenders = contenders_of(trial, journal, &places);
    if (places.size() < 2 || places.front() != 0)
        throw std::invalid_argument("of the trial '" + trial.name +
                                    (places.empty() || places.front() != 0
                                         ? "' the control was not baked yet"
                                         : "' no variant was baked yet"));
    Comparison comparison = compare(std::move(contenders), journal, ends);
    const TrialState state = state_of(trial, journal);
    comparison.confounded.clear();
    for (std::size_t i = 1; i < state.variants.size(); ++i)
        if (state.variants[i].bakes > 0 && !state.variants[i].fair)
            comparison.confounded.push_back(state.variants[i].name + ": " +
                                            state.variants[i].sentence);
    comparison.notes.insert(comparison.notes.end(), state.drifts.begin(), state.drifts.end());
    return comparison;
}

}  // namespace loafmark::insight
