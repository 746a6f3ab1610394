#include "reports/bake_section.h"

#include <array>
#include <cmath>

#include "insight/plain_numbers.h"
#include "insight/settings.h"
#include "reports/plain_words.h"
#include "reports/slice_section.h"

namespace loafmark::reports {
namespace {

using kainjow::mustache::data;

// Of journal::setting_words those that stand nowhere else in the section.
constexpr std::array<std::string_view, 10> shown_settings = {
    "leaven",   "room",      "dough temperature", "mixing",     "folds",
    "handling", "readiness", "scoring",           "oven place", "steam"};

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

// "1 h 10 min"
std::string minutes(Minutes time) {
    const long all = std::lround(time.count());
    const long hours = all / 60;
    std::string text = hours > 0 ? std::to_string(hours) + " h" : "";
    if (all % 60 > 0 || hours == 0)
        text += (hours > 0 ? " " : "") + std::to_string(all % 60) + " min";
    return text;
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
    // What else is known of how it was made, by the words that trials have for it.
    for (const std::string_view setting : shown_settings)
        if (const auto value = insight::setting_of(entry, setting))
            add_fact(facts, std::string(setting), value->text);
    if (entry.bake.notes) add_fact(facts, "notes", *entry.bake.notes);
    return facts;
}

// What went into the bowl, in grams and as shares of all flour.
data mixed_of(const journal::Bake& bake) {
    double flour = 0;
    Grams dough{0};
    for (const journal::MixedAmount& amount : bake.mixed) {
        flour += amount.mass.count() * amount.flour_fraction.count();
        dough = dough + amount.mass;
    }
    data rows{data::type::list};
    const auto add = [&](const std::string& name, Grams mass) {
        data row;
        row.set("name", name);
        row.set("grams", grams(mass));
        row.set("share", flour > 0 ? percent_text(Fraction(mass.count() / flour)) : "");
        rows.push_back(row);
    };
    for (const journal::MixedAmount& amount : bake.mixed)
        add(amount.name, amount.mass);
    if (bake.mixed.size() > 1) add("dough", dough);
    return rows;
}

data steps_of(const journal::Bake& bake) {
    data rows{data::type::list};
    for (const journal::BakeStep& step : bake.steps) {
        data row;
        row.set("step", step.step);
        row.set("began", step.began.value_or(""));
        row.set("lasted", step.lasted ? minutes(*step.lasted) : "");
        row.set("temperature", step.temperature ? degrees(*step.temperature) : "");
        rows.push_back(row);
    }
    return rows;
}

}  // namespace

data bake_data(const journal::BakeEntry& entry,
               const std::map<journal::SliceId, SlicePictures>& pictures, const Usuals& usuals) {
    data bake;
    bake.set("bake_id", std::to_string(entry.bake.id.value));
    bake.set("date", long_date(entry.bake.date));
    bake.set("bake_title", entry.bake.title);
    bake.set("is_set_aside", entry.bake.set_aside.has_value());
    bake.set("set_aside_reason", entry.bake.set_aside.value_or(""));
    bake.set("facts", facts_of(entry));
    data mixed = mixed_of(entry.bake);
    bake.set("has_mixed", mixed.is_non_empty_list());
    bake.set("mixed", mixed);
    data steps = steps_of(entry.bake);
    bake.set("has_steps", steps.is_non_empty_list());
    bake.set("steps", steps);
    data slices{data::type::list};
    const SlicePictures none;
    for (const journal::LoafEntry& loaf : entry.loaves)
        for (const journal::SliceEntry& slice : loaf.slices) {
            const auto found = pictures.find(slice.slice.id);
            slices.push_back(slice_data(entry, loaf.loaf, slice,
                                        found == pictures.end() ? none : found->second, usuals));
        }
    bake.set("bake_slices", slices);
    return bake;
}

}  // namespace loafmark::reports
