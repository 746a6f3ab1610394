#include "arithmetic/dates.h"

#include <string>

#include "catch.h"

using namespace loafmark;

namespace {
constexpr Date today{2026, 11, 25};

std::string refusal(std::string_view text) {
    try {
        (void)parse_date(text, today);
    } catch (const DateError& error) {
        return error.what();
    }
    FAIL("nothing was refused");
    return {};
}
}  // namespace

TEST_CASE("dates are read as ISO 8601, in English, and relative to today") {
    CHECK(parse_date("2026-03-01", today) == Date{2026, 3, 1});
    CHECK(parse_date("3 March 2026", today) == Date{2026, 3, 3});
    CHECK(parse_date(" 3  mar 2026", today) == Date{2026, 3, 3});
    CHECK(parse_date("today", today) == today);
    CHECK(parse_date("Yesterday", today) == Date{2026, 11, 24});
    CHECK(parse_date("yesterday", Date{2028, 3, 1}) == Date{2028, 2, 29});
}

TEST_CASE("a day without a year is the latest that is not after today") {
    CHECK(parse_date("3 March", today) == Date{2026, 3, 3});
    CHECK(parse_date("25 November", today) == today);
    CHECK(parse_date("26 November", today) == Date{2025, 11, 26});
    CHECK(parse_date("29 February", today) == Date{2024, 2, 29});
}

TEST_CASE("days that the calendar lacks are refused with the days it has") {
    CHECK(refusal("30 February") ==
          "'30 February' is not a day of the calendar; February 2026 has days 1 to 28");
    CHECK(refusal("2028-02-30") ==
          "'2028-02-30' is not a day of the calendar; February 2028 has days 1 to 29");
    CHECK(refusal("2026-13-01") == "'2026-13-01' is not a day of the calendar; months are 1 to 12");
    CHECK(refusal("2026-03-00") ==
          "'2026-03-00' is not a day of the calendar; March 2026 has days 1 to 31");
    CHECK(refusal("0000-03-01") == "'0000-03-01' is not a day of the calendar; years begin at 1");
}

TEST_CASE("what is no date is refused with examples") {
    CHECK(refusal("soon") ==
          "'soon' is not a date; write it like 2026-03-01, 1 March, today or yesterday");
    for (const char* text : {"", "3", "March", "3 Mars", "26-03-01", "2026/03/01", "2026-03",
                             "3 March 26", "-3 March", "3 March 2026 x", "2026-03-01-02"}) {
        INFO(text);
        CHECK_THROWS_AS(parse_date(text, today), DateError);
    }
}

TEST_CASE("leap years follow the Gregorian rule") {
    CHECK(exists({2028, 2, 29}));
    CHECK_FALSE(exists({2026, 2, 29}));
    CHECK_FALSE(exists({1900, 2, 29}));
    CHECK(exists({2000, 2, 29}));
    CHECK_FALSE(exists({2026, 4, 31}));
    CHECK_FALSE(exists({10000, 1, 1}));
}

TEST_CASE("every day of five years prints as text that reads back as it") {
    const Date first{2024, 1, 1};
    for (int i = 0; i < 5 * 365; ++i) {
        const Date date = days_after(first, i);
        REQUIRE(parse_date(to_text(date), today) == date);
        REQUIRE(days_between(first, date) == i);
    }
    CHECK(to_text({2026, 3, 1}) == "2026-03-01");
    CHECK(to_text({987, 3, 1}) == "0987-03-01");
}

TEST_CASE("dates count and compare as the calendar does") {
    CHECK(days_between({2026, 3, 1}, {2026, 2, 28}) == -1);
    CHECK(days_after({2026, 12, 31}, 1) == Date{2027, 1, 1});
    CHECK(Date{2026, 3, 1} < Date{2026, 3, 2});
    CHECK(Date{2025, 12, 31} < Date{2026, 1, 1});
}
