#include "commands/flour_text.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "arithmetic/near_names.h"
#include "arithmetic/protein.h"
#include "cautions/cautions.h"
#include "commands/bag_text.h"
#include "commands/text.h"
#include "documents/json_values.h"
#include "documents/text_table.h"
#include "insight/typical_flours.h"

namespace loafmark::commands {
namespace {

using Json = nlohmann::ordered_json;
using Rows = std::vector<std::vector<std::string>>;

Json text_or_null(const std::optional<std::string>& text) {
    return text ? Json(*text) : Json(nullptr);
}

Json percent_or_null(std::optional<Fraction> fraction) {
    return fraction ? Json(percent(*fraction)) : Json(nullptr);
}

Json flour_json(const journal::Flour& flour) {
    Json json;
    json["id"] = flour.id.value;
    json["name"] = flour.name;
    json["grain"] = text_or_null(flour.grain);
    json["grade"] = text_or_null(flour.grade);
    json["mill"] = text_or_null(flour.mill);
    json["protein_percent"] = percent_or_null(flour.protein);
    json["protein_basis"] = nullptr;
    if (flour.protein_basis) json["protein_basis"] = basis_name(*flour.protein_basis);
    json["protein_percent_at_14_percent_moisture"] = percent_or_null(comparable_protein(flour));
    json["protein_typical_of"] = text_or_null(flour.protein_typical_of);
    json["moisture_percent"] = percent_or_null(flour.moisture);
    json["ash_percent"] = percent_or_null(flour.ash);
    json["fibre_percent"] = percent_or_null(flour.fibre);
    json["notes"] = text_or_null(flour.notes);
    return json;
}

std::string protein_text(const journal::Flour& flour) {
    if (!flour.protein) return nothing_text;
    std::string text = percent_text(flour.protein, 2);
    if (flour.protein_basis) text += " (" + std::string(basis_name(*flour.protein_basis)) + ")";
    if (flour.protein_typical_of) text += ", typical: " + *flour.protein_typical_of;
    return text;
}

std::string absorption_text(const journal::Flour& flour) {
    if (!flour.protein_typical_of) return "";
    for (const insight::TypicalFlour& typical : insight::typical_flours())
        if (*flour.protein_typical_of == typical.source) return std::string(typical.absorption);
    return "";
}

Rows facts(const journal::Flour& flour) {
    Rows rows{{"grain", or_nothing(flour.grain)},
              {"grade", or_nothing(flour.grade)},
              {"mill", or_nothing(flour.mill)},
              {"protein", protein_text(flour)}};
    if (const auto protein = comparable_protein(flour))
        rows.push_back({"to compare", percent_text(protein) + " at 14 % moisture, nitrogen x 5.7" +
                                          (flour.moisture ? "" : " (its moisture taken as 14 %)")});
    if (flour.moisture) rows.push_back({"moisture", percent_text(flour.moisture, 2)});
    if (flour.ash) rows.push_back({"ash", percent_text(flour.ash, 2)});
    if (flour.fibre) rows.push_back({"fibre", percent_text(flour.fibre)});
    if (const std::string absorbed = absorption_text(flour); !absorbed.empty())
        rows.push_back({"typical water", absorbed});
    rows.push_back({"notes", or_nothing(flour.notes)});
    return rows;
}

}  // namespace

std::optional<Fraction> comparable_protein(const journal::Flour& flour) {
    if (!flour.protein || !flour.protein_basis) return std::nullopt;
    return protein_at_14_percent_moisture(*flour.protein, *flour.protein_basis, flour.moisture);
}

std::string flour_text(const journal::Flour& flour, const std::vector<journal::Bag>& bags,
                       Date today) {
    std::string text = documents::text_table({{flour.name}, {""}}, facts(flour));
    std::vector<NamedBag> named;
    for (const journal::Bag& bag : bags)
        if (!bag.left || *bag.left != Grams(0)) named.push_back({bag, flour.name});
    if (!named.empty()) text += "\n" + bags_table(named, today);
    return text + "\n" + cautions::of_grains({flour.grain});
}

std::string flours_table(const std::vector<journal::Flour>& flours) {
    Rows rows;
    bool typical = false;
    for (const journal::Flour& flour : flours) {
        typical = typical || flour.protein_typical_of;
        rows.push_back({flour.name, or_nothing(flour.grain), or_nothing(flour.grade),
                        or_nothing(flour.mill),
                        percent_text(flour.protein) + (flour.protein_typical_of ? "*" : "")});
    }
    return documents::text_table(
               {{"flour"}, {"grain"}, {"grade"}, {"mill"}, {"protein", documents::Align::right}},
               rows) +
           (typical ? "* typical of its kind, not its own\n" : "");
}

std::string flours_document(const std::vector<journal::Flour>& flours) {
    Json document{{"schema", 1}, {"flours", Json::array()}};
    for (const journal::Flour& flour : flours)
        document["flours"].push_back(flour_json(flour));
    return documents::printed(document);
}

}  // namespace loafmark::commands
