#include "insight/cell_sizes.h"

#include "catch.h"

using namespace loafmark::insight;

TEST_CASE("half of the opening is told by area, not by number") {
    // Areas 1, 1, 1, 1, 9: the large cell alone holds more than half.
    CHECK(half_of_opening({1, 1, 1, 1, 3}) == 3);
    // Areas 4, 4, 9: up to 2 it is 8 of 17, less than half.
    CHECK(half_of_opening({2, 2, 3}) == 3);
    CHECK(half_of_opening({2, 2, 2, 3}) == 2);
    CHECK_FALSE(half_of_opening({}));
}
