// The sample bakes that `loafmark demo` files, as sample-images/bakes.json lists them.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "journal/drafts.h"
#include "journal/trial_drafts.h"

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
    std::optional<Grams> mass;
};
struct DemoBake {
    std::string title;
    Date date;
    std::string formula;
    Grams dough;
    journal::NewLoaf loaf;
    DemoSlice slice;
    std::optional<std::string> notes;
    std::optional<std::string> variant;  // of the plan's trial
    std::optional<Celsius> room;
    std::optional<Celsius> dough_temperature;
    std::optional<std::string> handling;
    std::optional<Minutes> proof;
};
// What a taster said of one slice of a blind sitting.
struct DemoServing {
    std::string bake;  // its title
    std::string taster;
    int turn = 1;
    int code = 100;
    journal::TasteScores scores;
};
struct DemoSitting {
    Date date;
    std::optional<std::string> kept;
    std::optional<Hours> since_oven;
    std::vector<DemoServing> servings;
};
struct DemoPlan {
    std::string scenario;  // a sentence or two on what these bakes are
    std::vector<journal::NewFlour> flours;
    std::vector<DemoFormula> formulas;
    std::vector<DemoBake> bakes;
    std::optional<journal::NewTrial> trial;
    std::vector<DemoSitting> sittings;
};

// Throws Failure for a file that cannot be read or is not such a list.
[[nodiscard]] DemoPlan read_demo_plan(const std::filesystem::path& file);

}  // namespace loafmark::commands
