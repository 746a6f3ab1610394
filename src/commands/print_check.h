// What the printed targets' lines of 100 mm measure: telling, keeping, using.
#pragma once

#include <map>
#include <string>

#include "analysis/measure.h"
#include "journal/journal.h"

namespace loafmark::commands {

// "the A4 mat", "the Letter mat", "the strip".
[[nodiscard]] std::string target_name(TargetKind target);

// Reads --print-check. Throws std::runtime_error.
[[nodiscard]] Millimetres parse_print_check(const std::string& text);

// The options with what the journal knows of the printed targets.
[[nodiscard]] analysis::MeasureOptions with_kept_print_checks(analysis::MeasureOptions options,
                                                              const journal::Journal& journal);

// Keeps it, and returns the sentence that says so, with a line's end.
[[nodiscard]] std::string keep_print_check(journal::Journal& journal, TargetKind target,
                                           Millimetres line);

// All targets and what is known of them, for people.
[[nodiscard]] std::string print_checks_table(const journal::PrintChecks& checks);

}  // namespace loafmark::commands
