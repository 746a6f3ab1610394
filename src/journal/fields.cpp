#include "journal/fields.h"

#include <algorithm>

#include "analysis/measures.h"

namespace loafmark::journal {
namespace {

constexpr std::array sources{
    FieldSource{{"hydration_percent", "hydration as mixed", "%"},
                Level::figures,
                "figures.hydration_percent"},
    FieldSource{{"prefermented_flour_percent", "pre-fermented flour", "%"},
                Level::figures,
                "figures.prefermented_flour_percent"},
    FieldSource{{"salt_percent", "salt on all flour", "%"}, Level::figures, "figures.salt_percent"},
    FieldSource{{"flour_mass", "all flour", "g"}, Level::figures, "figures.flour_g"},
    FieldSource{
        {"room_temperature", "room temperature", "C"}, Level::bake, "bake_day.room_temperature_c"},
    FieldSource{
        {"dough_temperature", "dough temperature", "C"}, Level::bake, "bake.dough_temperature_c"},
    FieldSource{
        {"flour_temperature", "flour temperature", "C"}, Level::bake, "bake.flour_temperature_c"},
    FieldSource{
        {"water_temperature", "water temperature", "C"}, Level::bake, "bake.water_temperature_c"},
    FieldSource{{"starter_temperature", "starter temperature", "C"},
                Level::bake,
                "bake.starter_temperature_c"},
    FieldSource{{"leaven_fed_before", "hours since the starter was fed", "h"},
                Level::bake,
                "bake.leaven_fed_before_h"},
    FieldSource{{"folds", "folds", ""}, Level::bake, "bake.folds"},
    FieldSource{{"leaven", "leaven", "", true}, Level::bake, "bake.leaven"},
    FieldSource{{"mixed_by", "mixed by", "", true}, Level::bake, "bake.mixed_by"},
    FieldSource{{"handling", "handling at mixing", "", true}, Level::bake, "bake.handling"},
    FieldSource{
        {"handling_shaped", "handling at shaping", "", true}, Level::bake, "bake.handling_shaped"},
    FieldSource{{"held_shape", "held its shape", "", true}, Level::bake, "bake.held_shape"},
    FieldSource{{"set_aside", "why it was set aside", "", true}, Level::bake, "bake.set_aside"},
    FieldSource{{"dough_mass", "the loaf's dough mass", "g"}, Level::loaf, "loaf.dough_mass_g"},
    FieldSource{{"baked_mass", "the loaf's baked mass", "g"}, Level::loaf, "loaf.baked_mass_g"},
    FieldSource{{"dough_height", "the dough's height in the tin", "mm"},
                Level::loaf,
                "loaf.dough_height_in_tin_mm"},
    FieldSource{{"proof_height", "proof height", "mm"}, Level::loaf, "loaf.proof_height_mm"},
    FieldSource{{"proof", "final proof of the loaf", "min"},
                Level::loaf,
                // A step without a duration leaves the whole unknown: part of a sum is no sum.
                "coalesce(loaf.proof_min, (SELECT CASE WHEN count(*) = count(s.lasted_min) "
                "THEN sum(s.lasted_min) END FROM bake_step AS s "
                "WHERE s.bake = loaf.bake AND s.step = 'final proof'))"},
    FieldSource{
        {"core_temperature", "core temperature", "C"}, Level::loaf, "loaf.core_temperature_c"},
    FieldSource{
        {"weighed_after", "hours until it was weighed", "h"}, Level::loaf, "loaf.weighed_after_h"},
    FieldSource{{"loaf_volume", "the loaf's volume", "ml"}, Level::loaf, "loaf.volume_ml"},
    FieldSource{{"loaf_length", "the loaf's length", "mm"}, Level::loaf, "loaf.length_mm"},
    FieldSource{{"specific_volume", "specific volume", "mL/g"},
                Level::loaf,
                "(SELECT w.specific_volume FROM loaf_weighed AS w WHERE w.loaf = loaf.id)"},
    FieldSource{{"loaf_density", "loaf density", "g/cm3"},
                Level::loaf,
                "(SELECT w.loaf_density FROM loaf_weighed AS w WHERE w.loaf = loaf.id)"},
    FieldSource{{"bake_loss_percent", "bake loss", "%"},
                Level::loaf,
                "(SELECT w.bake_loss_percent FROM loaf_weighed AS w WHERE w.loaf = loaf.id)"},
    FieldSource{{"proof_rise", "proof rise", ""},
                Level::loaf,
                "(SELECT w.proof_rise FROM loaf_weighed AS w WHERE w.loaf = loaf.id)"},
    FieldSource{{"oven_spring", "oven spring", "mm"},
                Level::loaf,
                "(SELECT w.oven_spring FROM loaf_weighed AS w WHERE w.loaf = loaf.id)"},
    FieldSource{{"dough_per_tin_volume", "dough per tin volume", "g/mL"},
                Level::loaf,
                "(SELECT w.dough_per_tin_volume FROM loaf_weighed AS w WHERE w.loaf = loaf.id)"},
    FieldSource{{"tin", "tin", "", true}, Level::loaf, "loaf.tin"},
    FieldSource{{"dent", "what a dent did", "", true}, Level::loaf, "loaf.dent"},
    FieldSource{{"scoring", "scoring", "", true}, Level::loaf, "loaf.scoring"},
    FieldSource{{"oven_place", "place in the oven", "", true}, Level::loaf, "loaf.oven_place"},
    FieldSource{{"steam", "steam", "", true}, Level::loaf, "loaf.steam"},
    FieldSource{{"slice_mass", "slice mass", "g"}, Level::slice, "slice.mass_g"},
    FieldSource{{"slice_thickness", "slice thickness, mean", "mm"},
                Level::slice,
                "(SELECT avg(t.thickness_mm) FROM slice_thickness AS t WHERE t.slice = slice.id)"},
    FieldSource{{"slice_density", "slice density", "g/cm3"},
                Level::slice,
                "(SELECT w.slice_density FROM slice_weighed AS w WHERE w.slice = slice.id)"},
    FieldSource{{"crumb_density", "crumb density", "g/cm3"},
                Level::slice,
                "(SELECT w.crumb_density FROM slice_weighed AS w WHERE w.slice = slice.id)"},
    FieldSource{{"fine_pore_share", "fine-pore share", ""},
                Level::slice,
                "(SELECT w.fine_pore_share FROM slice_weighed AS w WHERE w.slice = slice.id)"},
    FieldSource{
        {"hours_since_oven", "hours since the oven", "h"}, Level::slice, "slice.since_oven_h"},
    FieldSource{{"place", "where in the loaf", "", true}, Level::slice, "slice.place"},
    FieldSource{{"cut", "crosswise or lengthwise", "", true}, Level::slice, "slice.cut_direction"},
};

constexpr auto table = [] {
    std::array<Field, sources.size()> fields{};
    for (std::size_t i = 0; i < fields.size(); ++i)
        fields[i] = sources[i].field;
    return fields;
}();

}  // namespace

std::span<const Field> fields() {
    return table;
}

std::span<const FieldSource> field_sources() {
    return sources;
}

bool measure_in_readings(std::string_view key) {
    const auto measure = measure_of_key(key);
    return measure && info_of(*measure).origin == MeasureOrigin::photo;
}

const FieldSource* source_of(std::string_view key) {
    const auto found =
        std::ranges::find(sources, key, [](auto& source) { return source.field.key; });
    return found == sources.end() ? nullptr : &*found;
}

}  // namespace loafmark::journal
