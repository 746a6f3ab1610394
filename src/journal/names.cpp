#include "journal/names.h"

#include <array>
#include <utility>

namespace loafmark::journal {
namespace {

template <class Enum>
using Name = std::pair<Enum, std::string_view>;

constexpr std::array ingredient_kinds{Name<IngredientKind>{IngredientKind::flour, "flour"},
                                      Name<IngredientKind>{IngredientKind::water, "water"},
                                      Name<IngredientKind>{IngredientKind::salt, "salt"},
                                      Name<IngredientKind>{IngredientKind::leaven, "leaven"},
                                      Name<IngredientKind>{IngredientKind::other, "other"}};
constexpr std::array protein_bases{
    Name<ProteinBasis>{ProteinBasis::pack_eu, "pack-eu"},
    Name<ProteinBasis>{ProteinBasis::pack_us, "pack-us"},
    Name<ProteinBasis>{ProteinBasis::mill_14_percent_moisture, "mill-14"},
    Name<ProteinBasis>{ProteinBasis::dry, "dry"}};
constexpr std::array picture_kinds{Name<PictureKind>{PictureKind::slice, "slice"},
                                   Name<PictureKind>{PictureKind::overlay, "overlay"}};
constexpr std::array target_kinds{Name<TargetKind>{TargetKind::a4_mat, "a4"},
                                  Name<TargetKind>{TargetKind::letter_mat, "letter"},
                                  Name<TargetKind>{TargetKind::strip, "strip"}};

std::string_view name_in(const auto& table, auto value) {
    for (const auto& [choice, name] : table)
        if (choice == value) return name;
    return {};
}

template <class Enum>
std::optional<Enum> choice_in(const auto& table, std::string_view wanted) {
    for (const auto& [choice, name] : table)
        if (name == wanted) return choice;
    return std::nullopt;
}

}  // namespace

std::string_view name_of(IngredientKind kind) {
    return name_in(ingredient_kinds, kind);
}
std::string_view name_of(ProteinBasis basis) {
    return name_in(protein_bases, basis);
}
std::string_view name_of(PictureKind kind) {
    return name_in(picture_kinds, kind);
}
std::string_view name_of(TargetKind kind) {
    return name_in(target_kinds, kind);
}

std::optional<IngredientKind> ingredient_kind_of_name(std::string_view name) {
    return choice_in<IngredientKind>(ingredient_kinds, name);
}
std::optional<ProteinBasis> protein_basis_of_name(std::string_view name) {
    return choice_in<ProteinBasis>(protein_bases, name);
}
std::optional<PictureKind> picture_kind_of_name(std::string_view name) {
    return choice_in<PictureKind>(picture_kinds, name);
}
std::optional<TargetKind> target_kind_of_name(std::string_view name) {
    return choice_in<TargetKind>(target_kinds, name);
}

}  // namespace loafmark::journal
