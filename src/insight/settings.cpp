#include "insight/settings.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <stdexcept>

#include "arithmetic/quantities.h"
#include "insight/plain_numbers.h"
#include "insight/proof.h"
#include "insight/recipe.h"

namespace loafmark::insight {
namespace {

using journal::BakeEntry;
using Found = std::optional<Setting>;

Found numbered(std::optional<double> number, int decimals, const std::string& unit) {
    if (!number) return std::nullopt;
    return Setting{fixed_text(*number, decimals) + unit, number};
}

Found degrees(const std::optional<Celsius>& temperature) {
    return numbered(temperature ? std::optional(temperature->degrees()) : std::nullopt, 1,
                    " \u00b0C");
}

Found word(const std::optional<std::string>& text) {
    return text ? Found(Setting{*text, {}}) : std::nullopt;
}

// What the loaves have, in their order, each once.
template <class Get>
Found word_of_loaves(const BakeEntry& bake, Get get) {
    std::vector<std::string> words;
    for (const journal::LoafEntry& loaf : bake.loaves) {
        const std::optional<std::string> one = get(loaf.loaf);
        if (one && std::ranges::find(words, *one) == words.end()) words.push_back(*one);
    }
    std::ranges::sort(words);
    std::string text;
    for (const std::string& one : words)
        text += (text.empty() ? "" : ", ") + one;
    return text.empty() ? std::nullopt : Found(Setting{text, {}});
}

std::optional<std::string> tin_of(const journal::Loaf& loaf) {
    if (loaf.tin) return loaf.tin;
    return loaf.free_form.value_or(false) ? std::optional<std::string>("free-form") : std::nullopt;
}

Found flour_of(const BakeEntry& bake) {
    std::string text;
    for (const journal::FlourShare& flour : bake.flours) {
        text += text.empty() ? "" : " and ";
        if (bake.flours.size() > 1) text += fixed_text(percent(flour.share), 0) + " % ";
        text += flour.name;
    }
    return text.empty() ? std::nullopt : Found(Setting{text, {}});
}

// Of all flour, in percent.
Found share_of(const BakeEntry& bake, IngredientKind kind) {
    double flour = 0;
    double mass = 0;
    for (const journal::MixedAmount& amount : bake.bake.mixed) {
        flour += amount.mass.count() * amount.flour_fraction.count();
        if (amount.kind == kind) mass += amount.mass.count();
    }
    if (!(flour > 0)) return std::nullopt;
    return numbered(100 * mass / flour, 2, " %");
}

// All steps of that name together.
Found lasted(const BakeEntry& bake, std::string_view step) {
    std::optional<double> minutes;
    for (const journal::BakeStep& one : bake.bake.steps)
        if (one.step == step && one.lasted) minutes = minutes.value_or(0) + one.lasted->count();
    if (!minutes) return std::nullopt;
    return Setting{to_text(Minutes(std::round(*minutes))), minutes};
}

// Of several loaves the mean.
Found proof_time(const BakeEntry& bake) {
    double minutes = 0;
    int loaves = 0;
    for (const journal::LoafEntry& loaf : bake.loaves)
        if (const auto proof = proof_of(bake, loaf.loaf)) {
            minutes += proof->lasted.count();
            ++loaves;
        }
    if (loaves == 0) return lasted(bake, "final proof");
    minutes /= loaves;
    return Setting{to_text(Minutes(std::round(minutes))), minutes};
}

Found oven_temperature(const BakeEntry& bake) {
    for (const journal::BakeStep& step : bake.bake.steps)
        if (step.step == "bake" && step.temperature) return degrees(step.temperature);
    return std::nullopt;
}

Found dough_of(const BakeEntry& bake) {
    const auto mass = loaf_dough(bake);
    return numbered(mass ? std::optional(mass->count()) : std::nullopt, 0, " g");
}

Found folds_of(const BakeEntry& bake) {
    const auto folds = bake.bake.facts.folds;
    return numbered(folds ? std::optional<double>(*folds) : std::nullopt, 0, "");
}

Found water_of(const BakeEntry& bake) {
    return numbered(bake.hydration ? std::optional(percent(*bake.hydration)) : std::nullopt, 1,
                    " %");
}

using Look = std::function<Found(const BakeEntry&)>;

const std::map<std::string_view, Look>& looks() {
    static const std::map<std::string_view, Look> all{
        {"flour", flour_of},
        {"water", water_of},
        {"salt", [](const BakeEntry& b) { return share_of(b, IngredientKind::salt); }},
        {"leaven", [](const BakeEntry& b) { return word(b.bake.facts.leaven); }},
        {"leaven amount", [](const BakeEntry& b) { return share_of(b, IngredientKind::leaven); }},
        {"tin", [](const BakeEntry& b) { return word_of_loaves(b, tin_of); }},
        {"dough mass", dough_of},
        {"room", [](const BakeEntry& b) { return degrees(b.bake.room_temperature); }},
        {"dough temperature", [](const BakeEntry& b) { return degrees(b.bake.dough_temperature); }},
        {"mixing", [](const BakeEntry& b) { return word(b.bake.facts.mixed_by); }},
        {"folds", folds_of},
        {"handling", [](const BakeEntry& b) { return word(b.bake.handling); }},
        {"bulk", [](const BakeEntry& b) { return lasted(b, "bulk fermentation"); }},
        {"proof", proof_time},
        {"readiness",
         [](const BakeEntry& b) {
             return word_of_loaves(b, [](const journal::Loaf& l) { return l.facts.dent; });
         }},
        {"scoring",
         [](const BakeEntry& b) {
             return word_of_loaves(b, [](const journal::Loaf& l) { return l.facts.scoring; });
         }},
        {"oven place",
         [](const BakeEntry& b) {
             return word_of_loaves(b, [](const journal::Loaf& l) { return l.facts.oven_place; });
         }},
        {"steam",
         [](const BakeEntry& b) {
             return word_of_loaves(b, [](const journal::Loaf& l) { return l.facts.steam; });
         }},
        {"oven temperature", oven_temperature},
        {"bake time", [](const BakeEntry& b) { return lasted(b, "bake"); }},
    };
    return all;
}

double play_of(double larger, std::string_view name) {
    if (name == "water") return 0.5;
    if (name == "salt") return 0.1;
    if (name == "leaven amount") return 0.05 * larger;
    if (name == "dough mass") return 0.02 * larger;
    if (name == "room" || name == "dough temperature") return 1.5;
    if (name == "oven temperature") return 5;
    if (name == "folds") return 0.5;
    return std::max(2.0, 0.1 * larger);
}

}  // namespace

Found setting_of(const BakeEntry& bake, std::string_view name) {
    const auto look = looks().find(name);
    if (look == looks().end())
        throw std::invalid_argument("no setting is called '" + std::string(name) + "'");
    return look->second(bake);
}

bool differ(const Setting& a, const Setting& b, std::string_view name) {
    if (!a.number || !b.number) return a.text != b.text;
    return std::abs(*a.number - *b.number) > play_of(std::max(*a.number, *b.number), name) + 1e-9;
}

}  // namespace loafmark::insight
