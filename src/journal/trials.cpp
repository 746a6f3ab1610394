#include "journal/trials.h"

#include <set>

#include "arithmetic/near_names.h"
#include "journal/checks.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

void check_setting(const TrialSetting& setting) {
    check_word(setting.setting, setting_words, "a trial's setting");
    check_word(setting.state, setting_states, "what is done with '" + setting.setting + "'");
    if (setting.rule.has_value() != (setting.state == "fitted"))
        throw Error(setting.rule ? "'" + setting.setting + "' is " + setting.state +
                                       " and cannot have a rule"
                                 : "'" + setting.setting + "' is fitted, but by no rule");
}

void check(const Store& store, const NewTrial& trial) {
    const std::string name = not_empty(trial.name, "the trial's name");
    check_word(trial.question, question_words, "a trial's question");
    check_word(trial.factor, setting_words, "a trial's factor");
    if (trial.variants.size() < 2) throw Error("a trial wants a control and at least one variant");
    std::set<std::string> names;
    for (const std::string& variant : trial.variants)
        if (!names.insert(folded(not_empty(variant, "a variant's name"))).second)
            throw Error("two variants are called '" + variant + "'");
    std::set<std::string> settings;
    for (const TrialSetting& setting : trial.settings) {
        check_setting(setting);
        if (setting.setting == trial.factor)
            throw Error("'" + setting.setting + "' is what the trial varies, and cannot be " +
                        setting.state);
        if (!settings.insert(setting.setting).second)
            throw Error("'" + setting.setting + "' is named twice");
    }
    auto same = prepared(store.db, "SELECT 1 FROM trial WHERE name_folded = ?", folded(name));
    if (same.executeStep()) throw Error("there is a trial '" + name + "' already");
}

std::vector<std::string> variants_of(const Store& store, TrialId id) {
    auto statement =
        prepared(store.db, "SELECT name FROM trial_variant WHERE trial = ? ORDER BY position", id);
    std::vector<std::string> names;
    while (statement.executeStep())
        names.push_back(Row(statement).take<std::string>());
    return names;
}

std::vector<TrialSetting> settings_of(const Store& store, TrialId id) {
    auto statement = prepared(store.db,
                              "SELECT setting, state, rule FROM trial_setting WHERE trial = ? "
                              "ORDER BY state DESC, setting",
                              id);
    std::vector<TrialSetting> settings;
    while (statement.executeStep()) {
        Row row(statement);
        TrialSetting& setting = settings.emplace_back();
        row.into(setting.setting);
        row.into(setting.state);
        row.into(setting.rule);
    }
    return settings;
}

std::vector<TrialBake> bakes_of(const Store& store, TrialId id) {
    auto statement = prepared(
        store.db, "SELECT bake, variant - 1 FROM trial_bake WHERE trial = ? ORDER BY bake", id);
    std::vector<TrialBake> bakes;
    while (statement.executeStep()) {
        Row row(statement);
        TrialBake& bake = bakes.emplace_back();
        row.into(bake.bake);
        row.into(bake.variant);
    }
    return bakes;
}

}  // namespace

Trial add_trial(Store& store, const NewTrial& trial) {
    check(store, trial);
    const std::string name = not_empty(trial.name, "the trial's name");
    const auto id = insert<TrialId>(
        store.db,
        "INSERT INTO trial (uid, name, name_folded, question, factor, notes, created_at) "
        "VALUES (?, ?, ?, ?, ?, ?, ?)",
        store.new_uid(), name, folded(name), trial.question, trial.factor, trial.notes,
        store.now());
    int position = 0;
    for (const std::string& variant : trial.variants) {
        const std::string called = not_empty(variant, "a variant's name");
        execute(store.db,
                "INSERT INTO trial_variant (trial, position, name, name_folded) "
                "VALUES (?, ?, ?, ?)",
                id, ++position, called, folded(called));
    }
    for (const TrialSetting& setting : trial.settings)
        execute(store.db,
                "INSERT INTO trial_setting (trial, setting, state, rule) VALUES (?, ?, ?, ?)", id,
                setting.setting, setting.state, setting.rule);
    return trial_of(store, id);
}

Trial add_to_trial(Store& store, TrialId id, const std::vector<TrialBake>& bakes) {
    const Trial trial = trial_of(store, id);
    for (const TrialBake& bake : bakes) {
        if (bake.variant < 0 || bake.variant >= static_cast<int>(trial.variants.size()))
            throw Error("the trial '" + trial.name + "' has no variant " +
                        std::to_string(bake.variant));
        auto known = prepared(store.db, "SELECT 1 FROM bake WHERE id = ?", bake.bake);
        if (!known.executeStep())
            throw NotFound("there is no bake " + std::to_string(bake.bake.value), {});
        execute(store.db,
                "INSERT INTO trial_bake (trial, bake, variant) VALUES (?, ?, ?) "
                "ON CONFLICT (trial, bake) DO UPDATE SET variant = excluded.variant",
                id, bake.bake, bake.variant + 1);
    }
    return trial_of(store, id);
}

Trial trial_of(const Store& store, TrialId id) {
    auto statement =
        prepared(store.db, "SELECT name, question, factor, notes FROM trial WHERE id = ?", id);
    if (!statement.executeStep())
        throw NotFound("there is no trial " + std::to_string(id.value), {});
    Row row(statement);
    Trial trial;
    trial.id = id;
    row.into(trial.name);
    row.into(trial.question);
    row.into(trial.factor);
    row.into(trial.notes);
    trial.variants = variants_of(store, id);
    trial.settings = settings_of(store, id);
    trial.bakes = bakes_of(store, id);
    return trial;
}

std::vector<Trial> all_trials(const Store& store) {
    auto statement = prepared(store.db, "SELECT id FROM trial ORDER BY id");
    std::vector<Trial> trials;
    while (statement.executeStep())
        trials.push_back(trial_of(store, Row(statement).take<TrialId>()));
    return trials;
}

}  // namespace loafmark::journal
