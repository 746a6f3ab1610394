#include "truth.h"

#include <algorithm>
#include <fstream>
#include <stdexcept>

#include <png.h>
#include <nlohmann/json.hpp>

namespace loafmark::accuracy {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

Homography homography(const json& rows) {
    Homography h{};
    for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t c = 0; c < 3; ++c)
            h[r][c] = rows.at(r).at(c).get<double>();
    return h;
}

LabelMap read_map(const fs::path& file) {
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    const auto fail = [&] { throw std::runtime_error(file.string() + ": " + image.message); };
    if (!png_image_begin_read_from_file(&image, file.c_str())) fail();
    image.format = PNG_FORMAT_LINEAR_Y;  // 16 bit, numbers unchanged
    LabelMap map{static_cast<int>(image.width), static_cast<int>(image.height), {}};
    map.labels.resize(static_cast<std::size_t>(image.width) * image.height);
    if (!png_image_finish_read(&image, nullptr, map.labels.data(), 0, nullptr)) fail();
    return map;
}

std::vector<PlanePoint> read_outline(const json& points) {
    std::vector<PlanePoint> outline;
    for (const json& p : points)
        outline.push_back({p.at(0).get<double>(), p.at(1).get<double>()});
    return outline;
}

CellTruth read_cells(const json& map, const json& affine, const fs::path& folder) {
    return {read_map(folder / map.at("file").get<std::string>()),
            affine.at(0).at(0),
            {affine.at(0).at(2), affine.at(1).at(2)}};
}

// A measure's key parts nested objects at its dots.
std::optional<double> value_of(const json& measures, std::string_view key) {
    const json* at = &measures;
    while (!key.empty()) {
        const std::size_t dot = key.find('.');
        const auto found = at->find(std::string(key.substr(0, dot)));
        if (found == at->end()) return std::nullopt;
        at = &*found;
        key = dot == std::string_view::npos ? "" : key.substr(dot + 1);
    }
    return at->is_number() ? std::optional(at->get<double>()) : std::nullopt;
}

TrueSlice own_slice(const json& document, const fs::path& folder, bool crumb_is_judged) {
    TrueSlice slice;
    for (const Measure measure :
         {Measure::loaf_height, Measure::loaf_width, Measure::base_width,
          Measure::cross_section_area, Measure::height_to_width, Measure::side_pinch,
          Measure::crust_thickness_top, Measure::crust_thickness_base,
          Measure::cell_diameter_3d_volume_d50})
        if (const auto value = value_of(document.at("measures"), info_of(measure).key))
            slice.measures[measure] = *value;
    slice.photo_from_slice = homography(document.at("photo_from_slice"));
    slice.outline = read_outline(document.at("outline"));
    const json& map = document.at("cells_map");
    if (!crumb_is_judged) {
        slice.measures.erase(Measure::cell_diameter_3d_volume_d50);
        return slice;
    }
    slice.cells = read_cells(map, map.at("slice_from_map"), folder);
    if (document.contains("specks_map")) {
        const json& specks = document.at("specks_map");
        slice.specks = read_cells(specks, specks.at("slice_from_map"), folder);
    }
    return slice;
}

std::optional<Millimetres> typed_thickness(const json& typed, const char* key) {
    if (!typed.contains(key)) return std::nullopt;
    return Millimetres(typed.at(key).get<double>());
}

Truth own_truth(const json& document, const fs::path& folder) {
    Truth truth;
    truth.photo = folder / document.at("photo").get<std::string>();
    truth.look = document.value("look", "");
    const bool crumb = document.value("crumb_is_judged", true);
    // A document without a list of slices describes its only one.
    const json slices = document.contains("slices") ? document.at("slices") : json{document};
    for (const json& slice : slices)
        truth.slices.push_back(own_slice(slice, folder, crumb));
    truth.thickness = typed_thickness(slices.at(0).at("typed"), "thickness_mm");
    if (truth.slices.front().outline.empty())
        truth.crumb_only = MillimetresPerPixel(1 / slices.at(0).at("pixels_per_mm").get<double>());
    // Before schema 2 the crust's thickness was what the recipe asked for, not what came out.
    if (document.at("schema") == 1)
        for (TrueSlice& slice : truth.slices) {
            slice.measures.erase(Measure::crust_thickness_top);
            slice.measures.erase(Measure::crust_thickness_base);
        }
    return truth;
}

Truth other_truth(const json& document, const fs::path& folder) {
    Truth truth;
    truth.photo = folder / document.at("image").get<std::string>();
    truth.look = document.value("title", "");
    truth.thickness = typed_thickness(document.at("user_types"), "slice_thickness_mm");
    TrueSlice slice;
    slice.measures = {{Measure::loaf_height, document.at("height_mm")},
                      {Measure::loaf_width, document.at("width_mm")},
                      {Measure::cross_section_area, document.at("area_mm2")}};
    slice.photo_from_slice = homography(document.at("H_slice_to_photo"));
    slice.outline = read_outline(document.at("outline_mm"));
    const json& map = document.at("cells_map");
    slice.cells = read_cells(map, map.at("px_to_mm"), folder);
    truth.slices.push_back(std::move(slice));
    return truth;
}

}  // namespace

Truth read_truth(const fs::path& json_file) {
    std::ifstream stream(json_file);
    if (!stream) throw std::runtime_error(json_file.string() + " cannot be opened");
    try {
        const json document = json::parse(stream);
        return document.contains("H_slice_to_photo")
                   ? other_truth(document, json_file.parent_path())
                   : own_truth(document, json_file.parent_path());
    } catch (const json::exception& error) {
        throw std::runtime_error(json_file.string() + " is no truth file: " + error.what());
    }
}

std::vector<fs::path> truth_files(const fs::path& folder) {
    if (!fs::is_directory(folder)) throw std::runtime_error(folder.string() + " is no folder");
    std::vector<fs::path> files;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder)) {
        const std::string name = entry.path().filename().string();
        if (name.ends_with(".truth.json") ||
            (name.starts_with("slice-") && name.ends_with(".json")))
            files.push_back(entry.path());
    }
    if (files.empty())
        throw std::runtime_error(folder.string() + " holds no photos with their truth");
    std::sort(files.begin(), files.end());
    return files;
}

}  // namespace loafmark::accuracy
