// The words for the journal's closed choices, as the database keeps them and commands take them.
#pragma once

#include <optional>
#include <string_view>

#include "journal/records.h"

namespace loafmark::journal {

// flour, water, salt, leaven, other
[[nodiscard]] std::string_view name_of(IngredientKind kind);
// pack-eu, pack-us, mill-14, dry
[[nodiscard]] std::string_view name_of(ProteinBasis basis);
// slice, overlay
[[nodiscard]] std::string_view name_of(PictureKind kind);
// a4, letter, strip
[[nodiscard]] std::string_view name_of(TargetKind kind);

// The reverse; nothing for another word.
[[nodiscard]] std::optional<IngredientKind> ingredient_kind_of_name(std::string_view name);
[[nodiscard]] std::optional<ProteinBasis> protein_basis_of_name(std::string_view name);
[[nodiscard]] std::optional<PictureKind> picture_kind_of_name(std::string_view name);
[[nodiscard]] std::optional<TargetKind> target_kind_of_name(std::string_view name);

}  // namespace loafmark::journal
