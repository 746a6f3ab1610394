// What flours of a kind are like on average: a start until the bag's own figures are known. Typical
// values are marked as such wherever they show, and nothing is ever guessed from a type number: it
// tells ash, not strength.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "analysis/units.h"

namespace loafmark::insight {

struct TypicalFlour {
    std::string_view kind;  // as people choose it: "wheat bread"
    std::string_view grain;
    std::string_view grade;
    std::string_view source;  // with the number of its row there
    // Of the flour as it lies in the bag, protein as nitrogen x 5.7 or the grain's own factor.
    Fraction protein;
    Fraction moisture;
    Fraction ash;
    std::optional<Fraction> fibre;
    std::string_view absorption;  // water per flour, with its source; empty: none known here
};

// USDA National Nutrient Database for Standard Reference 26.
[[nodiscard]] std::span<const TypicalFlour> typical_flours();
// Null for another word.
[[nodiscard]] const TypicalFlour* typical_flour(std::string_view kind);

// Wheat in the wide sense: wheat, durum, spelt, emmer, einkorn, khorasan. Their gluten raises
// bread.
[[nodiscard]] bool is_of_wheat_family(std::string_view grain);

}  // namespace loafmark::insight
