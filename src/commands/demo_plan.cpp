#include "commands/demo_plan.h"

#include <nlohmann/json.hpp>
#include <stdexcept>

#include "commands/failure.h"
#include "commands/files.h"
#include "commands/text.h"

namespace loafmark::commands {
namespace {

using Json = nlohmann::json;

constexpr int known_schema = 1;
// No date of the list is left to be completed by a year, so that this is never looked at.
constexpr Date no_today{9999, 12, 31};

template <class T>
std::optional<T> maybe(const Json& object, const char* key) {
    const auto found = object.find(key);
    if (found == object.end() || found->is_null()) return std::nullopt;
    return found->get<T>();
}

template <class Unit>
std::optional<Unit> maybe_quantity(const Json& object, const char* key) {
    const auto number = maybe<double>(object, key);
    return number ? std::optional(Unit(*number)) : std::nullopt;
}

std::optional<Celsius> maybe_temperature(const Json& object, const char* key) {
    const auto degrees = maybe<double>(object, key);
    return degrees ? std::optional(Celsius(*degrees)) : std::nullopt;
}

IngredientKind kind_of(const std::string& name) {
    using enum IngredientKind;
    for (const IngredientKind kind : {flour, water, salt, leaven, other})
        if (name == kind_name(kind)) return kind;
    throw std::runtime_error("'" + name + "' is no kind of ingredient");
}

journal::NewFlour flour_from(const Json& json) {
    journal::NewFlour flour;
    flour.name = json.at("name").get<std::string>();
    flour.grain = maybe<std::string>(json, "grain");
    flour.grade = maybe<std::string>(json, "grade");
    if (const auto protein = maybe<double>(json, "protein_percent"))
        flour.protein = fraction_from_percent(*protein);
    return flour;
}

DemoFormula formula_from(const Json& json) {
    DemoFormula formula{json.at("name").get<std::string>(), {}};
    for (const Json& ingredient : json.at("ingredients"))
        formula.ingredients.push_back(
            {kind_of(ingredient.at("kind").get<std::string>()),
             ingredient.at("name").get<std::string>(),
             fraction_from_percent(ingredient.at("percent").get<double>())});
    return formula;
}

journal::NewLoaf loaf_from(const Json& json) {
    journal::NewLoaf loaf;
    loaf.tin = maybe<std::string>(json, "tin");
    if (const auto shape = maybe<std::string>(json, "shape")) loaf.free_form = *shape != "tin";
    loaf.dough_mass = maybe_quantity<Grams>(json, "dough_g");
    loaf.baked_mass = maybe_quantity<Grams>(json, "baked_g");
    return loaf;
}

DemoBake bake_from(const Json& json) {
    const Json& slice = json.at("slice");
    return {.title = json.at("title").get<std::string>(),
            .date = parse_date(json.at("date").get<std::string>(), no_today),
            .formula = json.at("formula").get<std::string>(),
            .dough = Grams(json.at("dough_g").get<double>()),
            .loaf = loaf_from(json.value("loaf", Json::object())),
            .slice = {slice.at("photo").get<std::string>(),
                      maybe_quantity<Millimetres>(slice, "thickness_mm"),
                      maybe_quantity<Hours>(slice, "hours_since_oven"),
                      maybe_quantity<Grams>(slice, "mass_g")},
            .notes = maybe<std::string>(json, "notes"),
            .variant = maybe<std::string>(json, "variant"),
            .room = maybe_temperature(json, "room_c"),
            .dough_temperature = maybe_temperature(json, "dough_c"),
            .handling = maybe<std::string>(json, "handling"),
            .proof = maybe_quantity<Minutes>(json, "proof_min")};
}

journal::NewTrial trial_from(const Json& json) {
    journal::NewTrial trial;
    trial.name = json.at("name").get<std::string>();
    trial.question = json.at("question").get<std::string>();
    trial.factor = json.at("factor").get<std::string>();
    trial.variants = json.at("variants").get<std::vector<std::string>>();
    for (const Json& setting : json.at("settings"))
        trial.settings.push_back({setting.at("setting").get<std::string>(),
                                  setting.at("state").get<std::string>(),
                                  maybe<std::string>(setting, "rule")});
    return trial;
}

DemoSitting sitting_from(const Json& json) {
    DemoSitting sitting;
    sitting.date = parse_date(json.at("date").get<std::string>(), no_today);
    sitting.kept = maybe<std::string>(json, "kept");
    sitting.since_oven = maybe_quantity<Hours>(json, "hours_since_oven");
    for (const Json& one : json.at("servings")) {
        DemoServing& serving = sitting.servings.emplace_back();
        serving.bake = one.at("bake").get<std::string>();
        serving.taster = one.at("taster").get<std::string>();
        serving.turn = one.at("turn").get<int>();
        serving.code = one.at("code").get<int>();
        serving.scores.lines = one.at("scores").get<std::map<std::string, double>>();
        serving.scores.liking = maybe<double>(one, "liking");
        serving.scores.words = maybe<std::string>(one, "words");
    }
    return sitting;
}

DemoPlan plan_from(const Json& json) {
    if (json.at("schema").get<int>() != known_schema)
        throw std::runtime_error("its schema is not " + std::to_string(known_schema));
    DemoPlan plan;
    plan.scenario = json.value("scenario", "");
    for (const Json& flour : json.at("flours"))
        plan.flours.push_back(flour_from(flour));
    for (const Json& formula : json.at("formulas"))
        plan.formulas.push_back(formula_from(formula));
    for (const Json& bake : json.at("bakes"))
        plan.bakes.push_back(bake_from(bake));
    if (json.contains("trial")) plan.trial = trial_from(json["trial"]);
    for (const Json& sitting : json.value("sittings", Json::array()))
        plan.sittings.push_back(sitting_from(sitting));
    return plan;
}

}  // namespace

DemoPlan read_demo_plan(const std::filesystem::path& file) {
    const std::string text = read_file(file);
    try {
        return plan_from(Json::parse(text));
    } catch (const std::exception& error) {
        throw Failure("not a list of sample bakes: " + file.string() + " (" + error.what() + ")",
                      "name the folder of the sample images with --samples DIR");
    }
}

}  // namespace loafmark::commands
