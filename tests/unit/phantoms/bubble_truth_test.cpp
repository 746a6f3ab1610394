// What lies in the crumb besides its cells: the bubbles that were cut, and specks that are none.
#include <algorithm>
#include <cmath>

#include "catch.h"
#include "phantoms/recipes.h"
#include "phantoms/truth.h"

using namespace loafmark;
using namespace loafmark::phantoms;

TEST_CASE("half of the bubbles' volume lies in those up to the volume-weighted median") {
    // Volumes as 1, 8, 27, 64: the last holds more than half.
    const TrueMeasures measures = bubble_measures({4, 1, 2, 3, 0.3f});
    CHECK(measures.at(Measure::cell_diameter_3d_volume_d50) == Approx(4));
    CHECK(measures.at(Measure::cell_diameter_3d_volume_d10) == Approx(3));
    CHECK(measures.at(Measure::cell_diameter_3d_number_d50) == Approx(2.5));  // 0.3 mm is too small
    CHECK(bubble_measures({0.2f}).empty());
}

TEST_CASE("specks lie on solid crumb, and a crumb without bran and seeds has none") {
    Section section;
    section.cells = {300, 300, std::vector<std::uint16_t>(90000, 0)};
    section.crumb.assign(90000, 1);
    for (std::size_t i = 0; i < 90000; i += 2)
        if (i % 300 < 150) section.cells.labels[i] = section.cells.labels[i + 1] = 1;
    BreadLook look;
    look.seed_share = 0.8f;
    const LabelMap specks = speck_map(section, look);
    CHECK(*std::max_element(specks.labels.begin(), specks.labels.end()) > 3);
    for (std::size_t i = 0; i < 90000; ++i)
        if (section.cells.labels[i] && specks.labels[i]) FAIL("a speck in a cell at pixel " << i);
    look.seed_share = 0;
    look.bran_share = 0;
    const LabelMap none = speck_map(section, look);
    CHECK(*std::max_element(none.labels.begin(), none.labels.end()) == 0);
}

TEST_CASE("bran lies in the cut as densely as in other planes through the loaf") {
    BreadLook look;
    look.bran_share = 0.5f;
    const auto flakes_at = [&](float depth) {
        int count = 0;
        for (int y = 0; y < 300; ++y)
            for (int x = 0; x < 300; ++x)
                count += bran_flake(look, {0.1f * static_cast<float>(x),
                                           0.1f * static_cast<float>(y), depth}) != 0;
        return count;
    };
    int elsewhere = 0;
    constexpr int planes = 40;
    for (int i = 1; i <= planes; ++i)
        elsewhere += flakes_at(2.2f * look.bran_mm * static_cast<float>(i) / planes);
    CHECK(flakes_at(0) > 900);  // a hundredth of the face
    CHECK(flakes_at(0) > elsewhere / planes / 2);
}

TEST_CASE("spheres that stand apart keep the size of their recipe, and round sections") {
    PhantomRecipe recipe = sphere_patch(31, 1, Family::development);
    recipe.patch_mm = 12;
    recipe.camera.width = recipe.camera.height = 96;
    recipe.samples = {1, 1};
    const Phantom phantom = make_phantom(recipe, 2);
    const PhantomSlice& slice = phantom.slices.front();
    REQUIRE_FALSE(slice.bubbles.empty());
    CHECK(slice.bubbles.at(Measure::cell_diameter_3d_volume_d50) ==
          Approx(recipe.slices[0].foam.diameter_mm).epsilon(0.3));
    // No section is wider than the largest sphere.
    for (const SectionCell& cell : slice.section.list)
        CHECK(cell.diameter < 3 * slice.bubbles.at(Measure::cell_diameter_3d_volume_d90));
    CHECK(slice.specks.labels.size() == slice.section.cells.labels.size());
}
