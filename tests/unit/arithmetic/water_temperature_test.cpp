#include "arithmetic/water_temperature.h"

#include "catch.h"

using namespace loafmark;

namespace {
Celsius fahrenheit(double degrees) {
    return Celsius((degrees - 32) * 5 / 9);
}
FrictionKelvins fahrenheit_degrees(double degrees) {
    return FrictionKelvins(degrees * 5 / 9);
}
}  // namespace

// A dough article in Pizza Today, June 2018: 80 F wanted, flour 65, room 75, friction 35: 65 F. A
// baking school's handout of 2009, as a student reports it: 75, 65, 65, 8: 87 F.
TEST_CASE("handbook examples of water temperature come out") {
    CHECK(water_temperature(fahrenheit(80), {fahrenheit(65), fahrenheit(75), {}},
                            fahrenheit_degrees(35))
              .degrees() == Approx(fahrenheit(65).degrees()));
    CHECK(water_temperature(fahrenheit(75), {fahrenheit(65), fahrenheit(65), {}},
                            fahrenheit_degrees(8))
              .degrees() == Approx(fahrenheit(87).degrees()));
}

TEST_CASE("a starter is a fourth part") {
    const BowlTemperatures bowl{Celsius(19), Celsius(21), Celsius(23)};
    CHECK(water_temperature(Celsius(25), bowl, FrictionKelvins(6)).degrees() == Approx(31));
    CHECK(friction_of(Celsius(25), bowl, Celsius(31)).count() == Approx(6));
}

TEST_CASE("friction learnt from a dough gives that dough's water back") {
    const BowlTemperatures bowl{Celsius(20), Celsius(22), {}};
    const FrictionKelvins friction = friction_of(Celsius(24), bowl, Celsius(27));
    CHECK(friction.count() == Approx(3));
    CHECK(water_temperature(Celsius(24), bowl, friction).degrees() == Approx(27));
}

// Closed form: 10 kg from 18 to 6 C take 1.2245 kg of ice.
TEST_CASE("water colder than the tap is part ice") {
    CHECK(ice_for(Grams(10000), Celsius(6), Celsius(18))->count() == Approx(1224.4897959183674));
    CHECK_FALSE(ice_for(Grams(10000), Celsius(18), Celsius(18)));
    CHECK(*ice_for(Grams(100), Celsius(-90), Celsius(18)) > Grams(100));
}
