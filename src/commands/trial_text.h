// Trials as people read them, and as JSON.
#pragma once

#include <string>
#include <vector>

#include "insight/trial.h"
#include "journal/trial_records.h"

namespace loafmark::commands {

// What it asks, its settings, its bakes, and what can be said of its design.
[[nodiscard]] std::string trial_text(const journal::Trial& trial, const insight::TrialState& state,
                                     const std::vector<journal::BakeEntry>& bakes);
[[nodiscard]] std::string trials_table(const std::vector<journal::Trial>& trials);
[[nodiscard]] std::string trial_document(const journal::Trial& trial,
                                         const insight::TrialState& state);
[[nodiscard]] std::string trials_document(const std::vector<journal::Trial>& trials);

}  // namespace loafmark::commands
