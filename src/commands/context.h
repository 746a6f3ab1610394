// What a command may use of the world outside: passed in, so that tests pass their own.
#pragma once

#include <filesystem>
#include <functional>
#include <iosfwd>
#include <optional>
#include <string>

#include "arithmetic/dates.h"

namespace loafmark::commands {

// How a command ended that did not throw. `incomplete`: what could be done was done and printed,
// something else could not (one photo of several), and stderr says what.
enum class Outcome { done, incomplete };

struct Context {
    std::ostream& out;  // results only
    std::ostream& err;  // all else
    // The value of an environment variable; nothing where it is unset or empty.
    std::function<std::optional<std::string>(const std::string&)> environment;
    Date today;                              // local calendar day
    std::function<std::string()> now_local;  // 2026-03-01 19:20
    std::filesystem::path program;           // the running executable; empty: unknown
    bool out_is_terminal = false;
    bool err_is_terminal = false;
    std::istream* in = nullptr;  // what is typed; null: nothing can be asked
    bool in_is_terminal = false;
};

// The journal's folder: `option` (--journal), else $LOAFMARK_JOURNAL, else
// $XDG_DATA_HOME/loafmark, else ~/.local/share/loafmark. Throws UsageError where none of them is
// set.
[[nodiscard]] std::filesystem::path journal_folder(const std::optional<std::string>& option,
                                                   const Context& context);

// Whether text for people may carry terminal colours: a terminal, and no NO_COLOR (no-color.org).
[[nodiscard]] bool colour_on_out(const Context& context);
[[nodiscard]] bool colour_on_err(const Context& context);

}  // namespace loafmark::commands
