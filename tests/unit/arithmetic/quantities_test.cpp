#include "arithmetic/quantities.h"

#include <cmath>
#include <functional>
#include <random>

#include "catch.h"

using namespace loafmark;

namespace {

// The message of the QuantityError that `read` throws; a failed check where it throws none.
std::string refusal(const std::function<void()>& read) {
    try {
        read();
    } catch (const QuantityError& error) {
        return error.what();
    }
    FAIL("nothing was refused");
    return {};
}
std::string mass_refusal(std::string_view text) {
    return refusal([&] { (void)parse_mass(text); });
}
std::string percentage_refusal(std::string_view text) {
    return refusal([&] { (void)parse_percentage(text); });
}

}  // namespace

TEST_CASE("masses are read in grams and kilograms") {
    CHECK(parse_mass("500g") == Grams(500));
    CHECK(parse_mass("5kg") == Grams(5000));
    CHECK(parse_mass("0g") == Grams(0));
    CHECK(parse_mass(" 2.5 kg ") == Grams(2500));
    CHECK(parse_mass("750G") == Grams(750));
}

TEST_CASE("lengths are read in millimetres and centimetres, alone or as a list") {
    CHECK(parse_length("15mm") == Millimetres(15));
    CHECK(parse_length("1.5cm") == Millimetres(15));
    CHECK(parse_lengths("14mm,16mm") == std::vector{Millimetres(14), Millimetres(16)});
    CHECK(parse_lengths("14mm, 1.6cm") == std::vector{Millimetres(14), Millimetres(16)});
    CHECK(parse_lengths("14mm") == std::vector{Millimetres(14)});
}

// Exact definition of the Fahrenheit scale: C = (F - 32) * 5 / 9.
TEST_CASE("temperatures are read in degrees Celsius and Fahrenheit") {
    CHECK(parse_temperature("24.5C") == Celsius(24.5));
    CHECK(parse_temperature("-18 \u00b0C") == Celsius(-18));
    CHECK(parse_temperature("76F").degrees() == Approx(24.0 + 4.0 / 9));
    CHECK(parse_temperature("77F").degrees() == Approx(25));
    CHECK(parse_temperature("445F").degrees() == Approx(229.44444444444443));
}

TEST_CASE("durations are read in minutes, hours or both") {
    CHECK(parse_duration("70min") == Minutes(70));
    CHECK(parse_duration("1h10m") == Minutes(70));
    CHECK(parse_duration("1h 10min") == Minutes(70));
    CHECK(parse_duration("1.5h") == Minutes(90));
    CHECK(parse_duration("0min") == Minutes(0));
    CHECK(hours_from(parse_duration("90min")) == Hours(1.5));
    CHECK(minutes_from(Hours(1.5)) == Minutes(90));
}

TEST_CASE("percentages become the fractions that they mean, also above 100") {
    CHECK(parse_percentage("66%") == fraction_from_percent(66));
    CHECK(parse_percentage("102.5 %") == Fraction(1.025));
}

TEST_CASE("a bare number is refused with the unit it lacks") {
    CHECK(mass_refusal("500") == "'500' is not a mass; write it as 500g");
    CHECK(percentage_refusal("70") == "'70' is not a percentage; write it as 70%");
    CHECK(refusal([] { (void)parse_lengths("14mm,16"); }) ==
          "'16' is not a length; write it as 16mm");
    CHECK(refusal([] { (void)parse_duration("70"); }) ==
          "'70' is not a duration; write it as 70min");
}

TEST_CASE("a bare number is taken in the unit that a prompt shows, and no other text is touched") {
    CHECK(parse_mass(in_unit("500", "g")) == Grams(500));
    CHECK(parse_mass(in_unit(" 5kg", "g")) == Grams(5000));
    CHECK(parse_temperature(in_unit("77", "F")).degrees() == Approx(25));
    CHECK(parse_temperature(in_unit("25C", "F")) == Celsius(25));
    CHECK(parse_duration(in_unit("1.5", "h")) == Minutes(90));
    CHECK(in_unit("7O", "%") == "7O");
    CHECK(in_unit("", "g").empty());
}

// The international yard and pound agreement of 1959: 1 lb = 0.45359237 kg, 1 in = 25.4 mm; 16 oz
// make a pound (NIST Handbook 44, appendix C).
TEST_CASE("ounces, pounds and inches are read too") {
    CHECK(parse_mass("1lb").count() == Approx(453.59237));
    CHECK(parse_mass("16oz") == parse_mass("1lb"));
    CHECK(parse_length("0.5in").count() == Approx(12.7));
}

TEST_CASE("a temperature is told on the Fahrenheit scale") {
    CHECK(fahrenheit(Celsius(0)) == 32);
    CHECK(fahrenheit(Celsius(100)) == 212);
    CHECK(fahrenheit(parse_temperature("76F")) == Approx(76));
}

TEST_CASE("slips of the hand are refused with what was probably meant") {
    CHECK(percentage_refusal("7O") == "'7O' is not a percentage; write it as 70%");
    CHECK(percentage_refusal("l2%") == "'l2%' is not a percentage; write it as 12%");
    CHECK(refusal([] { (void)parse_length("1,5cm"); }) ==
          "'1,5cm' is not a length; write it as 1.5cm");
}

