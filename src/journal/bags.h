// Bags of flour and their stock in the database. What each does is said in journal.h.
#pragma once

#include "journal/store.h"

namespace loafmark::journal {

Bag add_bag(Store& store, const NewBag& bag);
Bag change_bag(Store& store, BagId id, const BagFacts& change);
[[nodiscard]] Bag bag_of(const Store& store, BagId id);
[[nodiscard]] std::vector<Bag> bags_of(const Store& store, FlourId flour);

// The amounts, each flour of which no bag is said drawn on the bag that journal.h's NewBake
// promises; a bag that was not open is opened on that day.
[[nodiscard]] std::vector<MixedAmount> drawn_on_bags(Store& store, std::vector<MixedAmount> mixed,
                                                     Date day);

}  // namespace loafmark::journal
