#include "insight/steadiness.h"

#include <array>
#include <cmath>
#include <map>

#include "insight/plain_numbers.h"
#include "insight/proof.h"
#include "insight/recipe.h"

namespace loafmark::insight {
namespace {

using statistics::Repeatability;

struct LayerWords {
    const char* name;
    const char* in_short;
    const char* why_none;
};
constexpr std::array layer_words{
    LayerWords{"between days", "days", "no recipe was baked on two days"},
    LayerWords{"between doughs of a day", "doughs", "no recipe has two doughs of one day"},
    LayerWords{"between loaves of a dough", "loaves", "no dough has two loaves measured"},
    LayerWords{"between slices of a loaf", "slices", "no loaf has two slices measured"}};

using ByRecipe = std::map<Recipe, std::map<Date, std::vector<double>>>;

ByRecipe bakes_by_recipe(const std::vector<journal::BakeEntry>& bakes, Measure measure,
                         EndSlices ends) {
    ByRecipe sets;
    for (const journal::BakeEntry& bake : bakes) {
        if (bake.bake.set_aside) continue;
        if (const auto mean = bake_mean(bake, measure, ends))
            sets[recipe_of(bake)][bake.bake.date].push_back(mean->value);
    }
    return sets;
}

std::optional<Repeatability> on_one_day(const ByRecipe& recipes) {
    std::vector<std::vector<double>> sets;
    for (const auto& [recipe, days] : recipes)
        for (const auto& [day, values] : days)
            sets.push_back(values);
    return statistics::pooled_repeatability(sets);
}

std::optional<Repeatability> over_days(const ByRecipe& recipes) {
    std::vector<std::vector<double>> sets;
    for (const auto& [recipe, days] : recipes) {
        std::vector<double> first_of_day;
        for (const auto& [day, values] : days)
            first_of_day.push_back(values.front());
        sets.push_back(first_of_day);
    }
    return statistics::pooled_repeatability(sets);
}

// Every slice with its recipe, day, dough and loaf.
std::vector<statistics::NestedValue> slices_of(const std::vector<journal::BakeEntry>& bakes,
                                               Measure measure, EndSlices ends) {
    std::map<Recipe, int> recipes;
    std::vector<statistics::NestedValue> values;
    for (const journal::BakeEntry& bake : bakes) {
        if (bake.bake.set_aside) continue;
        const int recipe =
            recipes.try_emplace(recipe_of(bake), static_cast<int>(recipes.size())).first->second;
        const int day = days_between(Date{1970, 1, 1}, bake.bake.date);
        for (const journal::LoafEntry& loaf : bake.loaves) {
            if (proof_of(bake, loaf.loaf) != proof_of(bake, bake.loaves.front().loaf)) continue;
            for (const double value : slice_values(loaf, measure, ends))
                values.push_back({{recipe, day, static_cast<int>(bake.bake.id.value),
                                   static_cast<int>(loaf.loaf.id.value)},
                                  value});
        }
    }
    return values;
}

ScatterLayer layer_of(std::size_t index, const statistics::VarianceComponent& part) {
    ScatterLayer layer;
    layer.name = layer_words.at(index).name;
    layer.degrees_of_freedom = part.degrees_of_freedom;
    layer.holds_inner = part.holds_inner;
    layer.below_zero = part.below_zero;
    for (int inner = 1; inner <= part.holds_inner; ++inner)
        layer.held_within.emplace_back(
            layer_words.at(index + static_cast<std::size_t>(inner)).in_short);
    if (!part.variance) layer.why_none = layer_words.at(index).why_none;
    if (part.variance) layer.sd = std::sqrt(*part.variance);
    if (part.interval)
        layer.interval = {std::sqrt(part.interval->low), std::sqrt(part.interval->high)};
    return layer;
}

std::string with_unit(double value, Measure measure) {
    const MeasureInfo& info = info_of(measure);
    std::string text = fixed_text(value, info.decimals);
    if (!info.unit.empty()) text.append(" ").append(info.unit);
    return text;
}

}  // namespace

Steadiness steadiness_of(const std::vector<journal::BakeEntry>& bakes, Measure measure,
                         EndSlices ends) {
    Steadiness result;
    result.measure = measure;
    const ByRecipe recipes = bakes_by_recipe(bakes, measure, ends);
    result.same_day = on_one_day(recipes);
    result.any_day = over_days(recipes);
    const auto slices = slices_of(bakes, measure, ends);
    if (slices.empty()) return result;
    // The outermost part, between recipes, is no scatter.
    const auto parts = statistics::variance_components(slices);
    for (std::size_t i = 1; i < parts.size(); ++i)
        result.layers.push_back(layer_of(i - 1, parts[i]));
    return result;
}

std::optional<Repeatability> judge_of(const Steadiness& steadiness, bool same_day) {
    if (same_day && steadiness.same_day && steadiness.same_day->limit()) return steadiness.same_day;
    if (steadiness.any_day && steadiness.any_day->limit()) return steadiness.any_day;
    return std::nullopt;
}

std::string steadiness_sentence(const Steadiness& steadiness, bool same_day) {
    const auto judge = judge_of(steadiness, same_day);
    if (judge)
        return "two single bakes of one recipe differ in " +
               std::string(info_of(steadiness.measure).name) + " by up to " +
               with_unit(*judge->limit(), steadiness.measure) +
               " by chance (95 %; repeats scatter by " + with_unit(judge->sd, steadiness.measure) +
               ", " + std::to_string(judge->degrees_of_freedom) + " df)";
    const int had =
        std::max(steadiness.any_day ? steadiness.any_day->degrees_of_freedom : 0,
                 same_day && steadiness.same_day ? steadiness.same_day->degrees_of_freedom : 0);
    const int wanted = statistics::least_degrees_to_judge - had;
    return "no one can tell yet how far two bakes of one recipe differ in " +
           std::string(info_of(steadiness.measure).name) +
           " by chance: the journal's repeats give " + std::to_string(had) +
           " df, and 3 are wanted; bake one recipe, best the control, " +
           std::to_string(had == 0 ? wanted + 1 : wanted) +
           (had == 0      ? " times"
            : wanted == 1 ? " more time"
                          : " more times") +
           (had == 0 ? ", each on its own day" : ", on another day each");
}

}  // namespace loafmark::insight
