#include "insight/control_loaf.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "insight/recipe.h"

namespace loafmark::insight {

std::vector<ControlBake> control_loaf(const std::vector<journal::BakeEntry>& bakes, Measure measure,
                                      EndSlices ends) {
    std::map<Recipe, std::vector<ControlBake>> by_recipe;
    for (const journal::BakeEntry& bake : bakes) {
        if (bake.bake.set_aside) continue;
        if (const auto mean = bake_mean(bake, measure, ends))
            by_recipe[recipe_of(bake)].push_back({&bake, mean->value});
    }
    const auto when = [](const ControlBake& bake) {
        return std::tuple(bake.entry->bake.date, bake.entry->bake.id);
    };
    std::vector<ControlBake> most;
    for (auto& [recipe, list] : by_recipe) {
        std::ranges::sort(list, {}, when);
        if (most.empty() ||
            std::tuple(list.size(), when(list.back())) > std::tuple(most.size(), when(most.back())))
            most = std::move(list);
    }
    return most;
}

std::vector<ControlDay> by_day(const std::vector<ControlBake>& bakes) {
    std::vector<ControlDay> days;
    for (const ControlBake& bake : bakes) {
        if (days.empty() || days.back().date != bake.entry->bake.date)
            days.push_back({bake.entry->bake.date, bake.entry->bake.id, 0, 0});
        days.back().value += bake.value;
        ++days.back().bakes;
    }
    for (ControlDay& day : days)
        day.value /= day.bakes;
    return days;
}

}  // namespace loafmark::insight
