#include "commands/next.h"

#include <stdexcept>

#include "catch.h"

using namespace loafmark;
using namespace loafmark::commands;

TEST_CASE("an outcome is the tallest loaf, or a measure with its value") {
    CHECK(parse_goal("tallest").goal.measure == Measure::loaf_height);
    CHECK_FALSE(parse_goal("tallest").goal.value);
    CHECK(parse_goal("openness 0.45").goal.measure == Measure::openness);
    CHECK(*parse_goal("openness 0.45").goal.value == 0.45);
}

TEST_CASE("an outcome may be that of a control, of the loaf's height unless said") {
    CHECK(parse_goal("as wheat").as == "wheat");
    CHECK(parse_goal("as wheat").goal.measure == Measure::loaf_height);
    CHECK(parse_goal("openness as Wheat 70").as == "Wheat 70");
    CHECK(parse_goal("openness as Wheat 70").goal.measure == Measure::openness);
    CHECK_FALSE(parse_goal("openness 0.45").as);
}

TEST_CASE("what is no outcome is refused with an example") {
    for (const char* text : {"", "open", "openness", "openness ", "openness x", "openness 0.4x",
                             "as ", "as", "nice as wheat", "openness 0.4 as wheat"})
        CHECK_THROWS_AS(parse_goal(text), std::runtime_error);
}
