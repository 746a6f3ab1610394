// The printed targets that give a photo its scale: which markers, where, and their bit patterns.
// One table serves the printer of targets, the finder of markers and the renderer of phantoms.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "analysis/geometry.h"

namespace loafmark {

enum class TargetKind { a4_mat, letter_mat, strip };

// Side of a marker's black square, border module included, in mm; six modules across.
inline constexpr double marker_side_mm = 24;
inline constexpr int marker_modules = 6;

struct TargetMarker {
    int id;                // in the dictionary DICT_4X4_50
    PlanePoint centre_mm;  // in the target's frame: from the first marker's centre, x right, y down
};

// One marker's inner 4 x 4 modules, row by row from its top-left; bit 15 is the first, 1 = white.
// From OpenCV's predefined dictionary DICT_4X4_50, ids 0 to 9; a test compares them with it.
inline constexpr std::array<std::uint16_t, 10> marker_bits = {
    0xb532, 0x0f9a, 0x332d, 0x9946, 0x549e, 0x79cd, 0x9e2e, 0xc4f2, 0xfeda, 0xcf56};

inline constexpr std::array<TargetMarker, 4> a4_mat_markers = {
    {{0, {0, 0}}, {1, {166, 0}}, {2, {166, 253}}, {3, {0, 253}}}};
inline constexpr std::array<TargetMarker, 4> letter_mat_markers = {
    {{4, {0, 0}}, {5, {166, 0}}, {6, {166, 231}}, {7, {0, 231}}}};
inline constexpr std::array<TargetMarker, 2> strip_markers = {{{8, {0, 0}}, {9, {140, 0}}}};

[[nodiscard]] constexpr std::span<const TargetMarker> markers_of(TargetKind kind) {
    switch (kind) {
        case TargetKind::a4_mat:
            return a4_mat_markers;
        case TargetKind::letter_mat:
            return letter_mat_markers;
        case TargetKind::strip:
            break;
    }
    return strip_markers;
}

// The target that a marker id belongs to, or nothing for an id that no target uses.
[[nodiscard]] constexpr std::optional<TargetKind> target_of_marker(int id) {
    if (id >= 0 && id <= 3) return TargetKind::a4_mat;
    if (id >= 4 && id <= 7) return TargetKind::letter_mat;
    if (id == 8 || id == 9) return TargetKind::strip;
    return std::nullopt;
}

// Sheet size and the first marker's centre on it, from the sheet's top-left corner, in mm. A strip
// is cut from a sheet; its own size here is that of the card.
struct SheetLayout {
    double width_mm;
    double height_mm;
    PlanePoint first_marker_mm;
};

[[nodiscard]] constexpr SheetLayout sheet_of(TargetKind kind) {
    switch (kind) {
        case TargetKind::a4_mat:
            return {210, 297, {22, 22}};
        case TargetKind::letter_mat:
            return {215.9, 279.4, {24.95, 24.2}};
        case TargetKind::strip:
            break;
    }
    return {180, 40, {20, 20}};
}

// The part of a mat that is printed blue or framed, where the slice lies, in the target's frame. It
// keeps clear of the markers' quiet zones; a strip has none.
struct FieldLayout {
    PlanePoint top_left_mm;
    double width_mm;
    double height_mm;
};

[[nodiscard]] constexpr std::optional<FieldLayout> field_of(TargetKind kind) {
    if (kind == TargetKind::strip) return std::nullopt;
    const PlanePoint last_mm = markers_of(kind)[2].centre_mm;
    const double clear_of_markers_mm = 20;
    return FieldLayout{{-marker_side_mm / 2, clear_of_markers_mm},
                       last_mm.x + marker_side_mm,
                       last_mm.y - 2 * clear_of_markers_mm};
}

// Whether the module at (row, column), 0 to 5 from the marker's top-left with the black border
// counted, is white.
[[nodiscard]] constexpr bool marker_module_is_white(int id, int row, int column) {
    if (row < 1 || row > 4 || column < 1 || column > 4) return false;
    const int bit = 15 - ((row - 1) * 4 + (column - 1));
    return (marker_bits[static_cast<std::size_t>(id)] >> bit) & 1;
}

}  // namespace loafmark
