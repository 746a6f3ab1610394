#include "commands/bag_text.h"

#include <nlohmann/json.hpp>
#include <stdexcept>

#include "commands/text.h"
#include "documents/json_values.h"
#include "documents/text_table.h"

namespace loafmark::commands {
namespace {

using Json = nlohmann::ordered_json;

std::string days(int count) {
    return counted(count, "day", "days");
}

template <class T>
Json or_null(const std::optional<T>& value, auto shown) {
    return value ? Json(shown(*value)) : Json(nullptr);
}

std::string date_text(Date date) {
    return to_text(date);
}

Json bag_json(const NamedBag& named, Date today) {
    const journal::Bag& bag = named.bag;
    const auto grams = [](Grams mass) { return mass.count(); };
    const auto same = [](const std::string& text) { return text; };
    Json json{{"id", bag.id.value}, {"flour", named.flour}};
    json["lot"] = or_null(bag.lot, same);
    json["bought"] = or_null(bag.bought, date_text);
    json["milled"] = or_null(bag.milled, date_text);
    json["best_before"] = or_null(bag.best_before, date_text);
    json["opened"] = or_null(bag.opened, date_text);
    json["days_open"] = or_null(bag.opened, [&](Date day) { return days_between(day, today); });
    json["bought_grams"] = or_null(bag.bought_mass, grams);
    json["left_grams"] = or_null(bag.left, grams);
    json["protein_percent"] = or_null(bag.protein, [](Fraction part) { return percent(part); });
    json["protein_basis"] =
        or_null(bag.protein_basis, [](auto basis) { return std::string(basis_name(basis)); });
    json["price"] = or_null(bag.price, same);
    json["notes"] = or_null(bag.notes, same);
    return json;
}

}  // namespace

journal::ProteinBasis parse_basis(const std::string& text) {
    using enum journal::ProteinBasis;
    for (const auto basis : {pack_eu, pack_us, mill_14_percent_moisture, dry})
        if (text == basis_name(basis)) return basis;
    throw std::runtime_error("'" + text +
                             "' is no basis; write pack_eu, pack_us, mill_14_percent_moisture or "
                             "dry");
}

std::string bag_remarks(const journal::Bag& bag, Date today) {
    std::string text;
    const auto add = [&](const std::string& remark) {
        text += (text.empty() ? "" : ", ") + remark;
    };
    if (bag.opened) add("open for " + days(days_between(*bag.opened, today)));
    if (bag.best_before && *bag.best_before < today)
        add("best before passed " + days(days_between(*bag.best_before, today)) + " ago");
    if (bag.left && *bag.left < Grams(0)) add("below nothing: count it");
    return text;
}

std::string bags_table(const std::vector<NamedBag>& bags, Date today) {
    using documents::Align;
    std::vector<std::vector<std::string>> rows;
    for (const NamedBag& named : bags) {
        const journal::Bag& bag = named.bag;
        rows.push_back({std::to_string(bag.id.value), named.flour, or_nothing(bag.lot),
                        grams_text(bag.left, 0),
                        bag.best_before ? to_text(*bag.best_before) : nothing_text,
                        bag_remarks(bag, today)});
    }
    return documents::text_table(
        {{"bag", Align::right}, {"flour"}, {"lot"}, {"left", Align::right}, {"best before"}, {""}},
        rows);
}

std::string bags_document(const std::vector<NamedBag>& bags, Date today) {
    Json document{{"schema", 1}, {"bags", Json::array()}};
    for (const NamedBag& bag : bags)
        document["bags"].push_back(bag_json(bag, today));
    return documents::printed(document);
}

std::string overdrawn_text(const std::vector<NamedBag>& bags) {
    std::string text;
    for (const NamedBag& named : bags)
        if (named.bag.left && *named.bag.left < Grams(-0.5))
            text += "Bag " + std::to_string(named.bag.id.value) + " of '" + named.flour +
                    "' would hold " + grams_text(named.bag.left, 0) +
                    " now. Weigh it: loafmark bag edit " + std::to_string(named.bag.id.value) +
                    " --left 0g, or add the new bag: loafmark bag add '" + named.flour + "'\n";
    return text;
}

}  // namespace loafmark::commands
