#include "commands/loaves_left.h"

#include <cmath>
#include <map>
#include <optional>

#include "commands/text.h"
#include "journal/amounts.h"

namespace loafmark::commands {
std::optional<Grams> stock_of(journal::FlourId flour, const journal::Journal& journal) {
    const std::vector<journal::Bag> bags = journal.bags(flour);
    if (bags.empty()) return std::nullopt;
    Grams sum{0};
    for (const journal::Bag& bag : bags) {
        if (!bag.left) return std::nullopt;
        if (*bag.left > Grams(0)) sum = sum + *bag.left;
    }
    return sum;
}

std::string loaves_left_text(const journal::FormulaVersion& formula, Grams each,
                             const journal::Journal& journal) {
    std::map<journal::FlourId, Grams> needed;
    for (const journal::MixedAmount& amount : journal::amounts_for_dough(formula.ingredients, each))
        if (amount.flour && amount.flour_fraction > Fraction(0))
            needed[*amount.flour] =
                needed[*amount.flour] + amount.mass * amount.flour_fraction.count();
    std::optional<double> fewest;
    std::string first;
    for (const auto& [id, mass] : needed) {
        const std::string name = journal.flour(id).name;
        const auto stock = stock_of(id, journal);
        if (!stock) return "How much there is of '" + name + "' is not known: add its bag.\n";
        const double loaves = std::floor(*stock / mass + 1e-9);
        if (fewest && *fewest <= loaves) continue;
        fewest = loaves;
        first = name;
    }
    if (!fewest) return "";
    return "Enough for " + number_text(*fewest, 0) +
           (*fewest == 1 ? " loaf of '" : " loaves of '") + formula.name + "' with " +
           grams_text(each, 0) + " of dough each; '" + first + "' runs out first.\n";
}

}  // namespace loafmark::commands
