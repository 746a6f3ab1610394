#include "documents/photo_document.h"

#include "documents/json_values.h"

namespace loafmark::documents {
namespace {

// Positions in photo pixels and plane millimetres need no more digits than these.
constexpr int position_digits = 7;
// A homography's product must hold to a hundredth of a pixel across the photo.
constexpr int homography_digits = 12;

Json point(double x, double y) {
    return {number(x, position_digits), number(y, position_digits)};
}

Json homography(const std::optional<Homography>& matrix) {
    if (!matrix) return nullptr;
    Json rows = Json::array();
    for (const auto& row : *matrix) {
        Json numbers = Json::array();
        for (const double value : row)
            numbers.push_back(number(value, homography_digits));
        rows.push_back(numbers);
    }
    return rows;
}

Json scale_json(const Scale& scale) {
    return {{"source", source_name(scale.source)},
            {"mm_per_pixel", estimate(scale.mm_per_pixel)},
            {"plane_height", estimate(scale.plane_height_mm)},
            {"photo_from_plane", homography(scale.photo_from_plane)}};
}

Json cells_json(const std::vector<Cell>& cells) {
    Json list = Json::array();
    for (const Cell& cell : cells)
        list.push_back({{"id", cell.id},
                        {"x", number(cell.equivalent_diameter, position_digits)},
                        {"area", number(cell.area, position_digits)},
                        {"centre", point(cell.centre.x, cell.centre.y)},
                        {"counted", cell.counted}});
    return list;
}

Json bubbles_json(const std::vector<BubbleClass>& bubbles) {
    Json list = Json::array();
    for (const BubbleClass& c : bubbles)
        list.push_back({{"low", number(c.low, position_digits)},
                        {"high", number(c.high, position_digits)},
                        {"per_cm3", number(c.per_cm3, position_digits)},
                        {"set_to_zero", c.set_to_zero}});
    return list;
}

Json outline_json(const std::vector<PhotoPoint>& outline) {
    Json list = Json::array();
    for (const PhotoPoint& p : outline)
        list.push_back(point(p.x, p.y));
    return list;
}

Json slice_json(const SliceReading& slice, std::size_t index) {
    Json json = {{"slice", index + 1}};
    json.update(measures(slice.values));
    json["cut_by_frame"] = slice.cut_by_frame;
    json["base_line"] = {point(slice.base_line[0].x, slice.base_line[0].y),
                         point(slice.base_line[1].x, slice.base_line[1].y)};
    json["outline"] = outline_json(slice.outline);
    json["cells"] = cells_json(slice.cells);
    json["bubbles"] = bubbles_json(slice.bubbles);
    return json;
}

Json label_map_json(const LabelMapNames& names) {
    return {{"cells", names.cells},
            {"slice", names.slice},
            {"crumb", names.crumb},
            {"frame", names.frame}};
}

Json warning_json(const Warning& warning, const RemedyOf& remedy_of) {
    Json keys = Json::array();
    for (const Measure measure : warning.concerns)
        keys.push_back(info_of(measure).key);
    return {{"code", code_name(warning.code)},
            {"message", warning.message},
            {"remedy", remedy_of ? remedy_of(warning.code) : std::string()},
            {"keys", keys},
            {"slice", warning.slice ? Json(*warning.slice) : Json(nullptr)}};
}

Json photo_json(const MeasuredPhoto& photo, const RemedyOf& remedy_of) {
    const PhotoReading& reading = photo.reading;
    Json slices = Json::array();
    for (std::size_t i = 0; i < reading.slices.size(); ++i) {
        slices.push_back(slice_json(reading.slices[i], i));
        if (i < photo.label_maps.size())
            slices.back()["label_map"] = label_map_json(photo.label_maps[i]);
    }
    Json warnings = Json::array();
    for (const Warning& warning : reading.warnings)
        warnings.push_back(warning_json(warning, remedy_of));
    return {{"photo", reading.photo},
            {"taken", text(reading.taken)},
            {"analysis_version", reading.analysis_version},
            {"scale", scale_json(reading.scale)},
            {"slices", slices},
            {"warnings", warnings}};
}

}  // namespace

std::string photo_document(const std::vector<MeasuredPhoto>& photos, const RemedyOf& remedy_of) {
    Json list = Json::array();
    for (const MeasuredPhoto& photo : photos)
        list.push_back(photo_json(photo, remedy_of));
    return printed({{"schema", 1}, {"photos", list}});
}

std::string slice_document(const PhotoReading& reading, std::size_t slice,
                           const RemedyOf& remedy_of) {
    Json json = slice_json(reading.slices.at(slice), slice);
    json["photo"] = reading.photo;
    json["taken"] = text(reading.taken);
    json["analysis_version"] = reading.analysis_version;
    json["scale"] = scale_json(reading.scale);
    json["warnings"] = Json::array();
    for (const Warning& warning : reading.warnings)
        if (!warning.slice || *warning.slice == static_cast<int>(slice) + 1)
            json["warnings"].push_back(warning_json(warning, remedy_of));
    return printed_on_one_line(json);
}

}  // namespace loafmark::documents
