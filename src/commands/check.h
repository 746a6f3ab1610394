// loafmark check: what is wrong with the journal's files.
#pragma once

#include "commands/context.h"
#include "commands/open_journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct CheckOptions {
    bool mend = false;
};

CLI::App& add_check(CLI::App& parent, CheckOptions& options);

[[nodiscard]] Outcome run(const CheckOptions&, const OpenJournal&, const Context&);

}  // namespace loafmark::commands
