// Takes the things of another journal into this one, by their uids.
//
// What only one of the two knows is kept; what both tell alike is left; what they tell differently
// is a conflict, for MergeChoices to decide. Merging so is associative and taking in the same again
// changes nothing (tests/property/merge_test.cpp). Two things of different uids can still be in
// each other's way:
// - flours, formulas of one name: the baker says whether they are one thing; kept apart, the
// newcomer
//   gets the beginning of its uid behind its name, in whatever order journals are merged;
// - versions of a formula, loaves of a bake with one number: the newcomer gets the next free one;
// - anything else that may be there only once (a tin of a kitchen, a slice of a photo) is the same.
#pragma once

#include "journal/exchange.h"

namespace loafmark::journal {

// Within a transaction, which is to be rolled back unless `done`. Photos are not its business.
[[nodiscard]] Merged merge_records(Store& store, std::vector<RecordsOfThing> theirs,
                                   const MergeChoices& choices);

}  // namespace loafmark::journal
