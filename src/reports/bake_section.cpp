#include "reports/bake_section.h"

#include "insight/plain_numbers.h"
#include "reports/plain_words.h"
#include "reports/slice_section.h"

namespace loafmark::reports {
namespace {

using kainjow::mustache::data;

void add_fact(data& facts, const std::string& name, const std::string& value) {
    data fact;
    fact.set("name", name);
    fact.set("value", value);
    facts.push_back(fact);
}

std::string grams(Grams mass) {
    return insight::fixed_text(mass.count(), 0) + " g";
}

std::string degrees(Celsius temperature) {
    return insight::fixed_text(temperature.degrees(), 1) + " \u00b0C";
}

std::string loaf_text(const journal::Loaf& loaf) {
    std::string text;
    const auto add = [&](const std::string& part) {
        if (!text.empty()) text += ", ";
        text += part;
    };
    if (loaf.tin)
        add(*loaf.tin);
    else if (loaf.free_form.value_or(false))
        add("free-form");
    if (loaf.dough_mass) add(grams(*loaf.dough_mass) + " of dough");
    if (loaf.baked_mass) add(grams(*loaf.baked_mass) + " baked");
    return text;
}

data facts_of(const journal::BakeEntry& entry) {
    data facts{data::type::list};
    add_fact(facts, "flour", flours_text(entry.flours));
    add_fact(facts, "water", entry.hydration ? percent_text(*entry.hydration) : "not noted");
    if (!entry.formula_name.empty())
        add_fact(facts, "formula",
                 entry.formula_version > 1
                     ? entry.formula_name + ", version " + std::to_string(entry.formula_version)
                     : entry.formula_name);
    for (const journal::LoafEntry& loaf : entry.loaves) {
        const std::string text = loaf_text(loaf.loaf);
        const bool several = entry.loaves.size() > 1;
        if (!text.empty())
            add_fact(
                facts,
                several ? std::string("loaf ").append(std::to_string(loaf.loaf.number)) : "loaf",
                text);
    }
    const journal::Bake& bake = entry.bake;
    if (bake.room_temperature) add_fact(facts, "room", degrees(*bake.room_temperature));
    if (bake.dough_temperature) add_fact(facts, "dough", degrees(*bake.dough_temperature));
    if (bake.handling) add_fact(facts, "handling", *bake.handling);
    if (bake.notes) add_fact(facts, "notes", *bake.notes);
    return facts;
}

}  // namespace

data bake_data(const journal::BakeEntry& entry,
               const std::map<journal::SliceId, SlicePictures>& pictures) {
    data bake;
    bake.set("bake_id", std::to_string(entry.bake.id.value));
    bake.set("date", long_date(entry.bake.date));
    bake.set("bake_title", entry.bake.title);
    bake.set("is_set_aside", entry.bake.set_aside.has_value());
    bake.set("set_aside_reason", entry.bake.set_aside.value_or(""));
    bake.set("facts", facts_of(entry));
    data slices{data::type::list};
    const SlicePictures none;
    for (const journal::LoafEntry& loaf : entry.loaves)
        for (const journal::SliceEntry& slice : loaf.slices) {
            const auto found = pictures.find(slice.slice.id);
            slices.push_back(slice_data(entry, loaf.loaf, slice,
                                        found == pictures.end() ? none : found->second));
        }
    bake.set("bake_slices", slices);
    return bake;
}

}  // namespace loafmark::reports
