#include "commands/text.h"

#include "catch.h"

namespace loafmark::commands {

TEST_CASE("numbers for people lose the zeros at their end") {
    CHECK(number_text(68) == "68");
    CHECK(number_text(33.333) == "33.3");
    CHECK(number_text(0.25, 2) == "0.25");
    CHECK(number_text(1200, 0) == "1200");
    CHECK(number_text(-0.01) == "0");
    CHECK(percent_text(Fraction(0.685)) == "68.5 %");
    CHECK(percent_text(std::nullopt) == "-");
    CHECK(grams_text(Grams(900)) == "900 g");
    CHECK(celsius_text(Celsius(24.5)) == "24.5 °C");
}

TEST_CASE("one flour stands alone, several with their shares") {
    const journal::FlourShare white{{1}, "White", {}, {}, Fraction(0.7)};
    const journal::FlourShare emmer{{2}, "Emmer", {}, {}, Fraction(0.3)};
    CHECK(flours_text({}) == "-");
    CHECK(flours_text({white}) == "White");
    CHECK(flours_text({white, emmer}) == "White 70 %, Emmer 30 %");
}

}  // namespace loafmark::commands
