// One slice on a table: what an outline finder meets in kitchens, scene by scene.
#include <array>

#include "view_parts.h"

namespace loafmark::phantoms {

namespace {

enum class Theme {
    blue_mat,
    pale_on_white,
    frame_mat,
    letter_mat,
    strip,
    floury_crown,
    plate,
    hand,
    many_crumbs,
    any_turn,
    no_focal_length,
    low_resolution,
};
constexpr int theme_count = 12;

constexpr std::array<const char*, theme_count> theme_words{"blue mat",
                                                           "pale bread on a white field",
                                                           "framed mat",
                                                           "Letter mat",
                                                           "strip",
                                                           "floury crown beside a strip",
                                                           "on a plate",
                                                           "a hand or a knife beside it",
                                                           "many crumbs",
                                                           "turned by any angle",
                                                           "no focal length in EXIF",
                                                           "low resolution"};

bool wants_strip(Theme theme) {
    return theme == Theme::strip || theme == Theme::floury_crown || theme == Theme::plate;
}

void choose_target(Dice& dice, Theme theme, PhantomRecipe& recipe) {
    const bool strip = wants_strip(theme) ||
                       (dice.chance(0.3) && (theme == Theme::hand || theme >= Theme::many_crumbs));
    recipe.target = strip ? TargetKind::strip
                          : (theme == Theme::letter_mat || dice.chance(0.2) ? TargetKind::letter_mat
                                                                            : TargetKind::a4_mat);
    const int field = dice.pick(4);
    recipe.field = field < 2 ? MatField::blue : field == 2 ? MatField::white : MatField::frame;
    if (theme == Theme::blue_mat) recipe.field = MatField::blue;
    if (theme == Theme::pale_on_white) recipe.field = MatField::white;
    if (theme == Theme::frame_mat) recipe.field = MatField::frame;
}

void choose_bread(Dice& dice, Theme theme, Family family, PhantomRecipe& recipe) {
    const bool pale = theme == Theme::pale_on_white;
    SliceRecipe& slice = recipe.slices[0];
    slice = cheap_slice(dice, pale ? white_flour() : flour_look(dice), family);
    if (pale) {
        slice.bread.crust_top = mix(slice.bread.crust_top, Colour{0.5f, 0.34f, 0.17f}, 0.7f);
        slice.bread.flour_dust = dice.f(0.2, 0.9);
    }
    if (theme == Theme::floury_crown) {
        slice.bread.flour_dust = dice.f(0.7, 1.0);
        if (family == Family::development) recipe.surface = Surface::wood;
    }
}

void add_plate(Dice& dice, PhantomRecipe& recipe, PlanePoint middle, double across) {
    Plate& plate = recipe.plate;
    plate.there = true;
    plate.centre = {static_cast<float>(middle.x), static_cast<float>(middle.y), 0};
    // The slice lies wholly in the well.
    plate.well_radius = static_cast<float>(across / 2 + dice.between(2, 12));
    plate.rim_radius = plate.well_radius + dice.f(18, 30);
    plate.well_height = dice.f(3, 7);
    plate.rim_height = plate.well_height + dice.f(7, 14);
    plate.colour = dice.chance(0.6) ? Colour{0.74f, 0.73f, 0.70f} : Colour{0.16f, 0.22f, 0.27f};
}

double turn_of(Dice& dice, Theme theme) {
    if (theme == Theme::any_turn) return dice.between(0, 2 * pi);
    return dice.between(-0.2, 0.2) + (dice.chance(0.25) ? dice.pick(4) * pi / 2 : 0);
}

// On a mat in its field, beside a strip above it.
void place(Dice& dice, Theme theme, PhantomRecipe& recipe) {
    SliceRecipe& slice = recipe.slices[0];
    const double turn = turn_of(dice, theme);
    const TurnedBox box = turned_box(slice.loaf, turn);
    PlanePoint middle;
    if (const auto field = field_of(*recipe.target)) {
        const double free_x = std::max(0.0, field->width_mm - box.width - 6) / 2;
        const double free_y = std::max(0.0, field->height_mm - box.height - 6) / 2;
        middle = {field->top_left_mm.x + field->width_mm / 2 + free_x * dice.between(-1, 1),
                  field->top_left_mm.y + field->height_mm / 2 + free_y * dice.between(-1, 1)};
    } else {
        const double clear = theme == Theme::plate ? 70 : dice.between(26, 40);
        middle = {dice.between(45, 95), -clear - box.height / 2};
    }
    if (theme == Theme::plate) {
        const double across = std::hypot(slice.loaf.width_mm, slice.loaf.height_mm) + 6;
        middle.y = -across / 2 - 65;
        add_plate(dice, recipe, middle, across);
    }
    const bool on_cloth = is_cloth(recipe.surface) && recipe.target == TargetKind::strip;
    slice.gap_mm = on_cloth && !recipe.plate.there ? 1.1 : 0.15;
    lay_at(slice, middle, turn);
    rule(dice, recipe, slice);
}

void aim(Dice& dice, Theme theme, PhantomRecipe& recipe) {
    CameraWish wish = hand_held(dice);
    wish.landscape = recipe.target == TargetKind::strip ? dice.chance(0.6) : dice.chance(0.15);
    if (dice.chance(0.2)) {  // from another side of the table
        wish.roll += dice.chance(0.5) ? pi / 2 : -pi / 2;
        wish.landscape = !wish.landscape;
    }
    if (theme == Theme::low_resolution) wish.pixels_per_mm = dice.between(4.5, 6.5);
    std::vector<ScenePoint> points = target_corners(*recipe.target);
    const std::vector<ScenePoint> slice = outline_points(recipe.slices[0]);
    points.insert(points.end(), slice.begin(), slice.end());
    recipe.camera = frame_points(points, wish);
}

// Near square on, or from a side; both hold the slice and its mirror image.
Camera camera_over(PhantomRecipe recipe, CameraWish wish, double tilt) {
    std::vector<ScenePoint> points = target_corners(*recipe.target);
    for (const bool mirrored : {true, false}) {
        recipe.slices[0].pose.mirrored = mirrored;
        const std::vector<ScenePoint> outline = outline_points(recipe.slices[0]);
        points.insert(points.end(), outline.begin(), outline.end());
    }
    wish.tilt = tilt;
    return frame_points(points, wish);
}

}  // namespace

ChangedViews changed_views(std::uint32_t seed, int number, Family family) {
    // Each in a scene of its own; that of low resolution, the last, would leave nothing to halve.
    const int scene =
        1 + (number - 1) / (theme_count - 1) * theme_count + (number - 1) % (theme_count - 1);
    Dice dice = dice_of(seed, number, family, 6);
    ChangedViews views;
    views.first = shape_view(seed, scene, family);
    const CameraWish wish = hand_held(dice);
    views.first.camera = camera_over(views.first, wish, dice.between(0, 4) * pi / 180);
    views.mirrored = views.first;
    views.mirrored.slices[0].pose.mirrored = true;
    views.tilted = views.first;
    views.tilted.camera = camera_over(views.first, wish, 20 * pi / 180);
    return views;
}

PhantomRecipe shape_view(std::uint32_t seed, int number, Family family) {
    Dice dice = dice_of(seed, number, family, 3);
    const auto theme = static_cast<Theme>((number - 1) % theme_count);
    PhantomRecipe recipe = cheap_scene(dice, seed, number, family);
    choose_bread(dice, theme, family, recipe);
    choose_target(dice, theme, recipe);
    place(dice, theme, recipe);
    if (theme == Theme::hand) recipe.things = hand_beside(dice, recipe.slices[0], dice.chance(0.5));
    if (theme == Theme::many_crumbs) recipe.morsels = 40 + dice.pick(60);
    recipe.focal_length_in_exif = theme != Theme::no_focal_length;
    aim(dice, theme, recipe);
    recipe.look = std::string(theme_words[static_cast<std::size_t>(theme)]) + "; " +
                  surface_name(recipe.surface);
    return recipe;
}

}  // namespace loafmark::phantoms
