#include "scene_recipe.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "phantoms/dice.h"
#include "view_parts.h"

namespace loafmark::training {

using namespace phantoms;

namespace {

constexpr std::uint32_t scene_seeds = 0x51CE0000U;  // apart from those of judged photos
constexpr int whole_side = 512, near_side = 448;    // pixels, longer side
constexpr int shots_a_scene = 4;

BreadLook wide_bread(Dice& dice, const FlourLook& flour) {
    BreadLook look = bread_look(dice, flour);
    // From crust that is hardly darker than the crumb to burnt.
    look.crust_top = mix(look.crust_top, look.crumb, dice.chance(0.35) ? dice.f(0, 0.8) : 0.0f);
    look.crust_base = mix(look.crust_base, look.crumb, dice.chance(0.35) ? dice.f(0, 0.6) : 0.0f);
    look.flour_dust = dice.chance(0.4) ? dice.f(0.1, 1.0) : 0;
    look.smear = dice.chance(0.4) ? dice.f(0.05, 0.7) : 0;
    look.face_dust = dice.chance(0.15) ? dice.f(0.05, 0.4) : 0;
    look.pale_bran = dice.chance(0.3) ? dice.f(0, 0.6) : 0;
    look.seed_share = dice.chance(0.2) ? dice.f(0.02, 0.25) : 0;
    look.seed_mm = dice.f(4, 9);
    look.seed_proud = dice.f(0, 0.6);
    look.sheen = dice.chance(0.3) ? dice.f(0, 0.5) : 0;
    return look;
}

// As many hard and low lamps as soft ones.
LightRecipe wide_light(Dice& dice) {
    LightRecipe light = light_recipe(dice, Family::development);
    if (dice.chance(0.5)) {
        light.lamp_elevation = dice.between(0.15, 1.4);
        light.lamp_distance_mm = dice.ratio(400, 2000);
        light.lamp_radius_mm = light.lamp_distance_mm * dice.ratio(0.01, 0.15);
        light.lamp_strength = dice.ratio(0.5, 5);
    }
    return light;
}

Development wide_development(Dice& dice) {
    Development how = development(dice);
    how.defocus_px = dice.ratio(0.15, 1.2);  // a small picture of a large photo is sharp
    how.exposure_stops = dice.between(-0.7, 0.9);
    how.warmth = dice.between(-0.3, 0.3);
    how.shot_noise = dice.ratio(0.001, 0.02);
    return how;
}

Colour any_tint(Dice& dice) {
    const float tone = static_cast<float>(dice.ratio(0.4, 2.0));
    return {tone * dice.f(0.7, 1.3), tone * dice.f(0.85, 1.15), tone * dice.f(0.6, 1.4)};
}

// Some loaves of shapes that few tins give; a slice alone has room for them.
LoafShape wide_loaf(Dice& dice, LoafShape loaf) {
    loaf.width_mm = dice.between(60, 165);
    loaf.height_mm = std::min(160.0, loaf.width_mm * dice.ratio(0.3, 1.4));
    loaf.base_share = dice.between(0.55, 1);
    loaf.side_share = dice.between(0.4, 0.95);
    loaf.dome_power = dice.ratio(1.7, 5);
    loaf.waist_mm = dice.chance(0.3) ? dice.between(0.5, 6) : 0;
    loaf.roughness_mm = dice.ratio(0.2, 1.8);
    return loaf;
}

// Fingers that touch the bread, come over its rim or lie behind it.
void move_hand(Dice& dice, PhantomRecipe& recipe) {
    if (recipe.things.empty()) return;
    const Vec3 towards =
        Vec3{static_cast<float>(-recipe.slices[0].pose.origin_mm.x), 0, 0} + recipe.things[0].to;
    const float way = towards.x > 0 ? -1.0f : 1.0f;
    const Vec3 by{way * dice.f(0, 16), dice.f(-20, 20), dice.f(-6, 12)};
    for (Solid& part : recipe.things)
        part.from = part.from + by, part.to = part.to + by;
}

PhantomRecipe slices_of(Dice& dice, std::uint32_t seed) {
    const double kind = dice.between(0, 1);
    const int number = 1 + dice.pick(12);
    PhantomRecipe recipe = kind < 0.42 ? shape_view(scene_seeds + seed, number, Family::development)
                           : kind < 0.7
                               ? several_view(scene_seeds + seed, number, Family::development)
                               : standing_view(scene_seeds + seed, number, Family::development);
    recipe.voxel_mm = 0.25;
    recipe.samples = {3, 8};
    if (kind < 0.42) {
        if (dice.chance(0.35)) recipe.slices[0].loaf = wide_loaf(dice, recipe.slices[0].loaf);
        recipe.slices[0].thickness_mm = dice.ratio(6, 30);
        if (recipe.things.empty() && dice.chance(0.25))
            recipe.things = hand_beside(dice, recipe.slices[0], dice.chance(0.5));
    }
    for (SliceRecipe& slice : recipe.slices) {
        if (dice.chance(0.2)) {
            slice.foam.torn_mm = dice.ratio(0.4, 2.5);
            slice.foam.torn_share = dice.between(0.3, 1);
        }
        if (recipe.stance == Stance::lying) slice.pose.height_mm = height_of_cut(recipe, slice);
    }
    return recipe;
}

// Where the scene's bread lies in the whole frame of that camera: left, top, right, bottom.
std::array<double, 4> bounds(const Camera& camera, const SliceRecipe& slice) {
    std::array<double, 4> box{1e9, 1e9, -1e9, -1e9};
    const Homography h = photo_from_slice(camera, slice.pose);
    for (const PlanePoint& p : loaf_outline(slice.loaf)) {
        const PhotoPoint q = project(h, p);
        box = {std::min(box[0], q.x), std::min(box[1], q.y), std::max(box[2], q.x),
               std::max(box[3], q.y)};
    }
    return box;
}

Camera scaled(Camera camera, double share) {
    camera.width = std::max(16, static_cast<int>(std::lround(camera.width * share)));
    camera.height = std::max(16, static_cast<int>(std::lround(camera.height * share)));
    return camera;
}

Camera any_camera(Dice& dice, const PhantomRecipe& recipe) {
    if (recipe.stance == Stance::standing) {
        CameraWish wish = hand_held(dice);
        wish.tilt = dice.between(0, 24) * pi / 180;
        wish.towards = -pi / 2 + dice.between(-0.8, 0.8);
        wish.roll = dice.between(-0.1, 0.1);
        wish.landscape = dice.chance(0.8);
        wish.margin = dice.between(0.02, 0.2);
        std::vector<ScenePoint> points = outline_points(recipe.slices[0]);
        if (recipe.target) {
            const std::vector<ScenePoint> card = target_corners(TargetKind::strip);
            points.insert(points.begin(), card.begin(), card.end());
        }
        return frame_points(points, wish);
    }
    CameraWish wish = hand_held(dice);
    wish.tilt = dice.between(0, dice.chance(0.2) ? 40 : 22) * pi / 180;
    wish.landscape = dice.chance(0.4);
    wish.focal_35mm = dice.between(24, 50);
    wish.least_distance_mm = dice.between(200, 450);
    wish.margin = dice.between(0.01, 0.25);
    if (dice.chance(0.3)) wish.roll = dice.between(-pi, pi);
    std::vector<ScenePoint> points;
    if (recipe.target && dice.chance(0.75)) points = target_corners(*recipe.target);
    for (const SliceRecipe& slice : recipe.slices) {
        const std::vector<ScenePoint> outline = outline_points(slice);
        points.insert(points.end(), outline.begin(), outline.end());
    }
    return frame_points(points, wish);
}

void frame_whole(Shot& shot) {
    Camera& camera = shot.recipe.camera;
    camera =
        scaled(camera, static_cast<double>(whole_side) / std::max(camera.width, camera.height));
    shot.window = {0, 0, camera.width, camera.height};
}

// The view that the second look takes: a square round one slice, with something around it.
void frame_near(Dice& dice, Shot& shot) {
    const auto which =
        static_cast<std::size_t>(dice.pick(static_cast<int>(shot.recipe.slices.size())));
    Camera& camera = shot.recipe.camera;
    const std::array<double, 4> box = bounds(camera, shot.recipe.slices[which]);
    const double side = std::max(box[2] - box[0], box[3] - box[1]) * dice.between(1.1, 1.8);
    const double share = near_side / side;
    const double spare_x = (side - (box[2] - box[0])) / 2, spare_y = (side - (box[3] - box[1])) / 2;
    const double left = (box[0] + box[2] - side) / 2 + 0.8 * spare_x * dice.between(-1, 1);
    const double top = (box[1] + box[3] - side) / 2 + 0.8 * spare_y * dice.between(-1, 1);
    camera = scaled(camera, share);
    shot.window = {static_cast<int>(std::lround(left * share)),
                   static_cast<int>(std::lround(top * share)), near_side, near_side};
}

Shot random_shot(Dice& dice, const PhantomRecipe& scene, int number) {
    Shot shot{scene, {}};
    PhantomRecipe& recipe = shot.recipe;
    recipe.seed = dice.seed();
    const bool one_flour = dice.chance(0.6);
    const FlourLook* flour = &flour_look(dice);
    for (SliceRecipe& slice : recipe.slices) {
        if (!one_flour) flour = &flour_look(dice);
        slice.bread = wide_bread(dice, *flour);
    }
    recipe.light = wide_light(dice);
    // Light from behind a standing loaf would show nothing of its cut.
    if (recipe.stance == Stance::standing) recipe.light.lamp_azimuth = dice.between(-2.9, -0.25);
    recipe.development = wide_development(dice);
    recipe.surface = surface(dice, Family::development);
    recipe.surface_tint = any_tint(dice);
    recipe.grain_angle = dice.between(0, pi);
    recipe.morsels = dice.chance(0.15) ? 40 + dice.pick(60) : dice.pick(16);
    if (recipe.stance == Stance::standing) recipe.backdrop = dice.between(0.3, 1);
    if (recipe.plate.there)
        recipe.plate.colour =
            mix(Colour{0.12f, 0.16f, 0.22f}, Colour{0.78f, 0.77f, 0.74f}, dice.f(0, 1));
    if (dice.chance(0.6)) move_hand(dice, recipe);
    constexpr std::array fields{MatField::white, MatField::blue, MatField::frame};
    recipe.field = fields[static_cast<std::size_t>(dice.pick(3))];
    if (dice.chance(0.3)) recipe.target.reset();
    recipe.camera = any_camera(dice, recipe);
    if (number % 2 == 0)
        frame_whole(shot);
    else
        frame_near(dice, shot);
    return shot;
}

}  // namespace

SceneRecipe random_scene(std::uint32_t seed) {
    Dice dice(hash32(seed, scene_seeds));
    SceneRecipe scene;
    scene.made_once = slices_of(dice, seed);
    for (int i = 0; i < shots_a_scene; ++i)
        scene.shots.push_back(random_shot(dice, scene.made_once, i));
    return scene;
}

}  // namespace loafmark::training
