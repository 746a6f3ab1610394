#include "invariance.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <stdexcept>

#include <nlohmann/json.hpp>

namespace loafmark::accuracy {
namespace {

namespace fs = std::filesystem;

bool is_of_the_outline(Measure measure) {
    return measure >= Measure::loaf_height && measure <= Measure::crust_thickness_base;
}

bool resolves_the_same(const MeasureValues& a, const MeasureValues& b) {
    const auto limit = [](const MeasureValues& values) {
        const auto found = values.find(Measure::resolved_limit);
        return found == values.end() ? 0 : found->second.value;
    };
    constexpr double near = 0.05;
    return std::abs(limit(a) - limit(b)) <= near * limit(a);
}

}  // namespace

VariantSet read_variants(const fs::path& json_file) {
    std::ifstream stream(json_file);
    if (!stream) throw std::runtime_error(json_file.string() + " cannot be opened");
    try {
        const auto document = nlohmann::json::parse(stream);
        const fs::path folder = json_file.parent_path();
        VariantSet set{folder / document.at("photo").get<std::string>(), {}, {}};
        if (document.at("typed").contains("thickness_mm"))
            set.thickness = Millimetres(document.at("typed").at("thickness_mm").get<double>());
        for (const auto& variant : document.at("variants"))
            set.variants.push_back({variant.at("change").get<std::string>(),
                                    folder / variant.at("photo").get<std::string>()});
        return set;
    } catch (const nlohmann::json::exception& error) {
        throw std::runtime_error(json_file.string() + " tells of no variants: " + error.what());
    }
}

std::vector<fs::path> variant_files(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder))
        if (entry.path().string().ends_with(".variants.json")) files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

VariantComparison compare_variant(const VariantSet::Variant& variant, const PhotoReading& first,
                                  const PhotoReading& changed) {
    VariantComparison result{variant.photo.filename().string(), variant.change, 0, {}};
    const MeasureValues& expected = first.slices.at(0).values;
    const MeasureValues none;
    const MeasureValues& got = changed.slices.size() == 1 ? changed.slices[0].values : none;
    const bool crumb_too = got.empty() || resolves_the_same(expected, got);
    for (const auto& [measure, estimate] : expected) {
        // The limit rests on the scale alone and is given without an interval.
        if (measure == Measure::resolved_limit) continue;
        if (!crumb_too && !is_of_the_outline(measure)) continue;
        ++result.compared;
        const auto found = got.find(measure);
        const bool stays = found != got.end() && found->second.value >= estimate.low &&
                           found->second.value <= estimate.high;
        if (!stays) result.moved.emplace_back(info_of(measure).key);
    }
    return result;
}

}  // namespace loafmark::accuracy
