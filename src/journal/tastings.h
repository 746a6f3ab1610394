// Tastings in the database. What each does is said in journal.h.
#pragma once

#include "journal/store.h"
#include "journal/trial_drafts.h"

namespace loafmark::journal {

std::vector<Tasting> add_tastings(Store& store, const std::vector<NewTasting>& tastings);
Sitting add_sitting(Store& store, const NewSitting& sitting);
Tasting score_serving(Store& store, TastingId id, const TasteScores& scores);
[[nodiscard]] Sitting sitting_of(const Store& store, SittingId id);
[[nodiscard]] std::vector<Tasting> all_tastings(const Store& store);

}  // namespace loafmark::journal
