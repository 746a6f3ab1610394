// loafmark bake read: bakes from a file, all of them or none.
#pragma once

#include <string>
#include <vector>

#include "commands/bake.h"
#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

// `Datum=date` or `Teig (g)=dough:g`: what a column of the file means, and the unit of its bare
// numbers.
struct ColumnMeaning {
    std::string column;
    std::string option;  // of bake add, without its dashes
    std::string unit;
};
// Throws std::runtime_error.
[[nodiscard]] ColumnMeaning parse_column(const std::string& text);

struct BakeReadOptions {
    std::string file;
    std::vector<ColumnMeaning> columns;
    bool dry_run = false;  // only look whether it could be read
    bool again = false;    // bakes that the journal has already are meant to be added again
};

CLI::App& add_bake_read(CLI::App& bake, BakeReadOptions& options);
[[nodiscard]] Outcome run(const BakeReadOptions&, journal::Journal&, const Context&);

}  // namespace loafmark::commands
