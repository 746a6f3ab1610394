#include "unfold_spheres.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

#include "catch.h"

namespace loafmark::analysis {
namespace {

// Sections of a sphere cut by `count` planes evenly spread over its diameter (Wicksell 1925).
void cut(double diameter, int count, std::vector<double>& sections) {
    for (int k = 0; k < count; ++k)
        sections.push_back(diameter * std::sqrt(1 - std::pow((k + 0.5) / count, 2)));
}

TEST_CASE("the factors are Saltykov's for classes of ratio 10^-0.1") {
    // Closed form of Saltykov 1958; as printed in Underwood 1970, Quantitative Stereology, for
    // working with section areas (printed row from memory, its last digits are rounded).
    const std::vector<double> factors = saltykov_factors(12);
    constexpr std::array<double, 12> computed = {
        1.64612085,  -0.45612265, -0.11619048, -0.04149451, -0.01727110, -0.00779464,
        -0.00368381, -0.00178950, -0.00088406, -0.00044136, -0.00022181, -0.00011195};
    constexpr std::array<double, 7> printed = {1.6461,  -0.4561, -0.1162, -0.0415,
                                               -0.0173, -0.0079, -0.0038};
    for (std::size_t k = 0; k < computed.size(); ++k)
        CHECK(factors[k] == Approx(computed[k]).margin(1e-7));
    for (std::size_t k = 0; k < printed.size(); ++k)
        CHECK(factors[k] == Approx(printed[k]).margin(2e-4));
}

TEST_CASE("unfolding by steps is the same as by the factors") {
    std::vector<double> sections;
    const double ratio = std::pow(10, 0.1);
    std::vector<double> count = {90, 80, 60, 30};
    for (std::size_t j = 0; j < count.size(); ++j)
        sections.insert(sections.end(), static_cast<std::size_t>(count[j]),
                        0.5 * std::pow(ratio, static_cast<double>(j) + 0.5));
    const auto classes = unfolded_spheres(sections, 100, 0.5);
    const auto factors = saltykov_factors(4);
    REQUIRE(classes.size() == 4);
    for (std::size_t j = 0; j < 4; ++j) {
        double sum = 0;
        for (std::size_t k = 0; j + k < 4; ++k)
            sum += factors[k] * count[j + k] / 100;
        CHECK(classes[j].per_volume == Approx(sum / classes[j].high));
    }
}

TEST_CASE("spheres whose sections are given come out as they went in") {
    // Of N_V spheres of diameter D a unit volume, N_V D sections lie on a unit face.
    const double ratio = std::pow(10, 0.1);
    const std::vector<double> per_volume = {4, 10, 16, 12, 6, 2};
    std::vector<double> sections;
    constexpr double area = 400;
    double sum = 0, moment = 0;
    for (std::size_t j = 0; j < per_volume.size(); ++j) {
        const double d = 0.5 * std::pow(ratio, static_cast<double>(j) + 1);
        cut(d, static_cast<int>(std::lround(per_volume[j] * d * area)), sections);
        sum += per_volume[j], moment += per_volume[j] * d;
    }
    const auto classes = unfolded_spheres(sections, area, 0.5);
    REQUIRE(classes.size() == per_volume.size());
    double found = 0, found_moment = 0;
    for (std::size_t j = 0; j < classes.size(); ++j) {
        CHECK(classes[j].per_volume == Approx(per_volume[j]).epsilon(0.02));
        CHECK_FALSE(classes[j].was_negative);
        found += classes[j].per_volume, found_moment += classes[j].per_volume * classes[j].high;
    }
    // Fullman 1953: N_A = N_V times the mean diameter.
    CHECK(found == Approx(sum).epsilon(0.02));
    CHECK(found_moment == Approx(moment).epsilon(0.02));
}

TEST_CASE("a class that comes out negative is set to 0 and marked") {
    // Many large sections, none a little smaller: more than any spheres would leave there.
    std::vector<double> sections(40, 3.0);
    sections.resize(80, 0.6);
    const auto classes = unfolded_spheres(sections, 100, 0.5);
    REQUIRE(classes.size() == 8);
    CHECK(classes.back().per_volume > 0);
    CHECK_FALSE(classes.back().was_negative);
    CHECK(classes[6].was_negative);
    for (const SphereClass& c : classes)
        CHECK(c.per_volume >= 0);
    CHECK(std::none_of(classes.begin(), classes.end(),
                       [](const SphereClass& c) { return c.was_negative && c.per_volume != 0; }));
}

TEST_CASE("the volume-weighted median of log-normal spheres is found within a twentieth") {
    // x50,3 = x50,0 exp(3 s^2) (Hatch and Choate 1929).
    for (const double spread : {0.2, 0.35, 0.5}) {
        std::mt19937 random(11);
        std::lognormal_distribution<double> diameter(0, spread);
        std::uniform_real_distribution<double> depth(-10, 10);
        std::vector<double> sections;
        while (sections.size() < 20000) {
            const double d = diameter(random), z = depth(random);
            if (std::abs(z) < d / 2) sections.push_back(2 * std::sqrt(d * d / 4 - z * z));
        }
        const auto classes = unfolded_spheres(sections, 1000, 0.2);
        const double truth = std::exp(3 * spread * spread);
        CAPTURE(spread, truth);
        CHECK(*quantile_by_volume(classes, 0.5) == Approx(truth).epsilon(0.05));
    }
}

TEST_CASE("spheres of one size have that size, within a class") {
    std::vector<double> sections;
    cut(3, 3000, sections);
    const auto classes = unfolded_spheres(sections, 100, 0.5);
    CHECK(*quantile_by_volume(classes, 0.5) == Approx(3).epsilon(0.15));
    CHECK(*quantile_by_number(classes, 0.5) == Approx(3).epsilon(0.15));
}

TEST_CASE("without sections above the limit there are no spheres") {
    CHECK(unfolded_spheres({}, 100, 0.5).empty());
    CHECK(unfolded_spheres({0.3, 0.4}, 100, 0.5).empty());
    CHECK_FALSE(quantile_by_volume({}, 0.5));
}

}  // namespace
}  // namespace loafmark::analysis
