#include "commands/ingredients.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "arithmetic/near_names.h"
#include "arithmetic/quantities.h"
#include "commands/failure.h"
#include "commands/messages.h"
#include "commands/text.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

constexpr double flour_sum_tolerance = 0.0005;  // 33.3 % three times is meant as all of it

struct NameAndRest {
    std::string name;
    std::string rest;
};

std::string trimmed(const std::string& text) {
    const auto first = text.find_first_not_of(' ');
    if (first == std::string::npos) return "";
    return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

NameAndRest parted(const std::string& text, const std::string& example) {
    const auto sign = text.rfind('=');
    const std::string name = sign == std::string::npos ? "" : trimmed(text.substr(0, sign));
    if (name.empty())
        throw std::runtime_error("'" + text + "' names no ingredient; write it as " + example);
    return {name, text.substr(sign + 1)};
}

journal::FlourId flour_id(const std::string& name, const journal::Journal& journal) {
    try {
        return journal.flour(name).id;
    } catch (const journal::NotFound& error) {
        const std::string near = did_you_mean(error.suggestions());
        const std::string add = "loafmark flour add '" + name + "'";
        throw Failure(error.what(), near.empty() ? "add it: " + add : near + " Or add it: " + add);
    }
}

std::string flour_sum_text(const Recipe& recipe, Fraction in_starter) {
    std::string text;
    for (const NamedShare& flour : recipe.flours)
        text += (text.empty() ? "" : ", ") + flour.name + " " + percent_text(flour.share, 2);
    if (recipe.starter)
        text +=
            std::string(text.empty() ? "" : ", ") + "in the starter " + percent_text(in_starter, 2);
    return text;
}

void check_flour_sum(const Recipe& recipe) {
    const Fraction in_starter =
        recipe.starter
            ? *recipe.starter * starter_fractions(recipe.starter_hydration).flour_fraction.count()
            : Fraction(0);
    Fraction sum = in_starter;
    for (const NamedShare& flour : recipe.flours)
        sum = sum + flour.share;
    if (std::abs(sum.count() - 1) <= flour_sum_tolerance) return;
    throw UsageError("the flours add to " + percent_text(sum, 2) + " (" +
                         flour_sum_text(recipe, in_starter) + ")",
                     "all flour, the starter's included, must add to 100 %");
}

journal::Ingredient starter_of(const Recipe& recipe, const journal::Journal& journal) {
    if (!recipe.starter_flour && recipe.flours.size() != 1)
        throw UsageError("which flour is the starter fed with?",
                         "name it with --starter-flour NAME");
    const std::string fed_with =
        recipe.starter_flour ? *recipe.starter_flour : recipe.flours.front().name;
    const StarterFractions fractions = starter_fractions(recipe.starter_hydration);
    return {.kind = IngredientKind::leaven,
            .name = "starter",
            .flour = flour_id(fed_with, journal),
            .share = *recipe.starter,
            .water_fraction = fractions.water_fraction,
            .flour_fraction = fractions.flour_fraction,
            .stage = "dough"};
}

// Liquids that are not all water, as USDA's tables have them (SR Legacy): milk 88 %, whole egg 76
// %, butter 16 %. What the baker says goes before.
struct UsualWater {
    std::string_view name;
    double water;
};
constexpr std::array usual_waters{UsualWater{"milk", 0.88}, UsualWater{"egg", 0.76},
                                  UsualWater{"eggs", 0.76}, UsualWater{"butter", 0.16}};

Fraction water_in(const std::string& name, const Recipe& recipe) {
    for (const NamedShare& known : recipe.water_in)
        if (folded(known.name) == folded(name)) return known.share;
    const auto usual = std::ranges::find(usual_waters, folded(name), &UsualWater::name);
    return Fraction(usual == usual_waters.end() ? 0 : usual->water);
}

void check_water_in(const Recipe& recipe) {
    for (const NamedShare& water : recipe.water_in) {
        const auto is_meant = [&](const NamedShare& other) {
            return folded(other.name) == folded(water.name);
        };
        if (std::ranges::none_of(recipe.others, is_meant) &&
            std::ranges::none_of(recipe.soaker, is_meant))
            throw UsageError("--water-in names '" + water.name + "', which no --other does",
                             "write --other '" + water.name + "=20%' besides");
        if (water.share > Fraction(1))
            throw UsageError("--water-in '" + water.name + "' is more than 100 %",
                             "give the water in it per its own mass, such as milk=87%");
    }
}

journal::Ingredient plain(IngredientKind kind, const std::string& name, Fraction share,
                          Fraction water = Fraction(0)) {
    return {.kind = kind,
            .name = name,
            .flour = std::nullopt,
            .share = share,
            .water_fraction = water,
            .flour_fraction = Fraction(0),
            .stage = "dough"};
}

void add_soaker(const Recipe& recipe, std::vector<journal::Ingredient>& ingredients) {
    for (const NamedShare& soaked : recipe.soaker) {
        const bool is_water = folded(soaked.name) == "water";
        ingredients.push_back(plain(is_water ? IngredientKind::water : IngredientKind::other,
                                    is_water ? "soaker water" : soaked.name, soaked.share,
                                    is_water ? Fraction(1) : water_in(soaked.name, recipe)));
        ingredients.back().stage = "soaker";
    }
}

// Three thirds written as 33.3 % are meant as all of the flour.
std::vector<journal::Ingredient> with_flour_of_exactly_one(
    std::vector<journal::Ingredient> ingredients) {
    const std::vector<DoughPart> parts = as_shares_of_all_flour(journal::parts_of(ingredients));
    for (std::size_t i = 0; i < parts.size(); ++i)
        ingredients[i].share = parts[i].share;
    return ingredients;
}

}  // namespace

NamedShare parse_named_share(const std::string& text) {
    const NameAndRest parts = parted(text, "'NAME=70%'");
    return {parts.name, parse_percentage(parts.rest)};
}

NamedMass parse_named_mass(const std::string& text) {
    const NameAndRest parts = parted(text, "water=335g");
    return {parts.name, parse_mass(parts.rest)};
}

NamedShare parse_leaven(const std::string& text) {
    if (text.find('=') == std::string::npos) return {"yeast", parse_percentage(text)};
    return parse_named_share(text);
}

std::vector<journal::Ingredient> ingredients_of(const Recipe& recipe,
                                                const journal::Journal& journal) {
    check_flour_sum(recipe);
    check_water_in(recipe);
    std::vector<journal::Ingredient> ingredients;
    for (const NamedShare& flour : recipe.flours) {
        journal::Ingredient ingredient = plain(IngredientKind::flour, flour.name, flour.share);
        ingredient.flour = flour_id(flour.name, journal);
        ingredient.name = journal.flour(*ingredient.flour).name;
        ingredient.flour_fraction = Fraction(1);
        ingredients.push_back(ingredient);
    }
    add_soaker(recipe, ingredients);
    if (recipe.water)
        ingredients.push_back(plain(IngredientKind::water, "water", *recipe.water, Fraction(1)));
    if (recipe.starter) ingredients.push_back(starter_of(recipe, journal));
    for (const NamedShare& leaven : recipe.leavens)
        ingredients.push_back(plain(IngredientKind::leaven, leaven.name, leaven.share));
    if (recipe.salt) ingredients.push_back(plain(IngredientKind::salt, "salt", *recipe.salt));
    for (const NamedShare& other : recipe.others)
        ingredients.push_back(
            plain(IngredientKind::other, other.name, other.share, water_in(other.name, recipe)));
    return with_flour_of_exactly_one(std::move(ingredients));
}

}  // namespace loafmark::commands
