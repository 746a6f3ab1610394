#include "commands/trial_text.h"

#include <nlohmann/json.hpp>

#include "commands/text.h"
#include "documents/json_values.h"
#include "documents/text_table.h"

namespace loafmark::commands {
namespace {

using Json = nlohmann::ordered_json;

std::string settings_text(const journal::Trial& trial) {
    std::string text;
    for (const std::string_view state : journal::setting_states) {
        std::string list;
        for (const journal::TrialSetting& setting : trial.settings)
            if (setting.state == state)
                list += (list.empty() ? "" : ", ") + setting.setting +
                        (setting.rule ? " (" + *setting.rule + ")" : "");
        if (!list.empty()) text.append(state).append(": ").append(list).append("\n");
    }
    return text;
}

std::string sentences(const std::string& head, const std::vector<std::string>& list) {
    std::string text;
    for (const std::string& one : list)
        text += "  " + one + ".\n";
    return text.empty() ? "" : "\n" + head + "\n" + text;
}

std::string bakes_table(const journal::Trial& trial, const std::vector<journal::BakeEntry>& bakes) {
    std::vector<std::vector<std::string>> rows;
    for (const journal::TrialBake& member : trial.bakes)
        for (const journal::BakeEntry& bake : bakes)
            if (bake.bake.id == member.bake)
                rows.push_back({std::to_string(bake.bake.id.value), to_text(bake.bake.date),
                                trial.variants.at(static_cast<std::size_t>(member.variant)),
                                bake.bake.title, percent_text(bake.hydration),
                                bake.bake.set_aside ? "set aside" : ""});
    if (rows.empty()) return "";
    using documents::Align;
    return "\n" + documents::text_table({{"bake", Align::right},
                                         {"day"},
                                         {"variant"},
                                         {"title"},
                                         {"water", Align::right},
                                         {""}},
                                        rows);
}

Json trial_json(const journal::Trial& trial) {
    Json settings = Json::array();
    for (const journal::TrialSetting& setting : trial.settings)
        settings.push_back({{"setting", setting.setting},
                            {"state", setting.state},
                            {"rule", setting.rule ? Json(*setting.rule) : Json()}});
    Json bakes = Json::array();
    for (const journal::TrialBake& bake : trial.bakes)
        bakes.push_back({{"bake", bake.bake.value},
                         {"variant", trial.variants.at(static_cast<std::size_t>(bake.variant))}});
    return {{"id", trial.id.value},
            {"name", trial.name},
            {"question", trial.question},
            {"factor", trial.factor},
            {"variants", trial.variants},
            {"settings", settings},
            {"bakes", bakes},
            {"notes", trial.notes ? Json(*trial.notes) : Json()}};
}

}  // namespace

std::string trial_text(const journal::Trial& trial, const insight::TrialState& state,
                       const std::vector<journal::BakeEntry>& bakes) {
    std::string text = "Trial " + std::to_string(trial.id.value) + ": " + trial.name + "\n" +
                       "varies " + trial.factor + "; asks: " + trial.question + "\n" +
                       settings_text(trial);
    if (trial.notes) text += "note: " + *trial.notes + "\n";
    text += bakes_table(trial, bakes) + "\n";
    for (const insight::VariantState& variant : state.variants) {
        text += variant.name;
        if (!variant.with.empty()) text += ", with its " + variant.with;
        text += ": " + variant.sentence + ".\n";
    }
    return text + sentences("What drifted:", state.drifts) +
           sentences("To part two causes:", state.to_part) +
           sentences("Where repeats are missing:", state.repeats);
}

std::string trials_table(const std::vector<journal::Trial>& trials) {
    if (trials.empty())
        return "There is no trial yet. loafmark trial plan --help shows how to begin one.\n";
    std::vector<std::vector<std::string>> rows;
    for (const journal::Trial& trial : trials) {
        std::string variants;
        for (std::size_t i = 1; i < trial.variants.size(); ++i)
            variants += (i == 1 ? "" : ", ") + trial.variants[i];
        rows.push_back({std::to_string(trial.id.value), trial.name, trial.factor,
                        trial.variants.front(), variants, std::to_string(trial.bakes.size())});
    }
    using documents::Align;
    return documents::text_table({{"trial", Align::right},
                                  {"name"},
                                  {"varies"},
                                  {"control"},
                                  {"variants"},
                                  {"bakes", Align::right}},
                                 rows);
}

std::string trial_document(const journal::Trial& trial, const insight::TrialState& state) {
    Json json{{"schema", 1}, {"trial", trial_json(trial)}};
    Json variants = Json::array();
    for (const insight::VariantState& variant : state.variants)
        variants.push_back({{"name", variant.name},
                            {"fitted", variant.with},
                            {"n_bakes", variant.bakes},
                            {"n_days", variant.days},
                            {"n_days_with_control", variant.days_with_control},
                            {"fair", variant.fair},
                            {"sentence", variant.sentence}});
    json["variants"] = variants;
    json["drifts"] = state.drifts;
    json["to_part_causes"] = state.to_part;
    json["repeats_missing"] = state.repeats;
    json["degrees_of_freedom"] = state.degrees_of_freedom;
    return documents::printed(json);
}

std::string trials_document(const std::vector<journal::Trial>& trials) {
    Json json{{"schema", 1}, {"trials", Json::array()}};
    for (const journal::Trial& trial : trials)
        json["trials"].push_back(trial_json(trial));
    return documents::printed(json);
}

}  // namespace loafmark::commands
