// Half a loaf that stands on the table, its cut towards the camera, the strip upright beside it.
#include "view_parts.h"

namespace loafmark::phantoms {

namespace {

// From the front, a little above the cut.
CameraWish from_the_front(Dice& dice) {
    CameraWish wish = hand_held(dice);
    wish.tilt = dice.between(3, 16) * pi / 180;
    wish.towards = -pi / 2 + dice.between(-0.7, 0.7);
    wish.roll = dice.between(-0.05, 0.05);
    wish.landscape = true;
    wish.pixels_per_mm = dice.between(8.2, 9);
    wish.margin = 0.05;
    return wish;
}

}  // namespace

PhantomRecipe standing_view(std::uint32_t seed, int number, Family family) {
    Dice dice = dice_of(seed, number, family, 5);
    PhantomRecipe recipe = cheap_scene(dice, seed, number, family);
    recipe.stance = Stance::standing;
    recipe.target = TargetKind::strip;
    recipe.field = MatField::white;
    const SheetLayout sheet = sheet_of(TargetKind::strip);
    recipe.card_above_table_mm = sheet.height_mm - sheet.first_marker_mm.y;
    SliceRecipe& slice = recipe.slices[0];
    slice = cheap_slice(dice, flour_look(dice), family);
    slice.thickness_mm = dice.between(55, 120);
    slice.pose.angle = dice.between(-0.012, 0.012);
    // The card stands in the plane of the cut as well as fingers can make it.
    slice.pose.height_mm = dice.between(-1, 1);
    const TurnedBox box = turned_box(slice.loaf, slice.pose.angle);
    const double gap = dice.between(6, 25);
    const double left = -sheet.first_marker_mm.x, right = left + sheet.width_mm;
    const bool loaf_right = dice.chance(0.5);
    const double middle = loaf_right ? right + gap + box.width / 2 : left - gap - box.width / 2;
    const double sunk = box.middle.y + box.height / 2;  // the turned base's lowest point
    slice.pose.origin_mm = {middle - box.middle.x,
                            recipe.card_above_table_mm - slice.gap_mm - sunk};
    recipe.backdrop = dice.between(0.6, 1);
    recipe.morsels = dice.pick(10);
    // The light comes over the photographer's shoulder or from a side.
    recipe.light.lamp_azimuth = dice.between(-2.9, -0.25);
    if (number % 2 == 0) {
        // A hand steadies the loaf from the side away from the card.
        recipe.things = hand_beside(dice, slice, loaf_right);
        for (Solid& part : recipe.things)
            part.from.z = part.from.z + 30, part.to.z = part.to.z + 30;
    }
    std::vector<ScenePoint> points = target_corners(TargetKind::strip);
    const std::vector<ScenePoint> outline = outline_points(slice);
    points.insert(points.end(), outline.begin(), outline.end());
    recipe.camera = frame_points(points, from_the_front(dice));
    recipe.look = std::string("standing half loaf") +
                  (recipe.things.empty() ? "" : ", a hand beside it") + "; " +
                  surface_name(recipe.surface);
    return recipe;
}

}  // namespace loafmark::phantoms
