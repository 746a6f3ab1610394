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

ordered_json measures_json(const Phantom& phantom) {
    ordered_json out = ordered_json::object();
    if (!phantom.outline.empty())
        for (const auto& [measure, value] : outline_measures(phantom.outline))
            put(out, info_of(measure).key, value);
    for (const auto& [measure, value] :
         crumb_measures(phantom.section, phantom.section.crumb, default_limit_mm))
        put(out, info_of(measure).key, value);
    if (!phantom.outline.empty()) {
        put(out, "crust_thickness.top", phantom.recipe.crust.top_mm);
        put(out, "crust_thickness.base", phantom.recipe.crust.base_mm);
    }
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

}  // namespace

void write_truth(const Phantom& phantom, const std::string& photo_name, const std::string& map_name,
                 const std::filesystem::path& path) {
    const PhantomRecipe& r = phantom.recipe;
    ordered_json document{{"schema", 1},
                          {"name", r.name},
                          {"look", r.look},
                          {"seed", r.seed},
                          {"photo", photo_name},
                          {"taken", r.taken},
                          {"typed", {{"thickness_mm", r.thickness_mm}}},
                          {"target", target_name(r)},
                          {"slice_height_mm", r.pose.height_mm},
                          {"photo_from_slice", matrix(phantom.photo_from_slice)},
                          {"photo_from_paper", nullptr},
                          {"pixels_per_mm", phantom.pixels_per_mm},
                          {"camera", camera_json(r.camera)},
                          {"measures", measures_json(phantom)},
                          {"cells_map", map_json(phantom.section, map_name)},
                          {"outline", outline_json(phantom.outline)},
                          {"cells", cells_json(phantom.section)}};
    if (phantom.photo_from_paper) document["photo_from_paper"] = matrix(*phantom.photo_from_paper);
    std::ofstream file(path);
    file << document.dump() << '\n';
    if (!file.flush()) throw std::runtime_error("cannot write " + path.string());
}

void write_phantom(const Phantom& phantom, const std::filesystem::path& folder) {
    const std::string& stem = phantom.recipe.name;
    write_photo(phantom, folder / (stem + ".jpg"));
    write_label_map(phantom.section.cells, folder / (stem + ".cells.png"));
    write_truth(phantom, stem + ".jpg", stem + ".cells.png", folder / (stem + ".truth.json"));
}

}  // namespace loafmark::phantoms
