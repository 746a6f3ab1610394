#include "phantoms/phantom.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "phantoms/random.h"
#include "scene.h"

namespace loafmark::phantoms {

namespace {

constexpr double patch_distance_mm = 400;  // from the camera to the cut of a patch

void require(bool good, const PhantomRecipe& recipe, const char* what) {
    if (!good) throw std::invalid_argument("phantom '" + recipe.name + "': " + what);
}

void check(const PhantomRecipe& r, const SliceRecipe& slice) {
    require(slice.thickness_mm >= 2 && slice.thickness_mm <= (r.foam_depth_mm ? 200 : 60), r,
            "thickness_mm must be 2 to 60");
    require(slice.foam.openness > 0 && slice.foam.openness < 0.95, r,
            "foam.openness must be above 0, below 0.95");
    require(slice.foam.diameter_mm >= 0.3 && slice.foam.diameter_mm <= 30, r,
            "foam.diameter_mm must be 0.3 to 30");
    require(slice.loaf.width_mm >= 20 && slice.loaf.width_mm <= 250, r,
            "loaf.width_mm must be 20 to 250");
    require(slice.loaf.height_mm >= 15 && slice.loaf.height_mm <= 250, r,
            "loaf.height_mm must be 15 to 250");
}

void check(const PhantomRecipe& r) {
    require(!r.slices.empty() && r.slices.size() <= most_slices, r, "slices must be one to four");
    for (const SliceRecipe& slice : r.slices)
        check(r, slice);
    require(r.voxel_mm >= 0.03 && r.voxel_mm <= 0.25, r, "voxel_mm must be 0.03 to 0.25");
    require(!r.foam_depth_mm || *r.foam_depth_mm >= 3, r, "foam_depth_mm must be 3 or more");
    require(r.camera.width > 0 && r.camera.height > 0, r, "the camera's frame must not be empty");
    require(!r.patch_mm || *r.patch_mm > 0, r, "patch_mm must be above 0");
    require(r.samples.least >= 1 && r.samples.most >= r.samples.least, r,
            "samples must be at least 1, and most at least least");
    require(r.stance == Stance::lying || !r.plate.there, r, "a plate wants a lying slice");
}

// Pixels per mm at the slice's middle, the geometric mean of its two directions.
double scale_at_middle(const Homography& h, const std::vector<PlanePoint>& outline) {
    PlanePoint middle;
    for (const PlanePoint& p : outline)
        middle = {middle.x + p.x / static_cast<double>(outline.size()),
                  middle.y + p.y / static_cast<double>(outline.size())};
    const PhotoPoint a = project(h, middle), b = project(h, {middle.x + 0.5, middle.y}),
                     c = project(h, {middle.x, middle.y + 0.5});
    return 2 * std::sqrt(std::hypot(b.x - a.x, b.y - a.y) * std::hypot(c.x - a.x, c.y - a.y));
}

// A patch's truth is of what the photo shows, although its foam goes on beyond the frame.
void keep_frame_only(Section& section, double half_mm) {
    for (std::size_t at = 0; at < section.crumb.size(); ++at) {
        const double x = section.first_pixel.x +
                         section.mm_per_pixel * static_cast<double>(at % section.cells.width);
        const double y = section.first_pixel.y +
                         section.mm_per_pixel * static_cast<double>(at / section.cells.width);
        if (std::abs(x) > half_mm || std::abs(y) > half_mm) section.crumb[at] = 0;
    }
}

}  // namespace

Colour seen_white(const LightRecipe& recipe) {
    const Colour sum = mix(recipe.zenith, recipe.horizon, 0.35f) +
                       recipe.lamp_tint * static_cast<float>(0.7 * recipe.lamp_strength);
    const auto part = [&](float v) { return std::pow(v / sum.g, 0.85f); };
    return {part(sum.r), 1, part(sum.b)};
}

double height_of_cut(const PhantomRecipe& recipe, const SliceRecipe& slice) {
    const double plate = recipe.plate.there ? recipe.plate.well_height : 0;
    return slice.thickness_mm + slice.gap_mm + plate;
}

Phantom make_phantom(const PhantomRecipe& recipe, int threads) {
    check(recipe);
    Phantom phantom;
    phantom.recipe = recipe;
    PhantomRecipe& r = phantom.recipe;
    if (r.stance == Stance::lying)
        for (SliceRecipe& slice : r.slices)
            slice.pose.height_mm = height_of_cut(r, slice);
    if (r.patch_mm) r.camera.eye = {0, 0, -(r.slices[0].pose.height_mm + patch_distance_mm)};
    std::vector<SliceBody> bodies;
    for (const SliceRecipe& slice : r.slices) {
        bodies.push_back(slice_body(r, slice, threads));
        PhantomSlice made;
        made.section = cut_section(bodies.back().volume, bodies.back().fields.view());
        if (r.patch_mm) keep_frame_only(made.section, *r.patch_mm / 2);
        made.outline = bodies.back().outline;
        made.photo_from_slice = photo_from_slice(r.camera, slice.pose);
        made.pixels_per_mm = scale_at_middle(made.photo_from_slice, made.outline);
        made.bubbles = bubble_measures(bodies.back().volume.bubble_diameters);
        phantom.slices.push_back(std::move(made));
    }
    if (r.target) phantom.photo_from_paper = photo_from_paper(r.camera);
    const Scene scene(r, bodies);
    for (std::size_t i = 0; i < bodies.size(); ++i)
        phantom.slices[i].specks =
            speck_map(phantom.slices[i].section, scene.view().slices[i].bread);
    for (std::size_t i = 0; i < bodies.size() && !r.patch_mm; ++i)
        phantom.slices[i].crust = crust_measures(bodies[i].outline, bodies[i].fields.view(),
                                                 scene.view().slices[i].bread);
    const Radiance light = render(scene.view(), pixel_camera(r.camera), r.camera.width,
                                  r.camera.height, r.samples, hash32(r.seed, 606), threads);
    r.development.illuminant = seen_white(r.light);
    phantom.photo = develop(light, r.development, phantom.slices.front().pixels_per_mm, threads);
    return phantom;
}

PhantomRecipe patch_recipe(const FoamRecipe& foam, double side_mm, double pixels_per_mm) {
    PhantomRecipe recipe;
    recipe.name = "patch";
    recipe.seed = foam.seed;
    recipe.patch_mm = side_mm;
    recipe.slices[0].thickness_mm = 20;
    recipe.slices[0].foam = foam;
    recipe.target.reset();
    recipe.morsels = 0;
    const int pixels = static_cast<int>(std::lround(side_mm * pixels_per_mm));
    recipe.camera.width = recipe.camera.height = pixels;
    const double focal = pixels_per_mm * patch_distance_mm;
    recipe.camera.focal_35mm = focal * 43.27 / std::hypot(pixels, pixels);
    recipe.development.vignetting = 0;
    return recipe;
}

}  // namespace loafmark::phantoms
