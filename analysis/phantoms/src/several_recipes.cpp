// Two to four slices in one photo.
#include <array>

#include "view_parts.h"

namespace loafmark::phantoms {

namespace {

struct Layout {
    int columns;
    int rows;
};

constexpr double between_slices_mm = 4;

Layout layout_of(Dice& dice, int count, bool strip) {
    if (count == 4) return {2, 2};
    if (count == 3) return strip ? Layout{3, 1} : Layout{1, 3};
    return strip || dice.chance(0.3) ? Layout{2, 1} : Layout{1, 2};
}

struct Area {
    PlanePoint top_left_mm;
    double width_mm;
    double height_mm;
};

// The mat's field; beside a strip, the table above it.
Area area_of(TargetKind target, Layout layout) {
    if (const auto field = field_of(target))
        return {field->top_left_mm, field->width_mm, field->height_mm};
    const double width = layout.columns * 100.0, height = layout.rows * 92.0;
    return {{70 - width / 2, -26 - height}, width, height};
}

// Shrinks a loaf until it lies in a box of that size.
void fit(LoafShape& loaf, double angle, double width_mm, double height_mm) {
    for (int i = 0; i < 3; ++i) {
        const TurnedBox box = turned_box(loaf, angle);
        const double share = std::min({1.0, width_mm / box.width, height_mm / box.height});
        loaf.width_mm *= share;
        loaf.height_mm *= share;
        loaf.waist_mm *= share;
        loaf.ear_mm *= share;
    }
}

void place(Dice& dice, const Area& area, Layout layout, int index, PhantomRecipe& recipe) {
    SliceRecipe& slice = recipe.slices[static_cast<std::size_t>(index)];
    const double width = area.width_mm / layout.columns, height = area.height_mm / layout.rows;
    const double turn = dice.between(-0.15, 0.15) + (dice.chance(0.15) ? pi : 0);
    fit(slice.loaf, turn, width - between_slices_mm, height - between_slices_mm);
    const TurnedBox box = turned_box(slice.loaf, turn);
    const double free_x = std::max(0.0, width - between_slices_mm - box.width) / 2,
                 free_y = std::max(0.0, height - between_slices_mm - box.height) / 2;
    const int column = index % layout.columns, row = index / layout.columns;
    lay_at(slice,
           {area.top_left_mm.x + (column + 0.5) * width + free_x * dice.between(-1, 1),
            area.top_left_mm.y + (row + 0.5) * height + free_y * dice.between(-1, 1)},
           turn);
}

}  // namespace

PhantomRecipe several_view(std::uint32_t seed, int number, Family family) {
    Dice dice = dice_of(seed, number, family, 4);
    PhantomRecipe recipe = cheap_scene(dice, seed, number, family);
    const int count = 2 + (number - 1) % 3;
    const bool strip = dice.chance(0.4);
    recipe.target = strip               ? TargetKind::strip
                    : dice.chance(0.25) ? TargetKind::letter_mat
                                        : TargetKind::a4_mat;
    recipe.field = dice.chance(0.6)   ? MatField::blue
                   : dice.chance(0.5) ? MatField::white
                                      : MatField::frame;
    // Slices of one loaf, or of loaves that differ.
    const bool one_loaf = dice.chance(0.6);
    const FlourLook* flour = &flour_look(dice);
    recipe.slices.clear();
    const Layout layout = layout_of(dice, count, strip);
    const Area area = area_of(*recipe.target, layout);
    for (int i = 0; i < count; ++i) {
        if (i > 0 && !one_loaf) flour = &flour_look(dice);
        SliceRecipe slice = cheap_slice(dice, *flour, family);
        slice.gap_mm = strip && is_cloth(recipe.surface) ? 1.1 : 0.15;
        if (i > 0) slice.thickness_mm = recipe.slices[0].thickness_mm;  // one number is typed
        if (i > 0 && one_loaf) {
            const std::uint32_t own = slice.loaf.seed;
            slice.loaf = recipe.slices[0].loaf;
            slice.loaf.seed = own;
            slice.bread = recipe.slices[0].bread;
        }
        recipe.slices.push_back(slice);
        place(dice, area, layout, i, recipe);
    }
    for (SliceRecipe& slice : recipe.slices)
        rule(dice, recipe, slice);
    for (SliceRecipe& slice : recipe.slices)
        slice.ruled_mm = recipe.slices[0].ruled_mm;
    CameraWish wish = hand_held(dice);
    wish.landscape = strip ? layout.rows == 1 || dice.chance(0.5) : false;
    std::vector<ScenePoint> points = target_corners(*recipe.target);
    for (const SliceRecipe& slice : recipe.slices) {
        const std::vector<ScenePoint> outline = outline_points(slice);
        points.insert(points.end(), outline.begin(), outline.end());
    }
    recipe.camera = frame_points(points, wish);
    recipe.look = std::to_string(count) + " slices, " + (strip ? "strip" : "mat") + "; " +
                  surface_name(recipe.surface);
    return recipe;
}

}  // namespace loafmark::phantoms
