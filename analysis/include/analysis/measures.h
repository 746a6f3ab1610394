// The catalogue of measures: one row a measure, its JSON key, plain name and unit. Whatever prints,
// stores, searches or plots measures reads this table, so that a new measure is one row here and
// the code that computes it.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string_view>

namespace loafmark {

enum class Measure {
    resolved_limit,
    loaf_height,
    loaf_width,
    base_width,
    cross_section_area,
    height_to_width,
    side_pinch,
    crust_thickness_top,
    crust_thickness_base,
    crumb_area,
    openness,
    cell_count,
    cells_per_cm2,
    cell_diameter_number_d10,
    cell_diameter_number_d50,
    cell_diameter_number_d90,
    cell_diameter_number_mean,
    cell_diameter_area_d10,
    cell_diameter_area_d50,
    cell_diameter_area_d90,
    cell_diameter_area_mean,
    cell_diameter_relative_number_d10,
    cell_diameter_relative_number_d50,
    cell_diameter_relative_number_d90,
    cell_diameter_relative_number_mean,
    cell_diameter_relative_area_d10,
    cell_diameter_relative_area_d50,
    cell_diameter_relative_area_d90,
    cell_diameter_relative_area_mean,
    coarseness,
    relative_span,
    mean_free_path,
    cell_axis_ratio,
    cell_direction,
    cell_direction_strength,
    unevenness,
    unevenness_expected,
    openness_profile_1,
    openness_profile_2,
    openness_profile_3,
    openness_profile_4,
    openness_profile_5,
    openness_profile_6,
    openness_profile_7,
    openness_profile_8,
    openness_profile_9,
    openness_profile_10,
    large_cavity_share,
    openness_fine,
    crust_separation_width,
    crust_separation_height,
    crust_separation_share_of_width,
    tunnel_width,
    tunnel_height,
    tunnel_share_of_width,
    dense_base,
    cell_diameter_3d_volume_d10,
    cell_diameter_3d_volume_d50,
    cell_diameter_3d_volume_d90,
    cell_diameter_3d_number_d50,
    crust_colour_l,
    crust_colour_a,
    crust_colour_b,
    crumb_colour_l,
    crumb_colour_a,
    crumb_colour_b,
    slice_density,
    crumb_density,
    loaf_density,
    specific_volume,
    fine_pore_share,
    bake_loss_percent,
    proof_height,
    proof_rise,
    oven_spring,
    dough_per_tin_volume,
};

// How a measure comes to be: read from a photo of the cut face, or weighed and ruled in the
// kitchen.
enum class MeasureOrigin { photo, kitchen };

// `not_yet`: defined, listed, always null with a warning of code `not_yet`.
enum class MeasureState { built, not_yet };

struct MeasureInfo {
    Measure id;
    std::string_view key;   // dots part nested JSON objects: cell_diameter.area.d50
    std::string_view name;  // what a baker reads
    std::string_view unit;  // as printed; empty for a plain ratio or count
    int decimals;           // that tables print
    MeasureOrigin origin;
    MeasureState state;
};

// In the order in which people read them.
inline constexpr auto measure_catalogue = std::to_array<MeasureInfo>({
    {Measure::resolved_limit, "resolved_limit", "smallest cell counted", "mm", 2,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::loaf_height, "loaf_height", "loaf height", "mm", 1, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::loaf_width, "loaf_width", "loaf width", "mm", 1, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::base_width, "base_width", "base width", "mm", 1, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::cross_section_area, "cross_section_area", "cross-section area", "mm2", 0,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::height_to_width, "height_to_width", "how well it stood up", "", 2,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::side_pinch, "side_pinch", "waist", "mm", 1, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::crust_thickness_top, "crust_thickness.top", "crust thickness, top and sides", "mm", 1,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::crust_thickness_base, "crust_thickness.base", "crust thickness, base", "mm", 1,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::crumb_area, "crumb_area", "crumb area", "mm2", 0, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::openness, "openness", "openness", "", 3, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_count, "cell_count", "cells counted", "", 0, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::cells_per_cm2, "cells_per_cm2", "cells per cm2", "1/cm2", 1, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::cell_diameter_number_d10, "cell_diameter.number.d10", "cell diameter d10, by number",
     "mm", 2, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_diameter_number_d50, "cell_diameter.number.d50", "cell diameter d50, by number",
     "mm", 2, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_diameter_number_d90, "cell_diameter.number.d90", "cell diameter d90, by number",
     "mm", 2, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_diameter_number_mean, "cell_diameter.number.mean",
     "mean cell diameter, by number", "mm", 2, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_diameter_area_d10, "cell_diameter.area.d10", "cell diameter d10, by area", "mm",
     2, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_diameter_area_d50, "cell_diameter.area.d50", "cell diameter d50, by area", "mm",
     2, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_diameter_area_d90, "cell_diameter.area.d90", "cell diameter d90, by area", "mm",
     2, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_diameter_area_mean, "cell_diameter.area.mean", "mean cell diameter, by area",
     "mm", 2, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_diameter_relative_number_d10, "cell_diameter_relative.number.d10",
     "cell diameter d10, by number, per loaf height", "", 4, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::cell_diameter_relative_number_d50, "cell_diameter_relative.number.d50",
     "cell diameter d50, by number, per loaf height", "", 4, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::cell_diameter_relative_number_d90, "cell_diameter_relative.number.d90",
     "cell diameter d90, by number, per loaf height", "", 4, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::cell_diameter_relative_number_mean, "cell_diameter_relative.number.mean",
     "mean cell diameter, by number, per loaf height", "", 4, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::cell_diameter_relative_area_d10, "cell_diameter_relative.area.d10",
     "cell diameter d10, by area, per loaf height", "", 4, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::cell_diameter_relative_area_d50, "cell_diameter_relative.area.d50",
     "cell diameter d50, by area, per loaf height", "", 4, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::cell_diameter_relative_area_d90, "cell_diameter_relative.area.d90",
     "cell diameter d90, by area, per loaf height", "", 4, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::cell_diameter_relative_area_mean, "cell_diameter_relative.area.mean",
     "mean cell diameter, by area, per loaf height", "", 4, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::coarseness, "coarseness", "coarseness", "mm", 2, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::relative_span, "relative_span", "relative span", "", 2, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::mean_free_path, "mean_free_path", "bread between openings", "mm", 2,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_axis_ratio, "cell_axis_ratio", "axis ratio of cells", "", 2,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_direction, "cell_direction", "direction of cells", "deg", 0,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_direction_strength, "cell_direction_strength", "how parallel the cells lie", "",
     2, MeasureOrigin::photo, MeasureState::built},
    {Measure::unevenness, "unevenness", "unevenness", "", 2, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::unevenness_expected, "unevenness_expected", "unevenness expected by chance", "", 2,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::openness_profile_1, "openness_profile.1", "openness, band 1 of 10, base", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::openness_profile_2, "openness_profile.2", "openness, band 2 of 10", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::openness_profile_3, "openness_profile.3", "openness, band 3 of 10", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::openness_profile_4, "openness_profile.4", "openness, band 4 of 10", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::openness_profile_5, "openness_profile.5", "openness, band 5 of 10", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::openness_profile_6, "openness_profile.6", "openness, band 6 of 10", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::openness_profile_7, "openness_profile.7", "openness, band 7 of 10", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::openness_profile_8, "openness_profile.8", "openness, band 8 of 10", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::openness_profile_9, "openness_profile.9", "openness, band 9 of 10", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::openness_profile_10, "openness_profile.10", "openness, band 10 of 10, crown", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::large_cavity_share, "large_cavity_share", "large-cavity share", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::openness_fine, "openness_fine", "openness without cavities", "", 3,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::crust_separation_width, "crust_separation.width", "lifted crust, width", "mm", 1,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::crust_separation_height, "crust_separation.height", "lifted crust, height", "mm", 1,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::crust_separation_share_of_width, "crust_separation.share_of_width",
     "lifted crust, share of the loaf's width", "", 2, MeasureOrigin::photo, MeasureState::built},
    {Measure::tunnel_width, "tunnel.width", "tunnel, width", "mm", 1, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::tunnel_height, "tunnel.height", "tunnel, height", "mm", 1, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::tunnel_share_of_width, "tunnel.share_of_width", "tunnel, share of the loaf's width",
     "", 2, MeasureOrigin::photo, MeasureState::built},
    {Measure::dense_base, "dense_base", "dense base layer", "mm", 1, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::cell_diameter_3d_volume_d10, "cell_diameter_3d.volume.d10",
     "3-D cell diameter d10, by volume", "mm", 2, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_diameter_3d_volume_d50, "cell_diameter_3d.volume.d50",
     "3-D cell diameter d50, by volume", "mm", 2, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_diameter_3d_volume_d90, "cell_diameter_3d.volume.d90",
     "3-D cell diameter d90, by volume", "mm", 2, MeasureOrigin::photo, MeasureState::built},
    {Measure::cell_diameter_3d_number_d50, "cell_diameter_3d.number.d50",
     "3-D cell diameter d50, by number (sensitive)", "mm", 2, MeasureOrigin::photo,
     MeasureState::built},
    {Measure::crust_colour_l, "crust_colour.l", "crust colour, lightness L*", "CIELAB", 1,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::crust_colour_a, "crust_colour.a", "crust colour, a* (green to red)", "CIELAB", 1,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::crust_colour_b, "crust_colour.b", "crust colour, b* (blue to yellow)", "CIELAB", 1,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::crumb_colour_l, "crumb_colour.l", "crumb colour, lightness L*", "CIELAB", 1,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::crumb_colour_a, "crumb_colour.a", "crumb colour, a* (green to red)", "CIELAB", 1,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::crumb_colour_b, "crumb_colour.b", "crumb colour, b* (blue to yellow)", "CIELAB", 1,
     MeasureOrigin::photo, MeasureState::built},
    {Measure::slice_density, "slice_density", "slice density", "g/cm3", 3, MeasureOrigin::kitchen,
     MeasureState::built},
    {Measure::crumb_density, "crumb_density", "crumb density", "g/cm3", 3, MeasureOrigin::kitchen,
     MeasureState::built},
    {Measure::loaf_density, "loaf_density", "loaf density", "g/cm3", 3, MeasureOrigin::kitchen,
     MeasureState::built},
    {Measure::specific_volume, "specific_volume", "specific volume", "mL/g", 2,
     MeasureOrigin::kitchen, MeasureState::built},
    {Measure::fine_pore_share, "fine_pore_share", "fine-pore share", "", 2, MeasureOrigin::kitchen,
     MeasureState::built},
    {Measure::bake_loss_percent, "bake_loss_percent", "bake loss", "%", 1, MeasureOrigin::kitchen,
     MeasureState::built},
    {Measure::proof_height, "proof_height", "proof height", "mm", 1, MeasureOrigin::kitchen,
     MeasureState::built},
    {Measure::proof_rise, "proof_rise", "proof rise", "", 2, MeasureOrigin::kitchen,
     MeasureState::built},
    {Measure::oven_spring, "oven_spring", "oven spring", "mm", 1, MeasureOrigin::kitchen,
     MeasureState::built},
    {Measure::dough_per_tin_volume, "dough_per_tin_volume", "dough per tin volume", "g/mL", 2,
     MeasureOrigin::kitchen, MeasureState::built},
});

[[nodiscard]] constexpr const MeasureInfo& info_of(Measure measure) {
    return measure_catalogue[static_cast<std::size_t>(measure)];
}

// The measure of a JSON key, or nothing.
[[nodiscard]] constexpr std::optional<Measure> measure_of_key(std::string_view key) {
    for (const MeasureInfo& info : measure_catalogue)
        if (info.key == key) return info.id;
    return std::nullopt;
}

// A value in the unit of its measure, with its 95 % interval.
struct Estimate {
    double value = 0;
    // Of this cut face: scale, outline, thickness, segmentation.
    double low = 0;
    double high = 0;
    // How far another cut through the same loaf may differ; crumb measures only.
    std::optional<double> loaf_low;
    std::optional<double> loaf_high;
    bool operator==(const Estimate&) const = default;
};

// What was had; a measure that could not be had is absent.
using MeasureValues = std::map<Measure, Estimate>;

namespace detail {
constexpr bool catalogue_in_enum_order() {
    for (std::size_t i = 0; i < measure_catalogue.size(); ++i)
        if (static_cast<std::size_t>(measure_catalogue[i].id) != i) return false;
    return true;
}
}  // namespace detail
static_assert(detail::catalogue_in_enum_order(), "info_of() indexes by the enum's value");

}  // namespace loafmark
