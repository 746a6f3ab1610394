#include "insight/blend.h"

#include "catch.h"

using namespace loafmark;
using namespace loafmark::insight;

namespace {

BlendFlour flour(const char* name, double strength, std::optional<double> stock = {}) {
    BlendFlour made;
    made.name = name;
    made.strength = strength;
    if (stock) made.stock = Grams(*stock);
    made.protein = Fraction(0.12);
    return made;
}

BlendWish wish(double grams, std::optional<double> strength) {
    return {.flour = Grams(grams), .spared = 0, .strength = strength};
}

std::string why_not(const std::vector<BlendFlour>& flours, const BlendWish& wished) {
    const auto answer = blend(flours, wished, "%");
    const auto* none = std::get_if<NoBlend>(&answer);
    return none ? none->why : "";
}

Blend found(const std::vector<BlendFlour>& flours, const BlendWish& wished) {
    return std::get<Blend>(blend(flours, wished, "%"));
}

// A bake of two flours with that share of the first and a loaf of that specific volume.
journal::BakeEntry bake(double share, double ml_per_g) {
    journal::BakeEntry entry;
    for (const auto& [id, part] : {std::pair{1, share}, std::pair{2, 1 - share}}) {
        journal::FlourShare one;
        one.flour = journal::FlourId{id};
        one.share = Fraction(part);
        entry.flours.push_back(one);
    }
    journal::LoafEntry loaf;
    loaf.loaf.facts.volume = Millilitres(100 * ml_per_g);
    loaf.weighed[Measure::specific_volume] = {ml_per_g, ml_per_g, ml_per_g, {}, {}};
    entry.loaves.push_back(loaf);
    return entry;
}

}  // namespace

TEST_CASE("as little of the scarce flour is used as strength allows") {
    // s x 12 + (1 - s) x 9 = 10.5
    const Blend half = found({flour("strong", 0.12), flour("plain", 0.09)}, wish(1000, 0.105));
    CHECK(half.shares[0].count() == Approx(0.5));
    CHECK(half.strength == Approx(0.105));
    CHECK(found({flour("strong", 0.12), flour("plain", 0.09)}, wish(1000, {})).shares[0].count() ==
          0);
}

TEST_CASE("shares stay within stock and limits") {
    const auto flours = std::vector{flour("strong", 0.12), flour("plain", 0.09, 300)};
    const Blend short_of_plain = found(flours, wish(1000, {}));
    CHECK(short_of_plain.shares[0].count() == Approx(0.7));
    auto limited = std::vector{flour("strong", 0.12), flour("plain", 0.09)};
    limited[1].most = Fraction(0.25);
    CHECK(found(limited, wish(1000, {})).shares[0].count() == Approx(0.75));
}

TEST_CASE("no blend gains strength by adding rye") {
    const std::optional<std::string> rye{"rye"};
    CHECK(share_of_protein_that_counts(rye, std::string("wholemeal")) == Fraction(0));
    for (const double limit : {0.0, 0.2, 0.5, 1.0}) {
        auto flours = std::vector{flour("white", 0.115), flour("rye", 0)};
        flours[1].least = Fraction(limit);
        CHECK(found(flours, wish(1000, {})).strength <= 0.115 * (1 - limit) + 1e-9);
    }
    CHECK(why_not({flour("white", 0.115), flour("rye", 0)}, wish(1000, 0.12)) ==
          "the strongest blend within stock and limits reaches 11.5 %, and 12 % is wished");
}

TEST_CASE("what stands in the way is told") {
    CHECK(why_not({flour("strong", 0.12, 400), flour("plain", 0.09, 300)}, wish(1000, {})) ==
          "stock and limits allow 700 g of the 1000 g needed (strong 400 g, plain 300 g)");
    auto crossed = std::vector{flour("strong", 0.12, 100), flour("plain", 0.09)};
    crossed[0].least = Fraction(0.3);
    CHECK(why_not(crossed, wish(1000, {})) ==
          "at least 30 % of 'strong' is 300 g, and at most 100 g may be used");
    auto over = std::vector{flour("strong", 0.12), flour("plain", 0.09)};
    over[0].least = Fraction(0.6);
    over[1].least = Fraction(0.5);
    CHECK(why_not(over, wish(1000, {})) == "the least shares alone add to 110 %");
}

TEST_CASE("what counts as strength is told by grain and grade, and unknown stays unknown") {
    CHECK(share_of_protein_that_counts("Wheat", "white") == Fraction(1));
    CHECK(share_of_protein_that_counts("spelt", "wholemeal") == Fraction(0.5));
    CHECK(share_of_protein_that_counts("oat", {}) == Fraction(0));
    CHECK_FALSE(share_of_protein_that_counts("wheat", {}));
    CHECK_FALSE(share_of_protein_that_counts({}, "white"));
}

TEST_CASE("strength is learnt from bakes by their shares, where there are enough") {
    std::vector<journal::BakeEntry> bakes{bake(1, 4), bake(0.5, 3), bake(0.25, 2.5), bake(0, 2)};
    const std::vector flours{journal::FlourId{1}, journal::FlourId{2}};
    const auto measure = StrengthMeasure::specific_volume_ml_per_g;
    CHECK_FALSE(mixture_model(flours, bakes, measure));
    bakes.push_back(bake(0.75, 3.5));
    const auto model = mixture_model(flours, bakes, measure).value();
    CHECK(model.coefficients[0] == Approx(4));
    CHECK(model.coefficients[1] == Approx(2));
    CHECK(model.bakes == 5);
    bakes.back().bake.set_aside = "forgot the salt";
    CHECK_FALSE(mixture_model(flours, bakes, measure));
    CHECK_FALSE(mixture_model({journal::FlourId{1}}, bakes, measure));
}

// Loaf volumes of blends of a hard red spring with a hard red winter flour, J Food Sci Technol 57
// (2020) 3581-3590, table 4; the straight line through them by statsmodels 0.13.5: 725.921053 at no
// spring flour, 314.736842 more at nothing else, residual scatter 76.804605.
TEST_CASE("the mixture model agrees with a published set of blends fitted elsewhere") {
    std::vector<journal::BakeEntry> bakes;
    for (const auto& [share, volume] :
         {std::pair{0.0, 605.0}, std::pair{0.1, 785.0}, std::pair{0.2, 847.5},
          std::pair{0.3, 875.0}, std::pair{0.4, 870.0}, std::pair{1.0, 1002.5}})
        bakes.push_back(bake(share, volume / 100));
    const auto model = mixture_model({journal::FlourId{1}, journal::FlourId{2}}, bakes,
                                     StrengthMeasure::specific_volume_ml_per_g)
                           .value();
    CHECK(100 * model.coefficients[1] == Approx(725.9210526315793));
    CHECK(100 * model.coefficients[0] == Approx(725.9210526315793 + 314.7368421052629));
    CHECK(100 * model.residual_sd == Approx(76.80460512509032));
}
