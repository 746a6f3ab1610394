#include "arithmetic/protein.h"

#include "catch.h"

using namespace loafmark;

namespace {
double at_14(double percent_of_it, ProteinBasis basis, std::optional<Fraction> moisture) {
    return percent(
        protein_at_14_percent_moisture(fraction_from_percent(percent_of_it), basis, moisture));
}
}  // namespace

// AACC 44-15 / 46-12: 12 % as is at 13 % moisture is 11.8621 % at 14 %; 11.7 % at 13.65 %
// is 11.6526 %.
TEST_CASE("protein as it lies in the bag is brought to 14 % moisture") {
    CHECK(at_14(12, ProteinBasis::pack_us, fraction_from_percent(13)) ==
          Approx(11.862068965517242));
    CHECK(at_14(11.7, ProteinBasis::pack_us, fraction_from_percent(13.65)) ==
          Approx(11.652576722640417));
}

// The same source: 12 % as is at 13 % moisture is 13.7931 % of the dry matter.
TEST_CASE("dry matter's protein is brought back by the same rule") {
    CHECK(at_14(13.793103448275861, ProteinBasis::dry, {}) == Approx(11.862068965517242));
}

// USDA SR 26, bread flour (20083): 11.98 % at 13.36 % moisture, 11.892 % at 14 %.
TEST_CASE("a table's bread flour agrees with the table's own 14 % column") {
    CHECK(at_14(11.98, ProteinBasis::pack_us, fraction_from_percent(13.36)) ==
          Approx(11.892).margin(0.0005));
}

TEST_CASE("a European label counts more protein in the same nitrogen") {
    CHECK(at_14(12.5, ProteinBasis::pack_eu, {}) == Approx(12.5 * 5.7 / 6.25));
    CHECK(at_14(12.5, ProteinBasis::mill_14_percent_moisture, {}) == Approx(12.5));
}