TEST_CASE("what is below any such quantity is refused") {
    CHECK(mass_refusal("-5g") == "'-5g' is not a mass, which is zero or more; write it like 500g");
    CHECK(refusal([] { (void)parse_length("0mm"); }) ==
          "'0mm' is not a length, which is more than zero; write it like 15mm");
    CHECK(refusal([] { (void)parse_temperature("-300C"); }) ==
          "'-300C' is not a temperature, which is above -273.15C; write it like 24.5C");
    CHECK_THROWS_AS(parse_duration("-1h10m"), QuantityError);
    CHECK_THROWS_AS(parse_duration("1h-10m"), QuantityError);
    CHECK_THROWS_AS(parse_percentage("-3%"), QuantityError);
}

TEST_CASE("anything else is refused with an example") {
    CHECK(mass_refusal("some") == "'some' is not a mass; write it like 500g");
    CHECK(mass_refusal("") == "'' is not a mass; write it like 500g");
    for (const char* text : {"g", "5 st", "5gg", "1e3g", "0x10g", "infg", "nang", "5..g", "+5g",
                             "1 000g", "500g extra", "5g%"}) {
        INFO(text);
        CHECK_THROWS_AS(parse_mass(text), QuantityError);
    }
    for (const char* text : {"", ",", "14mm,", ",14mm", "14mm;16mm"}) {
        INFO(text);
        CHECK_THROWS_AS(parse_lengths(text), QuantityError);
    }
    for (const char* text : {"h", "1h10", "10m1h", "1h10g", "1hh", "h10m"}) {
        INFO(text);
        CHECK_THROWS_AS(parse_duration(text), QuantityError);
    }
}

TEST_CASE("a range has two ends or one") {
    CHECK(parse_range("66..74") == Range{66, 74});
    CHECK(parse_range("0.3..") == Range{0.3, std::nullopt});
    CHECK(parse_range("..5") == Range{std::nullopt, 5});
    CHECK(parse_range("-2 .. -1") == Range{-2, -1});
    CHECK(Range{66, 74}.contains(66));
    CHECK(Range{66, 74}.contains(74));
    CHECK_FALSE(Range{66, 74}.contains(74.1));
    CHECK(Range{std::nullopt, 5}.contains(-100));
}

TEST_CASE("what is no range is refused") {
    CHECK(refusal([] { (void)parse_range("68"); }) ==
          "'68' is not a range; write it like 66..74, 66.. or ..74");
    CHECK(refusal([] { (void)parse_range("74..66"); }) ==
          "'74..66' is not a range, for its low end is above its high end; write it like 66..74, "
          "66.. or ..74");
    for (const char* text : {"..", "", "a..b", "1..2..3", "1-2", "66%..74%"}) {
        INFO(text);
        CHECK_THROWS_AS(parse_range(text), QuantityError);
    }
}

TEST_CASE("a range of percentages is one of fractions, its signs optional") {
    const FractionRange range = parse_percentage_range("66..74%");
    CHECK(range.low == fraction_from_percent(66));
    CHECK(range.high == fraction_from_percent(74));
    CHECK_FALSE(parse_percentage_range("66%..").high);
}

TEST_CASE("quantities print as they are typed") {
    CHECK(to_text(Grams(500)) == "500g");
    CHECK(to_text(Grams(0.25)) == "0.25g");
    CHECK(to_text(Millimetres(15)) == "15mm");
    CHECK(to_text(parse_lengths("14mm,1.65cm")) == "14mm,16.5mm");
    CHECK(to_text(Celsius(-0.0)) == "0C");
    CHECK(to_text(Minutes(45)) == "45min");
    CHECK(to_text(Minutes(70)) == "1h10m");
    CHECK(to_text(Minutes(120)) == "2h");
    CHECK(to_text(fraction_from_percent(68)) == "68%");
    CHECK(to_text(Range{0.3, std::nullopt}) == "0.3..");
}

TEST_CASE("what is printed reads back as the same quantity") {
    std::mt19937_64 random(20260301);
    std::uniform_real_distribution<double> magnitude(-3, 5);
    for (int i = 0; i < 200; ++i) {
        const double x = std::pow(10, magnitude(random));
        INFO(x);
        const double tolerance = 1e-9;  // of the printed unit; ten decimals are printed
        CHECK(parse_mass(to_text(Grams(x))).count() == Approx(x).margin(tolerance));
        CHECK(parse_length(to_text(Millimetres(x))).count() == Approx(x).margin(tolerance));
        CHECK(parse_temperature(to_text(Celsius(x - 200))).degrees() ==
              Approx(x - 200).margin(tolerance));
        CHECK(parse_duration(to_text(Minutes(x))).count() == Approx(x).margin(tolerance));
        CHECK(parse_percentage(to_text(Fraction(x))).count() == Approx(x).margin(tolerance));
        // And text of text is the same text.
        const std::string text = to_text(Grams(x));
        CHECK(to_text(parse_mass(text)) == text);
        const Range range{-x, x};
        CHECK(to_text(parse_range(to_text(range))) == to_text(range));
    }
}
