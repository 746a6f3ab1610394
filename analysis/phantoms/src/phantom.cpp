#include "phantoms/phantom.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "phantoms/random.h"

namespace loafmark::phantoms {

namespace {

constexpr double patch_distance_mm = 400;  // from the camera to the cut of a patch

void check(const PhantomRecipe& r) {
    const auto require = [&](bool good, const char* what) {
        if (!good) throw std::invalid_argument("phantom '" + r.name + "': " + what);
    };
    require(r.thickness_mm >= 2 && r.thickness_mm <= 60, "thickness_mm must be 2 to 60");
    require(r.voxel_mm >= 0.03 && r.voxel_mm <= 0.25, "voxel_mm must be 0.03 to 0.25");
    require(r.foam.openness > 0 && r.foam.openness < 0.95,
            "foam.openness must be above 0, below 0.95");
    require(r.foam.diameter_mm >= 0.3 && r.foam.diameter_mm <= 30,
            "foam.diameter_mm must be 0.3 to 30");
    require(r.camera.width > 0 && r.camera.height > 0, "the camera's frame must not be empty");
    require(!r.patch_mm || *r.patch_mm > 0, "patch_mm must be above 0");
    require(r.loaf.width_mm >= 20 && r.loaf.width_mm <= 250, "loaf.width_mm must be 20 to 250");
    require(r.loaf.height_mm >= 15 && r.loaf.height_mm <= 250, "loaf.height_mm must be 15 to 250");
    require(r.samples.least >= 1 && r.samples.most >= r.samples.least,
            "samples must be at least 1, and most at least least");
}

Light light_in_slice_frame(const LightRecipe& recipe, const SlicePose& pose) {
    const double azimuth = recipe.lamp_azimuth - pose.angle, up = recipe.lamp_elevation;
    const Vec3 towards{static_cast<float>(std::cos(azimuth) * std::cos(up)),
                       static_cast<float>(std::sin(azimuth) * std::cos(up)),
                       static_cast<float>(-std::sin(up))};
    Light light;
    light.zenith = recipe.zenith;
    light.horizon = recipe.horizon;
    light.glow = recipe.lamp_tint * static_cast<float>(recipe.glow);
    light.glow_direction = normalised({towards.x, towards.y, -0.35f});
    light.lamp_centre = towards * static_cast<float>(recipe.lamp_distance_mm);
    light.lamp_radius = static_cast<float>(recipe.lamp_radius_mm);
    const double sine = std::min(0.99, recipe.lamp_radius_mm / recipe.lamp_distance_mm);
    const double solid_angle = 6.283185307 * (1 - std::sqrt(1 - sine * sine));
    const double sky = luminance(recipe.zenith) * 3.14159265;
    light.lamp = recipe.lamp_tint * static_cast<float>(recipe.lamp_strength * sky / solid_angle);
    return light;
}

// The colour that an automatic white balance settles on: most of the way to the light's own.
Colour seen_white(const LightRecipe& recipe) {
    const Colour sum = mix(recipe.zenith, recipe.horizon, 0.35f) +
                       recipe.lamp_tint * static_cast<float>(0.7 * recipe.lamp_strength);
    const auto part = [&](float v) { return std::pow(v / sum.g, 0.85f); };
    return {part(sum.r), 1, part(sum.b)};
}

// Loose crumbs around the slice, each a clump of small spheres, on the table.
std::vector<Morsel> scatter_morsels(const PhantomRecipe& recipe, const SliceView& slice,
                                    float table_z) {
    std::vector<Morsel> morsels;
    RandomStream random(hash32(recipe.seed, 303));
    for (int placed = 0, tries = 0; placed < recipe.morsels && tries < 1000; ++tries) {
        const float x = random.between(slice.low.x - 45, slice.high.x + 45);
        const float y = random.between(slice.low.y - 45, slice.high.y + 45);
        if (plane_at(slice.fields, x, y).outline < 2 && x > slice.low.x && x < slice.high.x &&
            y > slice.low.y && y < slice.high.y)
            continue;
        ++placed;
        const float size = random.between(0.25f, 1.0f) * random.between(0.5f, 1.3f);
        const bool crust = random.next() < 0.45f;
        const Colour colour = crust ? recipe.bread.crust_top * 1.2f : recipe.bread.crumb;
        for (int part = 0; part < 4; ++part) {
            const float r = size * random.between(0.5f, 0.9f);
            morsels.push_back({{x + size * random.between(-0.8f, 0.8f),
                                y + size * random.between(-0.8f, 0.8f), table_z - 0.7f * r},
                               r,
                               colour});
        }
    }
    return morsels;
}

SliceView slice_view(const FoamVolume& volume, const PlaneFields& fields, float thickness) {
    return {volume.view(),
            fields,
            {fields.x0, fields.y0, 0},
            {fields.x0 + fields.step * static_cast<float>(fields.nx - 1),
             fields.y0 + fields.step * static_cast<float>(fields.ny - 1), thickness}};
}

SceneView scene_view(const PhantomRecipe& recipe, const SlicePose& pose, const SliceView& slice) {
    SceneView scene;
    scene.slice = slice;
    scene.bread = recipe.bread;
    scene.bread.seed = hash32(recipe.seed, 404);
    if (recipe.target) scene.table = table_with_target(*recipe.target, recipe.field);
    scene.table.has_target = recipe.target.has_value();
    scene.table.surface = recipe.surface;
    scene.table.tint = recipe.surface_tint;
    scene.table.grain_angle = static_cast<float>(recipe.grain_angle);
    scene.table.seed = hash32(recipe.seed, 505);
    scene.light = light_in_slice_frame(recipe.light, pose);
    scene.table_z = static_cast<float>(pose.height_mm);
    scene.target_cos = static_cast<float>(std::cos(pose.angle));
    scene.target_sin = static_cast<float>(std::sin(pose.angle));
    scene.target_tx = static_cast<float>(pose.origin_mm.x);
    scene.target_ty = static_cast<float>(pose.origin_mm.y);
    return scene;
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

Phantom make_phantom(const PhantomRecipe& recipe, int threads) {
    check(recipe);
    Phantom phantom;
    phantom.recipe = recipe;
    PhantomRecipe& r = phantom.recipe;
    r.pose.height_mm = r.thickness_mm + r.gap_mm;
    PlaneFieldGrid fields;
    if (r.patch_mm) {
        constexpr double margin = 4;
        r.camera.eye = {0, 0, -(r.pose.height_mm + patch_distance_mm)};
        const double half = *r.patch_mm / 2 + margin;
        fields = patch_fields(-half, -half, 2 * half, 2 * half);
    } else {
        phantom.outline = loaf_outline(r.loaf);
        fields = loaf_fields(phantom.outline, r.crust, threads);
    }
    VolumeLayout layout;
    layout.step_mm = r.voxel_mm;
    layout.thickness_mm = r.thickness_mm;
    const FoamVolume volume = make_foam(r.foam, fields.view(), layout, threads);
    phantom.section = cut_section(volume, fields.view());
    if (r.patch_mm) keep_frame_only(phantom.section, *r.patch_mm / 2);
    const SliceView slice = slice_view(volume, fields.view(), static_cast<float>(r.thickness_mm));
    SceneView scene = scene_view(r, r.pose, slice);
    std::vector<Morsel> morsels;
    if (!r.patch_mm) morsels = scatter_morsels(r, slice, scene.table_z);
    scene.morsels = morsels.data();
    scene.morsel_count = static_cast<int>(morsels.size());
    phantom.photo_from_slice = photo_from_slice(r.camera, r.pose);
    if (r.target) phantom.photo_from_paper = photo_from_paper(r.camera);
    phantom.pixels_per_mm = scale_at_middle(phantom.photo_from_slice, phantom.outline);
    const Radiance light = render(scene, in_slice_frame(r.camera, r.pose), r.camera.width,
                                  r.camera.height, r.samples, hash32(r.seed, 606), threads);
    r.development.illuminant = seen_white(r.light);
    phantom.photo = develop(light, r.development, phantom.pixels_per_mm, threads);
    return phantom;
}

PhantomRecipe patch_recipe(const FoamRecipe& foam, double side_mm, double pixels_per_mm) {
    PhantomRecipe recipe;
    recipe.name = "patch";
    recipe.seed = foam.seed;
    recipe.patch_mm = side_mm;
    recipe.thickness_mm = 20;
    recipe.foam = foam;
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
