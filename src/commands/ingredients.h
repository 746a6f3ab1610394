// Ingredients as options write them, `Emmer=70%` and `water=335g`, into those of a formula.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/units.h"
#include "journal/journal.h"

namespace loafmark::commands {

struct NamedShare {
    std::string name;
    Fraction share;
    bool operator==(const NamedShare&) const = default;
};
struct NamedMass {
    std::string name;
    Grams mass;
    bool operator==(const NamedMass&) const = default;
};

// `NAME=70%` and `NAME=335g`; the last = parts them. Throw std::runtime_error.
[[nodiscard]] NamedShare parse_named_share(const std::string& text);
[[nodiscard]] NamedMass parse_named_mass(const std::string& text);
// `1%` alone too, then called "yeast".
[[nodiscard]] NamedShare parse_leaven(const std::string& text);

// A formula as it was typed: every share is of all flour, the starter's counted.
struct Recipe {
    std::vector<NamedShare> flours;
    std::optional<Fraction> water;
    std::optional<Fraction> salt;
    std::vector<NamedShare> leavens;
    std::optional<Fraction> starter;
    Fraction starter_hydration{1};  // water / flour
    std::optional<std::string> starter_flour;
    std::vector<NamedShare> others;
    std::vector<NamedShare> soaker;    // soaked apart before the dough is mixed; water among them
    std::vector<NamedShare> water_in;  // water / own mass of one of `others` or of the soaker
};

// Throws UsageError where the flours do not add to 100 % or a part is missing, Failure for a flour
// that the journal does not have.
[[nodiscard]] std::vector<journal::Ingredient> ingredients_of(const Recipe& recipe,
                                                              const journal::Journal& journal);

}  // namespace loafmark::commands
