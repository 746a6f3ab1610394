#include "insight/plain_numbers.h"

#include "catch.h"

using loafmark::insight::fixed_text;

TEST_CASE("numbers are printed with the decimals asked for, and nought without a sign") {
    CHECK(fixed_text(2.345, 1) == "2.3");
    CHECK(fixed_text(70, 0) == "70");
    CHECK(fixed_text(-1.25, 1) == "-1.2");
    CHECK(fixed_text(-0.001, 2) == "0.00");
    CHECK(fixed_text(10, 2) == "10.00");
}
