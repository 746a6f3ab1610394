#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "arithmetic/near_names.h"
#include "journal/error.h"

namespace loafmark::journal {

// The thing that is called `wanted`, whatever the case: by its whole name, or else the only one
// whose name contains it. `name_of` gives a thing's name; `noun` is what messages call one
// ("flour"). Throws NotFound.
template <class Thing, class NameOf>
[[nodiscard]] const Thing& find_by_name(const std::vector<Thing>& things, std::string_view wanted,
                                        std::string_view noun, NameOf name_of) {
    const std::string target = folded(wanted);
    const std::string quoted = std::string(noun) + " '" + std::string(wanted) + "'";
    std::vector<const Thing*> containing;
    std::vector<std::string> names;
    for (const Thing& thing : things) {
        const std::string name = folded(name_of(thing));
        if (name == target) return thing;
        if (!target.empty() && name.find(target) != std::string::npos) containing.push_back(&thing);
        names.push_back(name_of(thing));
    }
    if (containing.size() == 1) return *containing.front();
    if (containing.empty()) throw NotFound("there is no " + quoted, near_names(wanted, names));
    std::vector<std::string> fitting;
    for (const Thing* thing : containing)
        fitting.push_back(name_of(*thing));
    throw NotFound("several fit " + quoted, fitting);
}

}  // namespace loafmark::journal
