#include "insight/trial.h"

#include <stdexcept>

#include "catch.h"
#include "insight/settings.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::insight;

namespace {

journal::BakeEntry baked(std::int64_t id, int day, const std::string& flour, double water,
                         double openness, double dough_g = 900) {
    auto bake = made_up::bake(id, {2026, 3, day}, flour, flour == "White" ? 1 : 2, water, openness);
    bake.loaves[0].loaf.dough_mass = Grams(dough_g);
    return bake;
}

journal::Trial trial_of(std::vector<journal::TrialSetting> settings,
                        std::vector<journal::TrialBake> bakes) {
    journal::Trial trial;
    trial.name = "Which";
    trial.question = "same recipe";
    trial.factor = "flour";
    trial.variants = {"White", "Emmer"};
    trial.settings = std::move(settings);
    trial.bakes = std::move(bakes);
    return trial;
}

const std::vector<journal::TrialBake> two_and_two{{{1}, 0}, {{2}, 1}, {{3}, 0}, {{4}, 1}};

std::string joined(const std::vector<std::string>& list) {
    std::string text;
    for (const std::string& one : list)
        text += one + "\n";
    return text;
}

}  // namespace

TEST_CASE("a trial that held what it holds is fair, and its degrees of freedom are counted") {
    const std::vector<journal::BakeEntry> bakes{
        baked(1, 1, "White", 70, 0.40), baked(2, 1, "Emmer", 70.3, 0.30),
        baked(3, 2, "White", 70, 0.42), baked(4, 2, "Emmer", 70, 0.33)};
    const auto state =
        state_of(trial_of({{"water", "held", {}}, {"dough mass", "held", {}}}, two_and_two), bakes);
    CHECK(state.variants[1].fair);
    CHECK(state.variants[1].sentence == "fair: 2 bakes on 2 days, each beside the control");
    CHECK(state.drifts.empty());
    CHECK(state.to_part.empty());
    // 4 bakes, 2 groups, 2 days: 4 - 2 - 1.
    CHECK(state.degrees_of_freedom == 1);
    CHECK(joined(state.repeats).find("1 degree of freedom to chance, 3 are wanted") !=
          std::string::npos);
}

TEST_CASE("a held setting that moved makes it unfair, and what would part the two is named") {
    const std::vector<journal::BakeEntry> bakes{
        baked(1, 1, "White", 70, 0.40), baked(2, 1, "Emmer", 76, 0.30),
        baked(3, 2, "White", 70, 0.42), baked(4, 2, "Emmer", 76, 0.33)};
    const auto state = state_of(trial_of({{"water", "held", {}}}, two_and_two), bakes);
    CHECK_FALSE(state.variants[1].fair);
    CHECK(state.variants[1].sentence ==
          "not fair: water moved (76.0 % where the control had 70.0 %, in 2 of 2 bakes; held)");
    CHECK(joined(state.to_part) ==
          "to part flour from water, bake Emmer with water 70.0 %, or White with 76.0 %\n");
    // Fitted, the same water is part of the variant.
    const auto fitted =
        state_of(trial_of({{"water", "fitted", "by the mill's advice"}}, two_and_two), bakes);
    CHECK(fitted.variants[1].fair);
    CHECK(fitted.variants[1].with == "water 76.0 %");
}

TEST_CASE("what moves with the day alone is no fault of a comparison within days") {
    std::vector<journal::BakeEntry> bakes{
        baked(1, 1, "White", 70, 0.40), baked(2, 1, "Emmer", 70, 0.30),
        baked(3, 2, "White", 70, 0.42), baked(4, 2, "Emmer", 70, 0.33)};
    for (auto& bake : bakes)
        bake.bake.room_temperature = Celsius(bake.bake.date.day == 1 ? 18 : 24);
    const auto state = state_of(trial_of({{"room", "held", {}}}, two_and_two), bakes);
    CHECK(state.variants[1].fair);
    CHECK(joined(state.drifts)
              .find("room moved between the control's own bakes (18.0 \u00b0C, "
                    "24.0 \u00b0C)") == 0);
}

