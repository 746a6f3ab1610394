#include "reports/flour_groups.h"

#include <algorithm>
#include <map>

#include "insight/bake_values.h"

namespace loafmark::reports {

std::vector<FlourGroup> flour_groups(const std::vector<journal::BakeEntry>& bakes) {
    std::map<std::string, FlourGroup> by_name;
    for (const journal::BakeEntry& bake : bakes) {
        if (bake.bake.set_aside) continue;
        const journal::FlourShare* main = insight::main_flour(bake);
        const std::string name = main ? main->name : "flour not noted";
        FlourGroup& group = by_name[name];
        group.name = name;
        group.bakes.push_back(&bake);
    }
    std::vector<FlourGroup> groups;
    for (auto& [name, group] : by_name)
        groups.push_back(std::move(group));
    std::ranges::stable_sort(groups, std::ranges::greater{},
                             [](const FlourGroup& group) { return group.bakes.size(); });
    if (groups.size() <= most_flours) return groups;
    FlourGroup rest;
    rest.name = std::to_string(groups.size() - (most_flours - 1)) + " other flours";
    for (std::size_t i = most_flours - 1; i < groups.size(); ++i)
        rest.bakes.insert(rest.bakes.end(), groups[i].bakes.begin(), groups[i].bakes.end());
    groups.resize(most_flours - 1);
    groups.push_back(std::move(rest));
    return groups;
}

}  // namespace loafmark::reports
