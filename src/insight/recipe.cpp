#include "insight/recipe.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "insight/plain_numbers.h"

namespace loafmark::insight {
namespace {

constexpr double degrees_that_matter = 1.5;
// Half a percentage point of water is a rounding of the scales; less is no difference.
constexpr double water_that_matters = 0.25;

std::string flours(const journal::BakeEntry& bake) {
    std::string text;
    for (const journal::FlourShare& flour : bake.flours) {
        if (!text.empty()) text += " and ";
        if (bake.flours.size() > 1) text += fixed_text(percent(flour.share), 0) + " % ";
        text += flour.name;
    }
    return text.empty() ? "flour not noted" : text;
}

std::string pair_text(const std::string& what, const std::string& a, const std::string& b) {
    return what + " (" + a + ", " + b + ")";
}

std::optional<std::string> tin_of(const journal::BakeEntry& bake) {
    if (bake.loaves.empty()) return std::nullopt;
    const journal::Loaf& loaf = bake.loaves.front().loaf;
    if (loaf.tin) return loaf.tin;
    if (loaf.free_form.value_or(false)) return "free-form";
    return std::nullopt;
}

void add_temperature(std::vector<std::string>& list, const std::string& what,
                     const std::optional<Celsius>& a, const std::optional<Celsius>& b) {
    if (!a || !b || std::abs(a->degrees() - b->degrees()) < degrees_that_matter) return;
    list.push_back(pair_text(what, fixed_text(a->degrees(), 1) + " \u00b0C",
                             fixed_text(b->degrees(), 1) + " \u00b0C"));
}

void add_mass(std::vector<std::string>& list, const journal::BakeEntry& a,
              const journal::BakeEntry& b) {
    const auto first = loaf_dough(a);
    const auto second = loaf_dough(b);
    if (!first || !second) return;
    const double larger = std::max(first->count(), second->count());
    if (std::abs(first->count() - second->count()) <= mass_that_matters * larger) return;
    list.push_back(pair_text("dough mass", fixed_text(first->count(), 0) + " g",
                             fixed_text(second->count(), 0) + " g"));
}

}  // namespace

Recipe recipe_of(const journal::BakeEntry& bake) {
    Recipe recipe;
    recipe.formula_version = bake.bake.formula_version.value;
    if (bake.hydration)
        recipe.water_halves = static_cast<int>(std::lround(2 * percent(*bake.hydration)));
    for (const journal::FlourShare& flour : bake.flours)
        recipe.flour_shares.emplace_back(flour.flour.value,
                                         static_cast<int>(std::lround(percent(flour.share))));
    std::ranges::sort(recipe.flour_shares);
    return recipe;
}

std::string recipe_words(const journal::BakeEntry& bake) {
    std::string text = flours(bake);
    if (bake.hydration) text += ", " + fixed_text(percent(*bake.hydration), 0) + " % water";
    return text;
}

std::optional<Grams> loaf_dough(const journal::BakeEntry& bake) {
    double sum = 0;
    int count = 0;
    for (const journal::LoafEntry& loaf : bake.loaves)
        if (loaf.loaf.dough_mass) {
            sum += loaf.loaf.dough_mass->count();
            ++count;
        }
    return count > 0 ? std::optional(Grams(sum / count)) : std::nullopt;
}

std::vector<std::string> differences(const journal::BakeEntry& a, const journal::BakeEntry& b) {
    std::vector<std::string> list;
    if (recipe_of(a).flour_shares != recipe_of(b).flour_shares)
        list.push_back(pair_text("flour", flours(a), flours(b)));
    if (a.hydration && b.hydration &&
        std::abs(percent(*a.hydration) - percent(*b.hydration)) > water_that_matters)
        list.push_back(pair_text("water", fixed_text(percent(*a.hydration), 1) + " %",
                                 fixed_text(percent(*b.hydration), 1) + " %"));
    const auto tin_a = tin_of(a);
    const auto tin_b = tin_of(b);
    if (tin_a && tin_b && *tin_a != *tin_b) list.push_back(pair_text("tin", *tin_a, *tin_b));
    add_mass(list, a, b);
    add_temperature(list, "room", a.bake.room_temperature, b.bake.room_temperature);
    add_temperature(list, "dough temperature", a.bake.dough_temperature, b.bake.dough_temperature);
    if (a.bake.handling && b.bake.handling && *a.bake.handling != *b.bake.handling)
        list.push_back(pair_text("handling", *a.bake.handling, *b.bake.handling));
    return list;
}

}  // namespace loafmark::insight
