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

void read_outline(const json& points, Truth& truth) {
    for (const json& p : points)
        truth.outline.push_back({p.at(0).get<double>(), p.at(1).get<double>()});
}

void read_map_frame(const json& affine, Truth& truth) {
    truth.mm_per_pixel = affine.at(0).at(0);
    truth.first_pixel = {affine.at(0).at(2), affine.at(1).at(2)};
}

Truth own_truth(const json& document, const fs::path& folder) {
    Truth truth;
    truth.photo = folder / document.at("photo").get<std::string>();
    truth.thickness = Millimetres(document.at("typed").at("thickness_mm").get<double>());
    const json& measures = document.at("measures");
    truth.height_mm = measures.at("loaf_height");
    truth.width_mm = measures.at("loaf_width");
    truth.area_mm2 = measures.at("cross_section_area");
    truth.base_width_mm = measures.at("base_width").get<double>();
    truth.photo_from_slice = homography(document.at("photo_from_slice"));
    read_outline(document.at("outline"), truth);
    read_map_frame(document.at("cells_map").at("slice_from_map"), truth);
    truth.cells = read_map(folder / document.at("cells_map").at("file").get<std::string>());
    return truth;
}

Truth other_truth(const json& document, const fs::path& folder) {
    Truth truth;
    truth.photo = folder / document.at("image").get<std::string>();
    const json& typed = document.at("user_types");
    if (typed.contains("slice_thickness_mm"))
        truth.thickness = Millimetres(typed.at("slice_thickness_mm").get<double>());
    truth.height_mm = document.at("height_mm");
    truth.width_mm = document.at("width_mm");
    truth.area_mm2 = document.at("area_mm2");
    truth.photo_from_slice = homography(document.at("H_slice_to_photo"));
    read_outline(document.at("outline_mm"), truth);
    read_map_frame(document.at("cells_map").at("px_to_mm"), truth);
    truth.cells = read_map(folder / document.at("cells_map").at("file").get<std::string>());
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
