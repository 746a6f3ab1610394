#include "documents/bakes_csv.h"

#include "documents/csv.h"
#include "documents/number_text.h"

namespace loafmark::documents {
namespace {

std::string field(const std::optional<std::string>& text) {
    return csv_text(text.value_or(""));
}
template <class Unit>
std::string field(const std::optional<Quantity<Unit>>& quantity) {
    return quantity ? short_text(quantity->count()) : "";
}
std::string field(const std::optional<Celsius>& temperature) {
    return temperature ? short_text(temperature->degrees()) : "";
}

// What is weighed of a whole loaf. The proof height stands as it was ruled, in proof_height_mm.
bool is_of_loaf(const MeasureInfo& info) {
    return info.origin == MeasureOrigin::kitchen && info.id != Measure::proof_height &&
           info.id != Measure::slice_density && info.id != Measure::crumb_density &&
           info.id != Measure::fine_pore_share;
}

std::vector<std::string> headings() {
    std::vector<std::string> all{"bake",
                                 "date",
                                 "title",
                                 "formula",
                                 "formula_version",
                                 "flours",
                                 "hydration_percent",
                                 "mixed",
                                 "leaven",
                                 "leaven_fed_before_h",
                                 "mixed_by",
                                 "folds",
                                 "handling",
                                 "handling_shaped",
                                 "held_shape",
                                 "room_temperature_c",
                                 "flour_temperature_c",
                                 "water_temperature_c",
                                 "starter_temperature_c",
                                 "dough_temperature_c",
                                 "set_aside",
                                 "notes",
                                 "loaf",
                                 "tin",
                                 "free_form",
                                 "dough_mass_g",
                                 "baked_mass_g",
                                 "weighed_after_h",
                                 "volume_ml",
                                 "length_mm",
                                 "dough_height_mm",
                                 "proof_height_mm",
                                 "dent",
                                 "scoring",
                                 "oven_place",
                                 "steam",
                                 "core_temperature_c",
                                 "proof_min",
                                 "proof_temperature_c"};
    for (const MeasureInfo& info : measure_catalogue)
        if (is_of_loaf(info)) all.emplace_back(info.key);
    return all;
}

// "Emmer 60 %; Wheat 40 %"
std::string flours_text(const journal::BakeEntry& entry) {
    std::string list;
    for (const journal::FlourShare& flour : entry.flours)
        list += (list.empty() ? "" : "; ") + flour.name + " " +
                short_text(percent(flour.share), 4) + " %";
    return list;
}

// "Emmer 600 g; Water 420 g"
std::string mixed_text(const journal::Bake& bake) {
    std::string list;
    for (const journal::MixedAmount& amount : bake.mixed)
        list += (list.empty() ? "" : "; ") + amount.name + " " +
                short_text(amount.mass.count(), 6) + " g";
    return list;
}

std::vector<std::string> bake_fields(const journal::BakeEntry& entry) {
    const journal::Bake& bake = entry.bake;
    const journal::BakeFacts& facts = bake.facts;
    return {std::to_string(bake.id.value),
            to_text(bake.date),
            csv_text(bake.title),
            csv_text(entry.formula_name),
            std::to_string(entry.formula_version),
            csv_text(flours_text(entry)),
            entry.hydration ? short_text(percent(*entry.hydration)) : "",
            csv_text(mixed_text(bake)),
            field(facts.leaven),
            field(facts.leaven_fed_before),
            field(facts.mixed_by),
            facts.folds ? std::to_string(*facts.folds) : "",
            field(bake.handling),
            field(facts.handling_shaped),
            field(facts.held_shape),
            field(bake.room_temperature),
            field(facts.flour_temperature),
            field(facts.water_temperature),
            field(facts.starter_temperature),
            field(bake.dough_temperature),
            field(bake.set_aside),
            field(bake.notes)};
}

std::vector<std::string> loaf_fields(const journal::LoafEntry& entry) {
    const journal::Loaf& loaf = entry.loaf;
    const journal::LoafFacts& facts = loaf.facts;
    std::vector<std::string> fields{std::to_string(loaf.number),
                                    field(loaf.tin),
                                    loaf.free_form ? (*loaf.free_form ? "1" : "0") : "",
                                    field(loaf.dough_mass),
                                    field(loaf.baked_mass),
                                    field(facts.weighed_after),
                                    field(facts.volume),
                                    field(facts.length),
                                    field(facts.dough_height),
                                    field(facts.proof_height),
                                    field(facts.dent),
                                    field(facts.scoring),
                                    field(facts.oven_place),
                                    field(facts.steam),
                                    field(facts.core_temperature),
                                    field(facts.proof),
                                    field(facts.proof_temperature)};
    for (const MeasureInfo& info : measure_catalogue) {
        if (!is_of_loaf(info)) continue;
        const auto found = entry.weighed.find(info.id);
        fields.push_back(found == entry.weighed.end() ? "" : short_text(found->second.value));
    }
    return fields;
}

}  // namespace

std::string bakes_csv(const std::vector<journal::BakeEntry>& bakes) {
    std::string csv = csv_row(headings());
    for (const journal::BakeEntry& bake : bakes)
        for (const journal::LoafEntry& loaf : bake.loaves) {
            std::vector<std::string> fields = bake_fields(bake);
            const std::vector<std::string> rest = loaf_fields(loaf);
            fields.insert(fields.end(), rest.begin(), rest.end());
            csv += csv_row(fields);
        }
    return csv;
}

}  // namespace loafmark::documents
