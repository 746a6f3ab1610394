// How much of a formula is made, as options say it, into what goes into the bowl.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/units.h"
#include "arithmetic/dates.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct DoughSizeTyped {
    std::optional<Grams> dough;           // in all
    std::optional<Grams> flour;           // in all, the starter's included
    std::optional<int> loaves;            // with `each`, `tin` or `same_as`; 1 unless said
    std::optional<Grams> each;            // dough of a loaf
    std::optional<std::string> tin;       // of the kitchen: dough by its volume
    std::optional<double> fill_g_per_ml;  // dough per tin volume
    std::optional<std::string> same_as;   // BAKE: as much dough a loaf as it had
};

void add_dough_size_options(CLI::App& app, DoughSizeTyped& typed);

struct DoughSize {
    std::vector<journal::MixedAmount> amounts;  // not rounded
    int loaves = 1;
    Grams dough;
    std::string note;  // how the mass came about, a line; "" where it was simply said
};

// Throws UsageError unless the size is said in exactly one way; Failure for a tin or a bake that
// there is not, or of which too little is known.
[[nodiscard]] DoughSize dough_size(const DoughSizeTyped& typed,
                                   const journal::FormulaVersion& formula,
                                   const journal::Journal& journal, Date today);

// The scales' step: said here, else the kitchen's, else 1 g. Throws UsageError for none at all.
[[nodiscard]] Grams scale_step(std::optional<Grams> said, const journal::Journal& journal);

}  // namespace loafmark::commands
