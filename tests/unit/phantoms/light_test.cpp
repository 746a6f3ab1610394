#include "phantoms/path.h"

#include <vector>

#include "catch.h"
#include "phantoms/foam.h"
#include "phantoms/pixel.h"

using namespace loafmark::phantoms;

namespace {

// A block of bread 24 mm square and 12 mm thick with these bubbles in it.
struct Block {
    PlaneFieldGrid fields = patch_fields(-12, -12, 24, 24);
    FoamVolume volume;
    SliceView slice;
    explicit Block(const std::vector<Bubble>& bubbles, double step_mm = 0.1)
        : volume(build_volume(bubbles, {}, fields.view(), {step_mm, 6, 0.2, 12}, 2)) {
        slice.level = volume.view();
        slice.fields = fields.view();
        slice.low = {-12, -12, 0};
        slice.high = {12, 12, 12};
    }
    Block(const Block&) = delete;
    Block& operator=(const Block&) = delete;
    [[nodiscard]] SceneView scene(float reflectance) const {
        SceneView scene;
        scene.slices[0] = slice;
        scene.slice_count = 1;
        scene.table.point = {0, 0, 12.15f};
        scene.white_everywhere = reflectance;
        scene.max_bounces = 2000;
        scene.roulette = false;
        return scene;
    }
};

// Mean radiance seen straight from above over the disc of that radius.
float mean_radiance(const SceneView& scene, float radius, int rays) {
    RandomStream random(5);
    float sum = 0;
    for (int i = 0; i < rays; ++i) {
        const float r = radius * std::sqrt(random.next()), a = 6.2831853f * random.next();
        const Vec3 from{r * std::cos(a), r * std::sin(a), -50};
        const FirstChoices choices{{random.next(), random.next()}, {random.next(), random.next()}};
        sum += trace_path(scene, from, {0, 0, 1}, choices,
                          RandomStream(static_cast<std::uint32_t>(i) + 77))
                   .radiance.g;
    }
    return sum / static_cast<float>(rays);
}

}  // namespace

TEST_CASE("in a furnace of uniform light, white bread shows exactly that light") {
    const Block block({sphere({0, 0, 1}, 4), sphere({4, 2, 4}, 3), sphere({-6, -5, 0}, 2)});
    SceneView scene = block.scene(1);
    scene.light = {{0.7f, 0.7f, 0.7f}, {0.7f, 0.7f, 0.7f}, {}, {0, 0, -1}, {}, {0, 0, -1000}, 50};
    CHECK(mean_radiance(scene, 9, 300) == Approx(0.7).epsilon(1e-5));
}

// Inside a sphere every wall sees every other alike (form factor dA / 4 pi R^2). For the hemisphere
// under uniform light L: E = pi L / 2 + rho E / 2, so the wall shows rho E / pi = L rho / (2 -
// rho).
TEST_CASE("a hemispherical cavity of known reflectance shows the closed form's light") {
    const Block block({sphere({0, 0, 0}, 5)});
    for (const float rho : {0.3f, 0.8f}) {
        const SceneView scene = block.scene(rho);
        CHECK(mean_radiance(scene, 4.7f, 20000) == Approx(rho / (2 - rho)).epsilon(0.02));
    }
}

TEST_CASE("a flat cut shows its reflectance in uniform light, a deep cavity much less") {
    const Block block({sphere({0, 0, 5.2f}, 5.5f)});
    CHECK(mean_radiance(block.scene(0.6f), 1.2f, 4000) < 0.35f * 0.6f);
    const Block solid({sphere({0, 0, 9}, 1)});
    CHECK(mean_radiance(solid.scene(0.6f), 8, 500) == Approx(0.6).epsilon(1e-5));
}

TEST_CASE("a lamp to one side lights the far wall of a cavity and shades the near one") {
    const Block block({sphere({0, 0, 0}, 5)});
    SceneView scene = block.scene(0.5f);
    scene.light = {{}, {}, {}, {0, 0, -1}, {50, 50, 50}, {800, 0, -500}, 80};
    const auto seen = [&](float x) {
        float sum = 0;
        for (std::uint32_t i = 0; i < 400; ++i) {
            RandomStream random(i);
            const FirstChoices choices{{random.next(), random.next()},
                                       {random.next(), random.next()}};
            sum += trace_path(scene, {x, 0, -50}, {0, 0, 1}, choices, random).radiance.g;
        }
        return sum / 400;
    };
    CHECK(seen(-3.5f) > 3 * seen(3.5f));
}

TEST_CASE("below the depth of its voxels a slice is solid, and light ends there") {
    Block block({sphere({0, 0, 4}, 5.9f)});
    block.slice.solid_from = 3;
    const SceneView scene = block.scene(0.5f);
    const Hit floor = meet_scene(scene, {0, 0, -50}, {0, 0, 1});
    CHECK(floor.kind == HitKind::cavity);
    CHECK(floor.point.z > 2);
    CHECK(floor.point.z < 3.1f);
    CHECK(floor.normal.z < -0.8f);
}

TEST_CASE("a ray meets the nearer of two slices, each in its own place") {
    const Block block({sphere({0, 0, 9}, 1)});
    SceneView scene = block.scene(0.5f);
    scene.slices[1] = block.slice;
    scene.slices[1].place = {0, 1, {40, 5, -3}, 1};  // a quarter turn
    scene.slice_count = 2;
    const Hit first = meet_scene(scene, {3, 0, -50}, {0, 0, 1});
    CHECK(first.item == 0);
    CHECK(first.point.z == Approx(0).margin(1e-4));
    const Hit second = meet_scene(scene, {45, 5, -50}, {0, 0, 1});
    CHECK(second.item == 1);
    CHECK(second.kind == HitKind::face);
    CHECK(second.point.x == Approx(45));
    CHECK(second.point.z == Approx(-3));
    CHECK(meet_scene(scene, {26, 0, -50}, {0, 0, 1}).kind == HitKind::table);
}
