// What the lines of the baker's printed targets measure. What each does is said in journal.h.
#pragma once

#include "journal/store.h"

namespace loafmark::journal {

void keep_print_check(Store& store, TargetKind target, Millimetres line);

[[nodiscard]] bool forget_print_check(Store& store, TargetKind target);

[[nodiscard]] PrintChecks all_print_checks(const Store& store);

}  // namespace loafmark::journal
