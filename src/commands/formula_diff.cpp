#include "commands/formula_diff.h"

#include <algorithm>
#include <cmath>

#include "arithmetic/near_names.h"
#include "commands/text.h"
#include "documents/text_table.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

using Rows = std::vector<std::vector<std::string>>;

const journal::Ingredient* same_in(const journal::FormulaVersion& formula,
                                   const journal::Ingredient& wanted) {
    const auto found = std::ranges::find_if(formula.ingredients, [&](const auto& line) {
        return folded(line.name) == folded(wanted.name) && line.stage == wanted.stage;
    });
    return found == formula.ingredients.end() ? nullptr : &*found;
}

bool differ(Fraction a, Fraction b) {
    return std::abs(a.count() - b.count()) > 1e-6;
}

std::string signed_percent(Fraction before, Fraction after) {
    const std::string text = percent_text(after - before, 2);
    return text.front() == '-' ? text : "+" + text;
}

Rows changed_figures(const journal::FormulaVersion& from, const journal::FormulaVersion& to) {
    const auto before = figures_of(journal::parts_of(from.ingredients));
    const auto after = figures_of(journal::parts_of(to.ingredients));
    Rows rows;
    if (!before || !after) return rows;
    const auto add = [&](const char* name, Fraction old_value, Fraction new_value) {
        if (differ(old_value, new_value))
            rows.push_back({name, percent_text(old_value, 2), percent_text(new_value, 2),
                            signed_percent(old_value, new_value)});
    };
    add("= hydration", before->hydration, after->hydration);
    add("= flour in the starter", before->prefermented_flour, after->prefermented_flour);
    add("= dough", before->total, after->total);
    return rows;
}

}  // namespace

std::string formula_diff(const journal::FormulaVersion& from, const journal::FormulaVersion& to) {
    Rows rows;
    for (const journal::Ingredient& line : to.ingredients) {
        const journal::Ingredient* const before = same_in(from, line);
        if (before == nullptr)
            rows.push_back({line.name, nothing_text, percent_text(line.share, 2), "new"});
        else if (differ(before->share, line.share))
            rows.push_back({line.name, percent_text(before->share, 2), percent_text(line.share, 2),
                            signed_percent(before->share, line.share)});
    }
    for (const journal::Ingredient& line : from.ingredients)
        if (same_in(to, line) == nullptr)
            rows.push_back({line.name, percent_text(line.share, 2), nothing_text, "gone"});
    if (rows.empty())
        return to.name + ": versions " + std::to_string(from.version) + " and " +
               std::to_string(to.version) + " ask for the same\n";
    const Rows figures = changed_figures(from, to);
    rows.insert(rows.end(), figures.begin(), figures.end());
    using documents::Align;
    return documents::text_table({{to.name},
                                  {"version " + std::to_string(from.version), Align::right},
                                  {"version " + std::to_string(to.version), Align::right},
                                  {"change", Align::right}},
                                 rows);
}

}  // namespace loafmark::commands
