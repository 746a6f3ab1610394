#include "analysis/units.h"

#include "catch.h"

using namespace loafmark;

// Misuse must not compile; these fail the build if it ever does.
template <class A, class B>
concept Adds = requires(A a, B b) {
    a + b;
};
static_assert(Adds<Millimetres, Millimetres>);
static_assert(!Adds<Millimetres, Pixels>);
static_assert(!Adds<Grams, Celsius>);
static_assert(!Adds<Celsius, Celsius>);
static_assert(!Adds<Millimetres, double>);
static_assert(!std::is_convertible_v<double, Fraction>);
static_assert(!std::is_convertible_v<Millimetres, double>);

TEST_CASE("a percentage becomes the fraction it means") {
    CHECK(fraction_from_percent(68).count() == Approx(0.68));
    CHECK(percent(Fraction(0.68)) == Approx(68));
}

TEST_CASE("lengths multiply into areas and pixels into lengths") {
    CHECK((Millimetres(20) * Millimetres(30)).count() == 600);
    CHECK((Pixels(50) * MillimetresPerPixel(0.1)).count() == Approx(5));
    CHECK(Millimetres(30) / Millimetres(20) == 1.5);
}
