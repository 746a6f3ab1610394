#include "commands/formula_text.h"

#include <nlohmann/json.hpp>

#include "commands/text.h"
#include "documents/json_values.h"
#include "documents/text_table.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

using Json = nlohmann::ordered_json;
using documents::Align;

// Two decimals for salt and yeast, where a tenth of a percent matters.
constexpr int share_decimals = 2;

std::vector<Grams> rounded(const std::vector<journal::MixedAmount>& amounts, Grams step) {
    std::vector<Grams> masses;
    for (const journal::MixedAmount& amount : amounts)
        masses.push_back(amount.mass);
    return rounded_to_step(masses, step);
}

Grams sum_of(const std::vector<Grams>& masses) {
    Grams sum{0};
    for (const Grams mass : masses)
        sum = sum + mass;
    return sum;
}

Json ingredient_json(const journal::Ingredient& ingredient) {
    return {{"kind", kind_name(ingredient.kind)},
            {"name", ingredient.name},
            {"stage", ingredient.stage},
            {"percent", percent(ingredient.share)},
            {"water_percent", percent(ingredient.water_fraction)},
            {"flour_percent", percent(ingredient.flour_fraction)}};
}

Json formula_json(const journal::FormulaVersion& formula) {
    Json json{{"name", formula.name}, {"version", formula.version}};
    json["hydration_percent"] = nullptr;
    if (const auto figures = figures_of(journal::parts_of(formula.ingredients)))
        json["hydration_percent"] = percent(figures->hydration);
    json["ingredients"] = Json::array();
    for (const auto& ingredient : formula.ingredients)
        json["ingredients"].push_back(ingredient_json(ingredient));
    return json;
}

}  // namespace

std::string formula_text(const journal::FormulaVersion& formula) {
    std::vector<std::vector<std::string>> rows;
    for (const journal::Ingredient& ingredient : formula.ingredients)
        rows.push_back({ingredient.stage == "dough"
                            ? ingredient.name
                            : ingredient.name + " (" + ingredient.stage + ")",
                        percent_text(ingredient.share, share_decimals)});
    std::string text =
        formula.name + ", version " + std::to_string(formula.version) + "\n" +
        documents::text_table({{"ingredient"}, {"of all flour", Align::right}}, rows) + "\n";
    if (const auto figures = figures_of(journal::parts_of(formula.ingredients))) {
        std::vector<std::vector<std::string>> facts{
            {"hydration", percent_text(figures->hydration)}};
        if (figures->prefermented_flour > Fraction(0)) {
            facts.push_back({"flour in the starter", percent_text(figures->prefermented_flour)});
            facts.push_back(
                {"on the flour in the bowl alone", percent_text(figures->bowl_hydration)});
        }
        facts.push_back({"salt", percent_text(figures->salt, share_decimals)});
        facts.push_back({"dough", percent_text(figures->total)});
        text += documents::text_table({{"from these"}, {"", Align::right}}, facts);
    }
    return formula.notes ? text + "\n" + *formula.notes + "\n" : text;
}

std::string formulas_document(const std::vector<journal::FormulaVersion>& formulas) {
    Json document{{"schema", 1}, {"formulas", Json::array()}};
    for (const auto& formula : formulas)
        document["formulas"].push_back(formula_json(formula));
    return documents::printed(document);
}

std::string amounts_text(const std::vector<journal::MixedAmount>& amounts, Grams step) {
    const std::vector<Grams> masses = rounded(amounts, step);
    std::vector<std::vector<std::string>> rows;
    for (std::size_t i = 0; i < amounts.size(); ++i)
        rows.push_back({amounts[i].name, grams_text(masses[i], share_decimals)});
    rows.push_back({"dough", grams_text(sum_of(masses), share_decimals)});
    return documents::text_table({{"ingredient"}, {"weigh", Align::right}}, rows);
}

std::string amounts_document(const journal::FormulaVersion& formula,
                             const std::vector<journal::MixedAmount>& amounts, Grams step) {
    const std::vector<Grams> masses = rounded(amounts, step);
    Json document{{"schema", 1}, {"formula", formula.name}, {"version", formula.version}};
    document["amounts"] = Json::array();
    for (std::size_t i = 0; i < amounts.size(); ++i)
        document["amounts"].push_back({{"kind", kind_name(amounts[i].kind)},
                                       {"name", amounts[i].name},
                                       {"grams", amounts[i].mass.count()},
                                       {"weigh_grams", masses[i].count()}});
    document["dough_grams"] = sum_of(masses).count();
    return documents::printed(document);
}

std::string hydration_text(const std::vector<journal::Ingredient>& ingredients) {
    const auto figures = figures_of(journal::parts_of(ingredients));
    return figures ? percent_text(figures->hydration) : nothing_text;
}

}  // namespace loafmark::commands
