#include "scene.h"

#include <algorithm>
#include <cmath>

#include "phantoms/random.h"

namespace loafmark::phantoms {

namespace {

TablePlane table_plane(const PhantomRecipe& recipe) {
    if (recipe.stance == Stance::lying) return {};
    TablePlane table;
    table.point = {0, static_cast<float>(recipe.card_above_table_mm), 0};
    table.up = {0, -1, 0};
    table.down = {0, 0, 1};  // away from the reader
    return table;
}

Light light_of(const LightRecipe& recipe, const TablePlane& table, Vec3 aim) {
    const double azimuth = recipe.lamp_azimuth, up = recipe.lamp_elevation;
    const auto level = static_cast<float>(std::cos(up));
    const Vec3 along = table.right * (level * static_cast<float>(std::cos(azimuth))) +
                       table.down * (level * static_cast<float>(std::sin(azimuth)));
    const Vec3 towards = along + table.up * static_cast<float>(std::sin(up));
    Light light;
    light.up = table.up;
    light.zenith = recipe.zenith;
    light.horizon = recipe.horizon;
    light.glow = recipe.lamp_tint * static_cast<float>(recipe.glow);
    light.glow_direction = normalised(along + table.up * 0.35f);
    light.lamp_centre = aim + towards * static_cast<float>(recipe.lamp_distance_mm);
    light.lamp_radius = static_cast<float>(recipe.lamp_radius_mm);
    const double sine = std::min(0.99, recipe.lamp_radius_mm / recipe.lamp_distance_mm);
    const double solid_angle = 6.283185307 * (1 - std::sqrt(1 - sine * sine));
    const double sky = luminance(recipe.zenith) * 3.14159265;
    light.lamp = recipe.lamp_tint * static_cast<float>(recipe.lamp_strength * sky / solid_angle);
    return light;
}

Vec3 origin_of(const SlicePose& pose) {
    return {static_cast<float>(pose.origin_mm.x), static_cast<float>(pose.origin_mm.y),
            static_cast<float>(-pose.height_mm)};
}

SliceView slice_view(const PhantomRecipe& recipe, const SliceRecipe& slice, const SliceBody& body,
                     std::uint32_t number) {
    SliceView view;
    view.level = body.volume.view();
    view.fields = body.fields.view();
    const PlaneFields& f = view.fields;
    view.low = {f.x0, f.y0, 0};
    view.high = {f.x0 + f.step * static_cast<float>(f.nx - 1),
                 f.y0 + f.step * static_cast<float>(f.ny - 1),
                 static_cast<float>(slice.thickness_mm)};
    if (recipe.foam_depth_mm && *recipe.foam_depth_mm < slice.thickness_mm)
        view.solid_from = static_cast<float>(*recipe.foam_depth_mm);
    view.bread = slice.bread;
    view.bread.seed = hash32(recipe.seed, 404 + 1000 * number);
    view.place.cosine = static_cast<float>(std::cos(slice.pose.angle));
    view.place.sine = static_cast<float>(std::sin(slice.pose.angle));
    view.place.origin = origin_of(slice.pose);
    view.place.way = slice.pose.mirrored ? -1.0f : 1.0f;
    return view;
}

Clump clump_around(const std::vector<Solid>& solids, int first) {
    Clump clump;
    clump.first = first;
    clump.count = static_cast<int>(solids.size()) - first;
    const float share = 0.5f / static_cast<float>(clump.count);
    for (std::size_t i = static_cast<std::size_t>(first); i < solids.size(); ++i)
        clump.centre = clump.centre + (solids[i].from + solids[i].to) * share;
    for (std::size_t i = static_cast<std::size_t>(first); i < solids.size(); ++i)
        for (const Vec3 end : {solids[i].from, solids[i].to})
            clump.radius = std::max(clump.radius, length(end - clump.centre) + solids[i].radius);
    return clump;
}

// Signed distance from a slice's outline, for a point at the height of its cut; large outside its
// box.
float from_outline(const SliceView& slice, Vec3 p) {
    const Vec3 q = turned_in(slice.place, p - slice.place.origin);
    if (q.x < slice.low.x || q.y < slice.low.y || q.x > slice.high.x || q.y > slice.high.y)
        return 1e3f;
    return plane_at(slice.fields, q.x, q.y).outline;
}

bool under_a_slice(const std::vector<SliceView>& slices, const TablePlane& table, Vec3 p) {
    return std::any_of(slices.begin(), slices.end(), [&](const SliceView& slice) {
        if (table.up.z != 0) return from_outline(slice, p) < 2;
        const Vec3 q = p - slice.place.origin;
        return q.x > slice.low.x && q.x < slice.high.x && q.z > -2 && q.z < slice.high.z + 2;
    });
}

}  // namespace

SliceBody slice_body(const PhantomRecipe& recipe, const SliceRecipe& slice, int threads) {
    SliceBody body;
    if (recipe.patch_mm) {
        constexpr double margin = 4;
        const double half = *recipe.patch_mm / 2 + margin;
        body.fields = patch_fields(-half, -half, 2 * half, 2 * half);
    } else {
        body.outline = loaf_outline(slice.loaf);
        body.fields = loaf_fields(body.outline, slice.crust, threads);
    }
    VolumeLayout layout;
    layout.step_mm = recipe.voxel_mm;
    layout.coarse_step_mm = 2 * recipe.voxel_mm;
    layout.thickness_mm = std::min(slice.thickness_mm, recipe.foam_depth_mm.value_or(1e9));
    body.volume = make_foam(slice.foam, body.fields.view(), layout, threads);
    return body;
}

Scene::Scene(const PhantomRecipe& recipe, const std::vector<SliceBody>& bodies) {
    for (std::size_t i = 0; i < bodies.size(); ++i)
        slices_.push_back(
            slice_view(recipe, recipe.slices[i], bodies[i], static_cast<std::uint32_t>(i)));
    if (recipe.target) scene_.look = table_with_target(*recipe.target, recipe.field);
    scene_.look.has_target = recipe.target.has_value();
    scene_.look.surface = recipe.surface;
    scene_.look.tint = recipe.surface_tint;
    scene_.look.grain_angle = static_cast<float>(recipe.grain_angle);
    scene_.look.seed = hash32(recipe.seed, 505);
    scene_.table = table_plane(recipe);
    scene_.card_stands = recipe.stance == Stance::standing && recipe.target.has_value();
    scene_.plate = recipe.plate;
    scene_.light = light_of(recipe.light, scene_.table, slices_.front().place.origin);
    scene_.light.backdrop = static_cast<float>(recipe.backdrop);
    scene_.light.backdrop_seed = hash32(recipe.seed, 707);
    if (!recipe.patch_mm) scatter_morsels(recipe);
    add_things(recipe);
}

// Loose crumbs around the slices, each a clump of small balls, on the table.
void Scene::scatter_morsels(const PhantomRecipe& recipe) {
    RandomStream random(hash32(recipe.seed, 303));
    const TablePlane& table = scene_.table;
    for (int placed = 0, tries = 0; placed < recipe.morsels && tries < 1000; ++tries) {
        const std::size_t which = static_cast<std::size_t>(tries) % slices_.size();
        const SliceView& slice = slices_[which];
        const Vec3 middle =
            slice.place.origin + turned_out(slice.place, (slice.low + slice.high) * 0.5f);
        const float reach = length(slice.high - slice.low) / 2 + 20;
        const Vec3 at = middle + table.right * random.between(-reach, reach) +
                        table.down * random.between(-reach, reach);
        const Vec3 on_table = at - table.up * dot(at - table.point, table.up);
        if (under_a_slice(slices_, table, on_table)) continue;
        ++placed;
        const float size = random.between(0.25f, 1.0f) * random.between(0.5f, 1.3f);
        const bool crust = random.next() < 0.45f;
        const BreadLook& bread = recipe.slices[which].bread;
        const Colour colour = crust ? bread.crust_top * 1.2f : bread.crumb;
        const int first = static_cast<int>(solids_.size());
        for (int part = 0; part < 4; ++part) {
            const float r = size * random.between(0.5f, 0.9f);
            const Vec3 p = on_table + table.right * (size * random.between(-0.8f, 0.8f)) +
                           table.down * (size * random.between(-0.8f, 0.8f)) +
                           table.up * (0.7f * r);
            solids_.push_back({p, p, r, colour});
        }
        clumps_.push_back(clump_around(solids_, first));
    }
}

void Scene::add_things(const PhantomRecipe& recipe) {
    if (recipe.things.empty()) return;
    const int first = static_cast<int>(solids_.size());
    solids_.insert(solids_.end(), recipe.things.begin(), recipe.things.end());
    clumps_.push_back(clump_around(solids_, first));
}

SceneView Scene::view() const {
    SceneView view = scene_;
    std::copy(slices_.begin(), slices_.end(), view.slices);
    view.slice_count = static_cast<int>(slices_.size());
    view.solids = solids_.data();
    view.clumps = clumps_.data();
    view.clump_count = static_cast<int>(clumps_.size());
    return view;
}

}  // namespace loafmark::phantoms
