#include "reports/plain_words.h"

#include "analysis/reading.h"
#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::reports;

TEST_CASE("dates, shares and units are written as people read them") {
    CHECK(long_date({2026, 3, 1}) == "1 March 2026");
    CHECK(percent_text(Fraction(0.7)) == "70 %");
    CHECK(percent_text(Fraction(0.655)) == "65.5 %");
    CHECK(percent_text(Fraction(1.0 / 3)) == "33.3 %");
    CHECK(raised("cells per cm2") == "cells per cm\u00b2");
    CHECK(value_text(74.18, info_of(Measure::loaf_height)) == "74.2 mm");
    CHECK(value_text(7600, info_of(Measure::cross_section_area)) == "7600 mm\u00b2");
    CHECK(value_text(0.2831, info_of(Measure::openness)) == "0.283");
    CHECK(value_text(21.04, info_of(Measure::cells_per_cm2)) == "21.0");
    CHECK(span_text(72.9, 75.6, 1) == "72.9\u201375.6");
}

TEST_CASE("flours are named with their shares") {
    CHECK(flours_text({made_up::flour(1, "Rye", 0.6), made_up::flour(2, "Wheat", 0.4)}) ==
          "Rye 60 %, Wheat 40 %");
    CHECK(flours_text({}) == "flour not noted");
}

TEST_CASE("every warning that concerns a reader has words of its own") {
    for (int i = 0; i < static_cast<int>(WarningCode::not_yet); ++i) {
        const std::string code(code_name(static_cast<WarningCode>(i)));
        INFO(code);
        const auto words = warning_words(code);
        REQUIRE(words);
        CHECK(words->find('_') == std::string::npos);
        CHECK(words->ends_with("."));
    }
    CHECK_FALSE(warning_words("not_yet"));
    CHECK(warning_words("of_a_later_version") == "of_a_later_version");
}
