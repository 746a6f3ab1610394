// Trials in the database. What each does is said in journal.h.
#pragma once

#include "journal/store.h"
#include "journal/trial_drafts.h"

namespace loafmark::journal {

Trial add_trial(Store& store, const NewTrial& trial);
Trial add_to_trial(Store& store, TrialId trial, const std::vector<TrialBake>& bakes);
[[nodiscard]] Trial trial_of(const Store& store, TrialId id);
[[nodiscard]] std::vector<Trial> all_trials(const Store& store);

}  // namespace loafmark::journal
