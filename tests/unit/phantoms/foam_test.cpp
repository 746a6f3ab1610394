#include "phantoms/foam.h"

#include <algorithm>
#include <numbers>

#include "catch.h"
#include "phantoms/random.h"
#include "phantoms/section.h"
#include "phantoms/truth.h"

using namespace loafmark;
using namespace loafmark::phantoms;

namespace {

constexpr double pi = std::numbers::pi;

Section cut(const std::vector<Bubble>& bubbles, const PlaneFieldGrid& fields, int threads = 2) {
    const FoamVolume volume = build_volume(bubbles, {}, fields.view(), {0.1, 1, 0.2, 5}, threads);
    return cut_section(volume, fields.view());
}

}  // namespace

TEST_CASE("a sphere cut at its equator shows its great circle") {
    const auto fields = patch_fields(-10, -10, 20, 20);
    const Section section = cut({sphere({1, -2, 0}, 4)}, fields);
    REQUIRE(section.list.size() == 1);
    CHECK(section.list[0].area == Approx(pi * 16).epsilon(0.005));
    CHECK(section.list[0].diameter == Approx(8).epsilon(0.0025));
    CHECK(section.list[0].centre.x == Approx(1).margin(0.01));
    CHECK(section.list[0].centre.y == Approx(-2).margin(0.01));
}

TEST_CASE("a sphere cut off its middle shows the smaller circle") {
    const auto fields = patch_fields(-10, -10, 20, 20);
    for (const float depth : {-3.0f, 2.0f, 3.5f}) {
        const Section section = cut({sphere({0, 0, depth}, 4)}, fields);
        REQUIRE(section.list.size() == 1);
        CHECK(section.list[0].area == Approx(pi * (16 - depth * depth)).epsilon(0.01));
    }
    CHECK(cut({sphere({0, 0, 4.2f}, 4)}, fields).list.empty());
}

// Delesse: the area fraction of a random section is the volume fraction; of overlapping spheres at
// random (Boolean model) that is 1 - exp(-n v). The mean of ten cuts; one cut scatters by about
// 0.02.
TEST_CASE("the openness of random sections is the volume share of the spheres") {
    constexpr float radius = 1.2f, side = 30, depth = 2 * radius;
    const auto fields = patch_fields(0, 0, side, side);
    const double volume = 4 * pi / 3 * radius * radius * radius;
    const int count = 260;
    const double density = count / ((side + 2 * radius) * (side + 2 * radius) * depth);
    double openness = 0;
    constexpr int cuts = 10;
    for (int c = 0; c < cuts; ++c) {
        RandomStream random(static_cast<std::uint32_t>(c) + 40);
        std::vector<Bubble> bubbles;
        for (int i = 0; i < count; ++i)
            bubbles.push_back(
                sphere({random.between(-radius, side + radius),
                        random.between(-radius, side + radius), random.between(-radius, radius)},
                       radius));
        const Section section = cut(bubbles, fields);
        openness += crumb_measures(section, section.crumb, 0.2).at(Measure::openness) / cuts;
    }
    CHECK(openness == Approx(1 - std::exp(-density * volume)).margin(0.015));
}

// Stereology: mean free path = (1 - A_A) / N_L. A disc's mean projection is its diameter, so N_L is
// the number of discs per area times that.
TEST_CASE("the mean free path between discs is that of stereology") {
    const auto fields = patch_fields(0, 0, 40, 40);
    std::vector<Bubble> bubbles;
    for (int j = 0; j < 8; ++j)
        for (int i = 0; i < 8; ++i)
            bubbles.push_back(
                sphere({2.5f + 5 * static_cast<float>(i) + 0.1f * static_cast<float>(j),
                        2.5f + 5 * static_cast<float>(j), 0},
                       1.5f));
    const Section section = cut(bubbles, fields);
    REQUIRE(section.list.size() == 64);
    const double open = 64 * pi * 1.5 * 1.5 / 1600, intercepts = 64 * 3.0 / 1600;
    CHECK(crumb_measures(section, section.crumb, 0.5).at(Measure::mean_free_path) ==
          Approx((1 - open) / intercepts).epsilon(0.025));
}

