// The kitchen's lasting facts in the database. What each does is said in journal.h.
#pragma once

#include "journal/store.h"

namespace loafmark::journal {

[[nodiscard]] Kitchen the_kitchen(const Store& store);
Kitchen change_kitchen(Store& store, const KitchenChange& change);

}  // namespace loafmark::journal
