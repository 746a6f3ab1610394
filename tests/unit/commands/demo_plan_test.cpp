#include "commands/demo_plan.h"

#include "../journal/example_journal.h"
#include "catch.h"
#include "commands/failure.h"

namespace loafmark::commands {
namespace {

DemoPlan plan_of(const std::string& text) {
    const journal::TemporaryFolder folder;
    journal::write_text(folder / "bakes.json", text);
    return read_demo_plan(folder / "bakes.json");
}

}  // namespace

TEST_CASE("a list of sample bakes is read, unknowns staying unknown") {
    const DemoPlan plan = plan_of(R"({"schema": 1, "scenario": "Two flours.",
      "flours": [{"name": "Emmer", "grain": "emmer", "grade": null, "protein_percent": 13}],
      "formulas": [{"name": "Plain", "ingredients": [
         {"kind": "flour", "name": "Emmer", "percent": 100},
         {"kind": "water", "name": "water", "percent": 70}]}],
      "bakes": [{"title": "One", "date": "2026-03-01", "formula": "Plain", "dough_g": 900,
         "loaf": {"shape": "free-form", "dough_g": 880},
         "slice": {"photo": "one.jpg", "thickness_mm": 15}}]})");
    CHECK(plan.scenario == "Two flours.");
    REQUIRE(plan.flours.size() == 1);
    CHECK_FALSE(plan.flours[0].grade);
    CHECK(plan.flours[0].protein->count() == Approx(0.13));
    CHECK(plan.formulas.at(0).ingredients.at(1).share.count() == Approx(0.7));
    const DemoBake& bake = plan.bakes.at(0);
    CHECK(bake.date == Date{2026, 3, 1});
    CHECK(bake.loaf.free_form == true);
    CHECK(bake.loaf.dough_mass == Grams(880));
    CHECK_FALSE(bake.loaf.baked_mass);
    CHECK(bake.slice.thickness == Millimetres(15));
    CHECK_FALSE(bake.slice.since_oven);
}

TEST_CASE("what is no list of sample bakes is refused") {
    const std::string text =
        GENERATE("", "[]", "{}", R"({"schema": 2})",
                 R"({"schema": 1, "flours": [{}], "formulas": [], "bakes": []})");
    CHECK_THROWS_AS(plan_of(text), Failure);
}

}  // namespace loafmark::commands
