// Quantities that carry their unit in their type, so that a millimetre cannot be added to a pixel
// nor a percentage pass for a fraction. Percent exists only in text shown or read.
#pragma once

#include <compare>

namespace loafmark {

// A real number of one unit. Construction and reading are explicit; quantities of one unit add,
// compare, scale by plain numbers, and divide into a plain ratio.
template <class UnitTag>
class Quantity {
  public:
    constexpr Quantity() = default;
    constexpr explicit Quantity(double count) : count_(count) {}

    // The bare number, in the unit that the type names.
    [[nodiscard]] constexpr double count() const { return count_; }

    constexpr auto operator<=>(const Quantity&) const = default;

    friend constexpr Quantity operator+(Quantity a, Quantity b) {
        return Quantity(a.count_ + b.count_);
    }
    friend constexpr Quantity operator-(Quantity a, Quantity b) {
        return Quantity(a.count_ - b.count_);
    }
    friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.count_ * k); }
    friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.count_ * k); }
    friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.count_ / k); }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.count_ / b.count_; }

  private:
    double count_ = 0;
};

using Millimetres = Quantity<struct MillimetresTag>;
using SquareMillimetres = Quantity<struct SquareMillimetresTag>;
using MillimetresPerPixel = Quantity<struct MillimetresPerPixelTag>;
using Pixels = Quantity<struct PixelsTag>;
using Grams = Quantity<struct GramsTag>;
using Millilitres = Quantity<struct MillilitresTag>;
using Hours = Quantity<struct HoursTag>;
using Minutes = Quantity<struct MinutesTag>;
// A part of a whole, 0.68 for what people write as 68 %. May exceed 1 (hydration does).
using Fraction = Quantity<struct FractionTag>;

[[nodiscard]] constexpr SquareMillimetres operator*(Millimetres a, Millimetres b) {
    return SquareMillimetres(a.count() * b.count());
}
[[nodiscard]] constexpr Millimetres operator*(Pixels a, MillimetresPerPixel b) {
    return Millimetres(a.count() * b.count());
}
[[nodiscard]] constexpr Fraction fraction_from_percent(double percent) {
    return Fraction(percent / 100);
}
[[nodiscard]] constexpr double percent(Fraction fraction) {
    return fraction.count() * 100;
}

// A temperature on the Celsius scale. Two temperatures do not add; their difference is a number of
// kelvins.
class Celsius {
  public:
    constexpr explicit Celsius(double degrees) : degrees_(degrees) {}
    [[nodiscard]] constexpr double degrees() const { return degrees_; }
    constexpr auto operator<=>(const Celsius&) const = default;

  private:
    double degrees_ = 0;
};

}  // namespace loafmark
