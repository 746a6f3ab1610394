// The kitchen's lasting facts in the database. What each does is said in journal.h.
#pragma once

#include "journal/store.h"

namespace loafmark::journal {

[[nodiscard]] Kitchen the_kitchen(const Store& store);
Kitchen change_kitchen(Store& store, const KitchenFacts& change);
Kitchen keep_tin(Store& store, std::string_view name, std::optional<Millilitres> volume);
Kitchen keep_taster(Store& store, std::string_view name);
[[nodiscard]] bool forget_tin(Store& store, std::string_view name);
[[nodiscard]] bool forget_taster(Store& store, std::string_view name);

}  // namespace loafmark::journal
