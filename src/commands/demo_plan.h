// The sample bakes that `loafmark demo` files, as sample-images/bakes.json lists them.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "journal/drafts.h"

namespace loafmark::commands {

struct DemoIngredient {
    IngredientKind kind = IngredientKind::other;
    std::string name;
    Fraction share;  // of all flour
};
struct DemoFormula {
    std::string name;
    std::vector<DemoIngredient> ingredients;
};
struct DemoSlice {
    std::string photo;  // file name beside bakes.json
    std::optional<Millimetres> thickness;
    std::optional<Hours> since_oven;
};
struct DemoBake {
    std::string title;
    Date date;
    std::string formula;
    Grams dough;
    journal::NewLoaf loaf;
    DemoSlice slice;
    std::optional<std::string> notes;
};
struct DemoPlan {
    std::string scenario;  // a sentence or two on what these bakes are
    std::vector<journal::NewFlour> flours;
    std::vector<DemoFormula> formulas;
    std::vector<DemoBake> bakes;
};

// Throws Failure for a file that cannot be read or is not such a list.
[[nodiscard]] DemoPlan read_demo_plan(const std::filesystem::path& file);

}  // namespace loafmark::commands
