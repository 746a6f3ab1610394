#include "view_parts.h"

namespace loafmark::phantoms {

PhantomRecipe cheap_scene(Dice& dice, std::uint32_t seed, int number, Family family) {
    PhantomRecipe recipe;
    recipe.seed = hash32(seed, static_cast<std::uint32_t>(number));
    recipe.light = light_recipe(dice, family);
    recipe.development = development(dice);
    recipe.jpeg_quality = 78 + dice.pick(18);
    recipe.surface = surface(dice, family);
    recipe.surface_tint = surface_tint(dice);
    recipe.grain_angle = dice.between(0, pi);
    recipe.morsels = dice.pick(14);
    recipe.voxel_mm = 0.16;
    recipe.foam_depth_mm = 3.2;
    recipe.crumb_is_judged = false;
    recipe.samples = {1, 4};
    return recipe;
}

SliceRecipe cheap_slice(Dice& dice, const FlourLook& flour, Family family) {
    SliceRecipe slice;
    slice.bread = bread_look(dice, flour);
    slice.foam = foam_recipe(dice, family, flour.most_open);
    slice.foam.fines_per_mm3 = std::min(slice.foam.fines_per_mm3, 0.6);
    slice.foam.diameter_mm = std::max(slice.foam.diameter_mm, 1.1);
    slice.foam.matrix_mm = std::max(slice.foam.matrix_mm, 0.9);
    slice.thickness_mm = dice.between(9, 20);
    slice.loaf = loaf_shape(dice, family);
    slice.crust = crust_shape(dice);
    return slice;
}

void lay_at(SliceRecipe& slice, PlanePoint middle_mm, double angle) {
    const PlanePoint middle = turned_box(slice.loaf, angle).middle;
    slice.pose.angle = angle;
    slice.pose.origin_mm = {middle_mm.x - middle.x, middle_mm.y - middle.y};
}

void rule(Dice& dice, const PhantomRecipe& recipe, SliceRecipe& slice) {
    slice.pose.height_mm = height_of_cut(recipe, slice);
    const double plate = recipe.plate.there ? recipe.plate.well_height : 0;
    // Three draws make a bell; its standard deviation is 0.15 mm.
    const double wrong =
        0.15 * 2 * (dice.between(-1, 1) + dice.between(-1, 1) + dice.between(-1, 1)) / 2;
    slice.ruled_mm = std::round(2 * (slice.thickness_mm + plate + wrong)) / 2;
}

std::vector<Solid> hand_beside(Dice& dice, const SliceRecipe& slice, bool from_right) {
    const std::vector<ScenePoint> points = outline_points(slice);
    const double way = from_right ? 1 : -1;
    double edge = -1e9, level = 0;
    for (const ScenePoint& p : points)
        if (way * p.at_mm.x > edge) {
            edge = way * p.at_mm.x;
            level = p.at_mm.y;
        }
    const bool knife = dice.chance(0.3);
    const Colour skin =
        mix(Colour{0.62f, 0.40f, 0.30f}, Colour{0.16f, 0.085f, 0.055f}, dice.f(0, 1));
    const double gap = dice.between(1, 8), lift = dice.between(0, 6);
    std::vector<Solid> parts;
    const auto add = [&](double x0, double y0, double x1, double y1, double radius, Colour colour) {
        const auto z = [&](double r) { return static_cast<float>(-r - lift); };
        parts.push_back({{static_cast<float>(way * x0), static_cast<float>(y0), z(radius)},
                         {static_cast<float>(way * x1), static_cast<float>(y1), z(radius)},
                         static_cast<float>(radius),
                         colour});
    };
    if (knife) {
        const double slope = dice.between(-0.4, 0.4);
        add(edge + gap + 3, level, edge + gap + 103, level + 100 * slope, 2.5,
            {0.42f, 0.43f, 0.45f});
        add(edge + gap + 103, level + 100 * slope, edge + gap + 203, level + 200 * slope, 9,
            {0.05f, 0.04f, 0.035f});
        return parts;
    }
    for (int finger = 0; finger < 4; ++finger) {
        const double r = dice.between(6.5, 8.5), y = level + (finger - 1.5) * 18;
        add(edge + gap + r + dice.between(0, 9), y, edge + gap + 75, level + (finger - 1.5) * 15, r,
            skin);
    }
    add(edge + gap + 85, level - 14, edge + gap + 85, level + 16, 24, skin);
    add(edge + gap + 85, level, edge + gap + 260, level + dice.between(-40, 60), 27, skin);
    return parts;
}

CameraWish hand_held(Dice& dice) {
    CameraWish wish;
    wish.tilt = dice.between(0, 20) * pi / 180;
    wish.towards = dice.between(0, 2 * pi);
    wish.roll = dice.between(-0.12, 0.12);
    wish.focal_35mm = std::round(dice.between(24, 29));
    wish.aspect = dice.chance(0.2) ? 2.0 / 3 : 0.75;
    wish.pixels_per_mm = dice.between(8.0, 8.8);
    wish.least_distance_mm = dice.between(220, 300);
    return wish;
}

std::string surface_name(Surface surface) {
    switch (surface) {
        case Surface::wood:
            return "wood";
        case Surface::dark_cloth:
            return "dark cloth";
        case Surface::slate:
            return "slate";
        case Surface::linen:
            return "linen";
        case Surface::marble:
            return "marble";
        case Surface::terracotta:
            return "terracotta";
        case Surface::checked_cloth:
            return "checked cloth";
        case Surface::felt:
            break;
    }
    return "felt";
}

}  // namespace loafmark::phantoms