TEST_CASE("a wall stands between neighbours that overlap, unless they ran together") {
    const auto fields = patch_fields(-10, -10, 20, 20);
    std::vector<Bubble> pair{sphere({-2, 0, 0}, 3), sphere({2, 0, 0}, 3)};
    WallRules walls;
    walls.wall_mm = 0.3f;
    const auto cells = [&] {
        const FoamVolume volume = build_volume(pair, walls, fields.view(), {0.1, 1, 0.2, 5}, 1);
        return cut_section(volume, fields.view()).list.size();
    };
    CHECK(cells() == 2);
    pair[0].group = pair[1].group = 1;
    CHECK(cells() == 1);
}

TEST_CASE("the wanted openness is nearly reached in an ordinary crumb") {
    const auto fields = patch_fields(-15, -15, 30, 30);
    FoamRecipe recipe;
    recipe.openness = 0.45;
    recipe.fines_per_mm3 = 0;
    const FoamVolume volume = make_foam(recipe, fields.view(), {0.1, 1, 0.25, 8}, 2);
    const Section section = cut_section(volume, fields.view());
    CHECK(crumb_measures(section, section.crumb, 0.2).at(Measure::openness) ==
          Approx(0.45).margin(0.03));
}

TEST_CASE("no cell opens in the crust") {
    LoafShape loaf;
    loaf.width_mm = 50;
    loaf.height_mm = 40;
    const CrustShape crust;
    const auto fields = loaf_fields(loaf_outline(loaf), crust, 2);
    FoamRecipe recipe;
    const FoamVolume volume = make_foam(recipe, fields.view(), {0.1, 1, 0.25, 5}, 2);
    const Section section = cut_section(volume, fields.view());
    long in_crust = 0;
    for (std::size_t i = 0; i < section.crumb.size(); ++i)
        in_crust += section.cells.labels[i] != 0 && section.crumb[i] == 0 ? 1 : 0;
    CHECK(section.list.size() > 100);
    CHECK(in_crust == 0);
}

TEST_CASE("a rounded rim makes the cut wider, and nothing else") {
    const auto fields = patch_fields(-10, -10, 20, 20);
    WallRules rounded;
    rounded.rim_mm = 0.1f;
    const std::vector<Bubble> bubbles{sphere({0, 0, 0}, 4)};
    const FoamVolume sharp = build_volume(bubbles, {}, fields.view(), {0.1, 1, 0.2, 5}, 2);
    const FoamVolume round = build_volume(bubbles, rounded, fields.view(), {0.1, 1, 0.2, 5}, 2);
    const double wider = cut_section(round, fields.view()).list.at(0).diameter -
                         cut_section(sharp, fields.view()).list.at(0).diameter;
    CHECK(wider > 0.1);
    CHECK(wider <= 2 * 0.1 + 0.02);
    const auto sheet = static_cast<std::ptrdiff_t>(sharp.fine_grid.nx) * sharp.fine_grid.ny;
    CHECK(std::equal(sharp.fine.begin() + sheet, sharp.fine.end(), round.fine.begin() + sheet));
}

TEST_CASE("a wall stands however round its rims") {
    const auto fields = patch_fields(-10, -10, 20, 20);
    WallRules rules;
    rules.wall_mm = 0.4f;
    rules.rim_mm = 0.5f;
    const FoamVolume volume = build_volume({sphere({-2.9f, 0, 0}, 3), sphere({2.9f, 0, 0}, 3)},
                                           rules, fields.view(), {0.1, 1, 0.2, 5}, 2);
    CHECK(cut_section(volume, fields.view()).list.size() == 2);
}

TEST_CASE("the section of torn crumb is taken along its face, not in the plane above it") {
    const auto fields = patch_fields(-10, -10, 20, 20);
    WallRules torn;
    torn.torn_mm = 3;
    torn.torn_share = 1.1f;
    const auto section = [&](const Bubble& bubble) {
        return cut_section(build_volume({bubble}, torn, fields.view(), {0.1, 4, 0.2, 6}, 2),
                           fields.view());
    };
    // Its top lies 0.5 mm below the plane, and the face mostly deeper than that.
    const Section shallow = section(sphere({0, 0, 3.5f}, 3));
    CHECK(!shallow.list.empty());
    CHECK(section(sphere({0, 0, 7}, 3)).list.empty());  // deeper than any tear
}
