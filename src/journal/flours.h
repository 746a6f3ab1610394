// Flours in the database. What each does is said in journal.h.
#pragma once

#include "journal/store.h"

namespace loafmark::journal {

Flour add_flour(Store& store, const NewFlour& flour);
[[nodiscard]] std::vector<Flour> all_flours(const Store& store);
[[nodiscard]] Flour flour_of(const Store& store, FlourId id);
Flour change_flour(Store& store, FlourId id, const FlourChange& change);

}  // namespace loafmark::journal
