#include "commands/next.h"

#include <stdexcept>

#include "catch.h"

using namespace loafmark;
using namespace loafmark::commands;

TEST_CASE("an outcome is the tallest loaf, or a measure with its value") {
    CHECK(parse_goal("tallest").measure == Measure::loaf_height);
    CHECK_FALSE(parse_goal("tallest").value);
    CHECK(parse_goal("openness 0.45").measure == Measure::openness);
    CHECK(*parse_goal("openness 0.45").value == 0.45);
}

TEST_CASE("what is no outcome is refused with an example") {
    for (const char* text : {"", "open", "openness", "openness ", "openness x", "openness 0.4x"})
        CHECK_THROWS_AS(parse_goal(text), std::runtime_error);
}
