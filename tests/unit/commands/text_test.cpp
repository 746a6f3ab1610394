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
}

TEST_CASE("one is one, none and more are many") {
    CHECK(counted(0, "loaf", "loaves") == "0 loaves");
    CHECK(counted(1, "loaf", "loaves") == "1 loaf");
    CHECK(counted(std::size_t{2}, "loaf", "loaves") == "2 loaves");
}

TEST_CASE("hours are told as one would type them") {
    CHECK(hours_text(Hours(4)) == "4h");
    CHECK(hours_text(Hours(1.5)) == "1h30m");
    CHECK(hours_text(Hours(0.5)) == "30min");
}

// C = (F - 32) * 5 / 9, the Fahrenheit scale's definition.
TEST_CASE("temperatures and differences are told on the kitchen's scale") {
    CHECK(temperature_text(Celsius(24.5), Degrees::celsius) == "24.5 °C");
    CHECK(temperature_text(Celsius(25), Degrees::fahrenheit) == "77 °F");
    CHECK(temperature_text(std::nullopt, Degrees::fahrenheit) == "-");
    CHECK(kelvins_text(4, Degrees::celsius) == "4 K");
    CHECK(kelvins_text(5, Degrees::fahrenheit) == "9 °F");
    journal::KitchenFacts facts;
    CHECK(degrees_of(facts) == Degrees::celsius);
    facts.temperatures = "F";
    CHECK(degrees_of(facts) == Degrees::fahrenheit);
}

TEST_CASE("one flour stands alone, several with their shares") {
    const journal::FlourShare white{{1}, "White", {}, {}, Fraction(0.7)};
    const journal::FlourShare emmer{{2}, "Emmer", {}, {}, Fraction(0.3)};
    CHECK(flours_text({}) == "-");
    CHECK(flours_text({white}) == "White");
    CHECK(flours_text({white, emmer}) == "White 70 %, Emmer 30 %");
}

}  // namespace loafmark::commands
