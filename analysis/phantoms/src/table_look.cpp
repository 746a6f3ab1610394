#include "phantoms/table_look.h"

namespace loafmark::phantoms {

namespace {

// The field lies between the upper and the lower pair of markers, clear of their quiet zones.
void add_field(TableLook& look, TargetKind kind) {
    const auto markers = markers_of(kind);
    constexpr float clear = static_cast<float>(marker_side_mm / 2 + marker_side_mm / 6 + 6);
    look.field_left = look.sheet_left + 8;
    look.field_right = look.sheet_right - 8;
    look.field_top = static_cast<float>(markers[0].centre_mm.y) + clear;
    look.field_bottom = static_cast<float>(markers[2].centre_mm.y) - clear;
}

}  // namespace

TableLook table_with_target(TargetKind kind, MatField field) {
    TableLook look;
    const SheetLayout sheet = sheet_of(kind);
    look.sheet_left = static_cast<float>(-sheet.first_marker_mm.x);
    look.sheet_top = static_cast<float>(-sheet.first_marker_mm.y);
    look.sheet_right = look.sheet_left + static_cast<float>(sheet.width_mm);
    look.sheet_bottom = look.sheet_top + static_cast<float>(sheet.height_mm);
    for (const TargetMarker& marker : markers_of(kind)) {
        constexpr double half = marker_side_mm / 2;
        look.markers[look.marker_count++] = {static_cast<float>(marker.centre_mm.x - half),
                                             static_cast<float>(marker.centre_mm.y - half),
                                             marker_bits[static_cast<std::size_t>(marker.id)]};
    }
    look.field = kind == TargetKind::strip ? MatField::white : field;
    if (look.field != MatField::white) add_field(look, kind);
    look.ruler_left = kind == TargetKind::strip ? 20.0f : 33.0f;
    look.ruler_y = kind == TargetKind::strip ? 14.0f : -4.0f;
    return look;
}

}  // namespace loafmark::phantoms
