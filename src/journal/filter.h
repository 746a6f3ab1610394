// Which bakes find() gives.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "arithmetic/dates.h"
#include "arithmetic/quantities.h"
#include "journal/records.h"
#include "journal/trial_records.h"

namespace loafmark::journal {

// A measure or another number of the journal within a range.
struct Condition {
    std::string key;                  // of a measure (cell_diameter.area.d50) or of a Field
    Range range;                      // in the unit of that measure or field
    std::optional<std::string> word;  // of a field of words: stands in it, whatever the case
    bool operator==(const Condition&) const = default;
};

// A number that is not a measure of the analysis and can stand in a Condition.
struct Field {
    std::string_view key;
    std::string_view name;  // what a baker reads
    std::string_view unit;
    bool words = false;
};
// hydration_percent, dough_temperature, baked_mass and so on; with an empty unit where it holds a
// count, and `words` where it holds words (handling, steam, tin).
[[nodiscard]] std::span<const Field> fields();

// `openness 0.3..`: a key, a blank, a range; `handling tacky`: a field of words, a word. Whether
// there is such a key is asked by find(). Throws QuantityError.
[[nodiscard]] Condition parse_condition(std::string_view text);

// A flour's part of all flour in the bake.
struct ShareCondition {
    FlourId flour;
    FractionRange share;
};

// In which order bakes come.
struct Order {
    std::string key;  // date, number, title, a Field that is not of words, or a measure; of several
                      // slices or loaves the one that comes first counts; unknown comes last
    bool descending = false;
};

// Every part narrows; what is left out does not. All together must hold for a bake.
struct Filter {
    std::optional<FlourId> flour;            // among what was mixed, a starter's flour included
    std::optional<std::string> grain;        // of one of its flours, whatever the case
    std::optional<FormulaId> formula;        // any of its versions
    std::optional<FractionRange> hydration;  // as mixed, 0.66 to 0.74
    std::optional<Date> since;               // this day included
    std::optional<Date> until;               // this day included
    std::optional<std::string> text;         // within title, notes, handling or the formula's name,
                                             // whatever the case
    // Those about a loaf, a slice or a reading must hold together for one slice of the bake (of a
    // loaf without slices: for the loaf). Of a slice's readings the newest counts.
    std::vector<Condition> where;
    std::optional<BagId> bag;      // drawn on
    std::optional<TrialId> trial;  // put into it
    std::vector<ShareCondition> shares;
    std::optional<Order> order;        // none: by date, then number
    std::optional<std::size_t> limit;  // at most so many
    std::size_t skip = 0;              // after leaving out so many
};

}  // namespace loafmark::journal