TEST_CASE("a fitted setting's rule is looked up, and what was not noted is said") {
    std::vector<journal::BakeEntry> bakes{baked(1, 1, "White", 70, 0.40),
                                          baked(2, 1, "Emmer", 76, 0.30)};
    bakes[0].bake.handling = "tacky";
    bakes[1].bake.handling = "slack";
    const auto trial = trial_of({{"water", "fitted", "equal handling"}, {"tin", "held", {}}},
                                {{{1}, 0}, {{2}, 1}});
    const auto state = state_of(trial, bakes);
    CHECK(state.variants[1].sentence.find("handling moved (slack where the control had tacky") !=
          std::string::npos);
    CHECK(joined(state.drifts).find("tin was not noted in 2 of 2 bakes") != std::string::npos);
    CHECK(joined(state.repeats).find("Emmer: bake it once more") != std::string::npos);
}

TEST_CASE("an empty trial and one without its control say so, and cannot be compared") {
    const auto trial = trial_of({}, {});
    const auto state = state_of(trial, {});
    CHECK(state.variants[0].sentence == "not baked yet");
    CHECK(state.variants[1].sentence == "cannot be judged: the control was not baked");
    CHECK_THROWS_AS(compare_trial(trial, {}), std::invalid_argument);
    auto bake = baked(2, 1, "Emmer", 70, 0.3);
    CHECK_THROWS_AS(compare_trial(trial_of({}, {{{2}, 1}}), {bake}), std::invalid_argument);
    bake.bake.set_aside = "forgot the salt";
    CHECK(state_of(trial_of({}, {{{2}, 1}}), {bake}).variants[1].bakes == 0);
}

TEST_CASE("a trial is compared by its variants, whatever water they were given") {
    const std::vector<journal::BakeEntry> bakes{
        baked(1, 1, "White", 70, 0.40), baked(2, 1, "Emmer", 76, 0.30),
        baked(3, 2, "White", 70, 0.42), baked(4, 2, "Emmer", 77, 0.33)};
    const auto comparison =
        compare_trial(trial_of({{"water", "fitted", "by feel"}}, two_and_two), bakes);
    REQUIRE(comparison.contenders.size() == 2);
    CHECK(comparison.contenders[1].bakes.size() == 2);
    CHECK(comparison.contenders[1].name == "Emmer, with its water 76.0 % and 77.0 %");
    CHECK(comparison.confounded.empty());
}

TEST_CASE("every setting of the journal can be looked up, and an empty bake has none") {
    journal::BakeEntry nothing;
    for (const std::string_view word : journal::setting_words) {
        INFO(word);
        CHECK_FALSE(setting_of(nothing, word));
    }
    CHECK_THROWS_AS(setting_of(nothing, "weather"), std::invalid_argument);
    journal::BakeEntry bake = baked(1, 1, "White", 70, 0.4, 903.5);
    bake.bake.steps = {{"bulk fermentation", {}, Minutes(100), {}},
                       {"fold", {}, Minutes(2), {}},
                       {"bulk fermentation", {}, Minutes(80), {}},
                       {"bake", {}, Minutes(45), Celsius(230)}};
    bake.bake.mixed = {
        {IngredientKind::flour, "White", {}, {}, Grams(500), Fraction(0), Fraction(1)},
        {IngredientKind::salt, "salt", {}, {}, Grams(10), Fraction(0), Fraction(0)}};
    CHECK(setting_of(bake, "bulk")->text == "3h");
    CHECK(setting_of(bake, "bake time")->number == 45);
    CHECK(setting_of(bake, "oven temperature")->text == "230.0 \u00b0C");
    CHECK(setting_of(bake, "salt")->text == "2.00 %");
    CHECK(setting_of(bake, "dough mass")->text == "904 g");
    CHECK_FALSE(differ({"900 g", 900}, {"917 g", 917}, "dough mass"));
    CHECK(differ({"900 g", 900}, {"925 g", 925}, "dough mass"));
    CHECK(differ({"small", {}}, {"large", {}}, "tin"));
}
