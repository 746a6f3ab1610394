#include <cmath>
#include <fstream>
#include <stdexcept>

#include <nlohmann/json.hpp>

#include "phantoms/truth.h"
#include "photo_files.h"

namespace loafmark::phantoms {

namespace {

using nlohmann::ordered_json;

constexpr double default_limit_mm = 0.5;

double rounded(double v, double unit) {
    return std::round(v / unit) * unit;
}

// Dots in a measure's key part nested objects.
void put(ordered_json& object, std::string_view key, double value) {
    ordered_json* at = &object;
    for (std::size_t dot = key.find('.'); dot != std::string_view::npos; dot = key.find('.')) {
        at = &(*at)[std::string(key.substr(0, dot))];
        key = key.substr(dot + 1);
    }
    (*at)[std::string(key)] = value;
}

ordered_json measures_json(const PhantomSlice& slice) {
    ordered_json out = ordered_json::object();
    const auto put_all = [&](const TrueMeasures& measures) {
        for (const auto& [measure, value] : measures)
            put(out, info_of(measure).key, value);
    };
    if (!slice.outline.empty()) put_all(outline_measures(slice.outline));
    put_all(crumb_measures(slice.section, slice.section.crumb, default_limit_mm));
    put_all(slice.crust);
    put_all(slice.bubbles);
    return out;
}

ordered_json matrix(const Homography& h) {
    ordered_json rows = ordered_json::array();
    for (const auto& row : h)
        rows.push_back(row);
    return rows;
}

std::string target_name(const PhantomRecipe& recipe) {
    if (!recipe.target) return "none";
    switch (*recipe.target) {
        case TargetKind::a4_mat:
            return "a4_mat";
        case TargetKind::letter_mat:
            return "letter_mat";
        case TargetKind::strip:
            break;
    }
    return "strip";
}

ordered_json camera_json(const Camera& c) {
    return {{"width", c.width},
            {"height", c.height},
            {"focal_35mm", c.focal_35mm},
            {"focal_pixels", c.focal_pixels()},
            {"eye_mm", c.eye},
            {"right", c.right},
            {"down", c.down},
            {"forward", c.forward},
            {"distortion", c.distortion}};
}

ordered_json cells_json(const Section& section) {
    ordered_json cells = ordered_json::array();
    for (const SectionCell& cell : section.list)
        if (cell.diameter >= default_limit_mm)
            cells.push_back(
                {{"id", cell.id},
                 {"x", rounded(cell.diameter, 1e-3)},
                 {"area", rounded(cell.area, 1e-4)},
                 {"centre", {rounded(cell.centre.x, 1e-2), rounded(cell.centre.y, 1e-2)}}});
    return cells;
}

ordered_json outline_json(const std::vector<PlanePoint>& outline) {
    ordered_json points = ordered_json::array();
    for (const PlanePoint& p : outline)
        points.push_back({rounded(p.x, 1e-3), rounded(p.y, 1e-3)});
    return points;
}

ordered_json map_json(const Section& section, const std::string& name) {
    const double s = section.mm_per_pixel;
    return {{"file", name},
            {"mm_per_pixel", s},
            {"slice_from_map",
             {{s, 0, section.first_pixel.x}, {0, s, section.first_pixel.y}, {0, 0, 1}}}};
}

ordered_json typed_json(const SliceRecipe& slice) {
    ordered_json typed = ordered_json::object();
    if (slice.ruled_mm) typed["thickness_mm"] = *slice.ruled_mm;
    return typed;
}

std::string map_name(const PhantomRecipe& recipe, std::size_t slice, const char* what) {
    const std::string number = recipe.slices.size() > 1 ? "." + std::to_string(slice + 1) : "";
    return recipe.name + number + "." + what + ".png";
}

ordered_json slice_json(const Phantom& phantom, std::size_t i) {
    const SliceRecipe& recipe = phantom.recipe.slices[i];
    const PhantomSlice& slice = phantom.slices[i];
    return {{"typed", typed_json(recipe)},
            {"slice_height_mm", recipe.pose.height_mm},
            {"photo_from_slice", matrix(slice.photo_from_slice)},
            {"pixels_per_mm", slice.pixels_per_mm},
            {"measures", measures_json(slice)},
            {"cells_map", map_json(slice.section, map_name(phantom.recipe, i, "cells"))},
            {"specks_map", map_json(slice.section, map_name(phantom.recipe, i, "specks"))},
            {"outline", outline_json(slice.outline)},
            {"cells", cells_json(slice.section)}};
}

}  // namespace

void write_truth(const Phantom& phantom, const std::filesystem::path& path) {
    const PhantomRecipe& r = phantom.recipe;
    ordered_json document{{"schema", 2},
                          {"name", r.name},
                          {"look", r.look},
                          {"seed", r.seed},
                          {"photo", r.name + ".jpg"},
                          {"taken", r.taken},
                          {"target", target_name(r)},
                          {"stance", r.stance == Stance::lying ? "lying" : "standing"},
                          {"photo_from_paper", nullptr},
                          {"camera", camera_json(r.camera)},
                          {"crumb_is_judged", r.crumb_is_judged}};
    if (phantom.photo_from_paper) document["photo_from_paper"] = matrix(*phantom.photo_from_paper);
    if (phantom.slices.size() == 1) {
        document.update(slice_json(phantom, 0));
    } else {
        document["slices"] = ordered_json::array();
        for (std::size_t i = 0; i < phantom.slices.size(); ++i)
            document["slices"].push_back(slice_json(phantom, i));
    }
    std::ofstream file(path);
    file << document.dump() << '\n';
    if (!file.flush()) throw std::runtime_error("cannot write " + path.string());
}

void write_phantom(const Phantom& phantom, const std::filesystem::path& folder) {
    const std::string& stem = phantom.recipe.name;
    write_photo(phantom.photo, phantom.recipe, 1, folder / (stem + ".jpg"));
    for (std::size_t i = 0; i < phantom.slices.size(); ++i) {
        write_label_map(phantom.slices[i].section.cells,
                        folder / map_name(phantom.recipe, i, "cells"));
        write_label_map(phantom.slices[i].specks, folder / map_name(phantom.recipe, i, "specks"));
    }
    write_truth(phantom, folder / (stem + ".truth.json"));
}

}  // namespace loafmark::phantoms
