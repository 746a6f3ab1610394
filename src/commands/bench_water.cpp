#include "commands/bench_water.h"

#include <algorithm>

#include "statistics/quantiles.h"

namespace loafmark::commands {
namespace {

bool is_starter(const auto& part) {
    return part.kind == IngredientKind::leaven && part.flour_fraction > Fraction(0);
}

// Flour and starter lie in the room unless the bake says otherwise.
std::optional<FrictionKelvins> friction_in(const journal::Bake& bake, bool with_starter) {
    if (!bake.room_temperature || !bake.dough_temperature || !bake.facts.water_temperature)
        return std::nullopt;
    BowlTemperatures bowl{.flour = bake.facts.flour_temperature.value_or(*bake.room_temperature),
                          .room = *bake.room_temperature,
                          .starter = std::nullopt};
    if (with_starter)
        bowl.starter = bake.facts.starter_temperature.value_or(*bake.room_temperature);
    return friction_of(*bake.dough_temperature, bowl, *bake.facts.water_temperature);
}

std::string friction_text(const WaterQuestion& question,
                          const std::optional<LearntFriction>& learnt) {
    if (question.friction)
        return "mixing taken as " + kelvins_text(question.friction->count(), question.degrees);
    if (learnt)
        return "mixing adds " + kelvins_text(learnt->friction.count(), question.degrees) +
               " by your " + counted(learnt->bakes, "bake", "bakes");
    return "what mixing adds is not known yet and left out, so the dough will come out warmer; "
           "note --room, --water-temperature and --dough-temperature of bakes";
}

std::string cold_text(const WaterQuestion& question, Grams water, Celsius needed) {
    if (!question.tap) return "";
    const auto ice = ice_for(water, needed, *question.tap);
    if (!ice) return "";
    if (*ice > water)
        return "Ice alone would not make it so cold: cool the flour, or take a cooler dough.\n";
    return "That is " + grams_text(*ice, 0) + " of ice and " + grams_text(water - *ice, 0) +
           " of tap water.\n";
}

}  // namespace

std::optional<LearntFriction> learnt_friction(const std::vector<journal::BakeEntry>& bakes,
                                              bool with_starter,
                                              const std::optional<std::string>& mixed_by) {
    std::vector<double> kelvins;
    for (const journal::BakeEntry& entry : bakes) {
        const journal::Bake& bake = entry.bake;
        const bool starter =
            std::ranges::any_of(bake.mixed, [](const auto& part) { return is_starter(part); });
        if (bake.set_aside || starter != with_starter) continue;
        if (mixed_by && bake.facts.mixed_by != mixed_by) continue;
        if (const auto friction = friction_in(bake, with_starter))
            kelvins.push_back(friction->count());
    }
    const auto middle = statistics::median(kelvins);
    if (!middle) return std::nullopt;
    return LearntFriction{FrictionKelvins(*middle), static_cast<int>(kelvins.size())};
}

std::string water_text(const WaterQuestion& question, const journal::FormulaVersion& formula,
                       const std::vector<Grams>& masses,
                       const std::vector<journal::BakeEntry>& bakes) {
    bool with_starter = false;
    Grams water{0};
    for (std::size_t i = 0; i < masses.size(); ++i) {
        with_starter = with_starter || is_starter(formula.ingredients[i]);
        if (formula.ingredients[i].kind == IngredientKind::water &&
            formula.ingredients[i].stage == "dough")
            water = water + masses[i];
    }
    BowlTemperatures bowl{.flour = question.flour.value_or(question.room),
                          .room = question.room,
                          .starter = std::nullopt};
    if (with_starter) bowl.starter = question.starter.value_or(question.room);
    const auto learnt = learnt_friction(bakes, with_starter, question.mixed_by);
    const FrictionKelvins friction = question.friction ? *question.friction
                                     : learnt          ? learnt->friction
                                                       : FrictionKelvins(0);
    const Celsius needed = water_temperature(question.wanted, bowl, friction);
    std::string text = "Water at " + temperature_text(needed, question.degrees) +
                       " for a dough of " + temperature_text(question.wanted, question.degrees) +
                       " (" + friction_text(question, learnt) + ").\n" +
                       cold_text(question, water, needed);
    if (needed.degrees() < 0 && !question.tap)
        text += "That is below freezing: part of it must be ice; say how cold your tap is, --tap " +
                std::string(question.degrees == Degrees::fahrenheit ? "57F" : "14C") + ".\n";
    if (needed > yeast_limit)
        text += "Above " + temperature_text(yeast_limit, question.degrees) +
                " water harms yeast: warm the flour or the room instead, or wait longer.\n";
    return text;
}

}  // namespace loafmark::commands
