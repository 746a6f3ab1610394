#include "insight/sheet.h"

#include <cmath>
#include <stdexcept>

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::insight;

namespace {

journal::BakeEntry baked(std::int64_t id, const std::string& flour, double height, double density) {
    auto bake = made_up::bake(id, {2026, 3, 1}, flour, flour == "White" ? 1 : 2, 70, 0.4);
    bake.loaves[0].slices = {made_up::slice(id, {{Measure::loaf_height, made_up::about(height)}})};
    bake.loaves[0].slices[0].weighed[Measure::crumb_density] = made_up::about(density);
    return bake;
}

const SheetLine* line_of(const std::vector<SheetLine>& lines, const std::string& heading) {
    for (const SheetLine& line : lines)
        if (line.heading == heading) return &line;
    return nullptr;
}

}  // namespace

TEST_CASE("equal bite is equal grams a square centimetre of cut face") {
    // 15 mm of 0.20 g/cm3 is 0.30 g/cm2; of 0.30 g/cm3 that is 10 mm.
    CHECK(std::abs(equal_bite(Millimetres(15), 0.20, 0.30).count() - 10) < 1e-12);
    for (const double density : {0.12, 0.2, 0.45})
        CHECK(std::abs(equal_bite(Millimetres(12), 0.25, density).count() * density - 3) < 1e-12);
    CHECK_THROWS_AS(equal_bite(Millimetres(15), 0.2, 0), std::invalid_argument);
}

TEST_CASE("a kind has no name, and its protein is a range by whole percents") {
    journal::Flour flour;
    flour.name = "Mill Brook Best";
    flour.grain = "spelt";
    flour.grade = "white";
    flour.protein = Fraction(0.124);
    CHECK(sheet_kind_of(flour, {}).words == "white spelt");
    CHECK(sheet_kind_of(flour, {}).protein == "12 to 13 % protein (as on the pack)");
    flour.protein_basis = journal::ProteinBasis::dry;
    journal::Bag bag;
    bag.protein = Fraction(0.16);
    bag.protein_basis = journal::ProteinBasis::dry;
    // 0.86 x 12.4 = 10.7 and 0.86 x 16 = 13.8.
    CHECK(sheet_kind_of(flour, {bag}).protein == "10 to 14 % protein (at 14 % moisture)");
    flour.grain.reset();
    flour.grade.reset();
    CHECK(sheet_kind_of(flour, {}).words == "flour of a grain that is not noted");
}

TEST_CASE("a sheet says what the journal supports, each line with how many, and nothing else") {
    CHECK(sheet_lines({}).empty());
    SheetWish wish;
    wish.own = {baked(3, "Emmer", 80, 0.30), baked(4, "Emmer", 82, 0.30)};
    wish.own[0].bake.handling = "tacky";
    wish.control = {baked(1, "White", 95, 0.20), baked(2, "White", 93, 0.20)};
    wish.control_name = "white wheat";
    wish.journal = wish.control;
    wish.journal.insert(wish.journal.end(), wish.own.begin(), wish.own.end());
    wish.usual_thickness = Millimetres(15);
    const auto lines = sheet_lines(wish);
    const SheetLine* height = line_of(lines, "loaf height beside white wheat");
    REQUIRE(height);
    CHECK(height->text.find("81.0 mm against 94.0 mm") == 0);
    CHECK(height->from == "2 bakes against 2");
    const SheetLine* slice = line_of(lines, "a slice to bite through alike");
    REQUIRE(slice);
    CHECK(slice->text.find("10 mm where white wheat is cut 15 mm") == 0);
    CHECK(line_of(lines, "the water it had")->text == "baked with 70 %, tacky at 70 %");
    CHECK_FALSE(line_of(lines, "how it keeps"));
    CHECK_FALSE(line_of(lines, "into the oven at"));
    for (const SheetLine& line : lines)
        CHECK_FALSE(line.from.empty());
}

TEST_CASE("keeping is told by day, from tastings that are over") {
    SheetWish wish;
    wish.own = {baked(3, "Emmer", 80, 0.30)};
    for (const auto& [day, firm] : {std::pair{1, 3.0}, {2, 5.0}, {3, 6.5}}) {
        journal::Tasting tasting;
        tasting.bake = {3};
        tasting.taster = "Ada";
        tasting.date = {2026, 3, day};
        tasting.scores.lines["soft-firm"] = firm;
        tasting.scores.words = "good for soup";
        wish.tastings.push_back(tasting);
    }
    const auto lines = sheet_lines(wish);
    REQUIRE(line_of(lines, "how it keeps"));
    CHECK(line_of(lines, "how it keeps")->text ==
          "soft - firm, 0 to 10: 3.0 on day 1, 5.0 on day 2, 6.5 on day 3");
    CHECK(line_of(lines, "how it keeps")->from == "3 tastings");
    CHECK(line_of(lines, "in tasters' words")->text == "\u201cgood for soup\u201d");
    for (journal::Tasting& tasting : wish.tastings) {
        tasting.sitting = journal::SittingId{1};
        tasting.scored = tasting.date.day != 3;
    }
    CHECK_FALSE(line_of(sheet_lines(wish), "how it keeps"));
}
