// Looks through the journal's files for what is wrong.
#pragma once

#include <string>
#include <vector>

#include "journal/merged.h"
#include "journal/photo_store.h"
#include "journal/store.h"

namespace loafmark::journal {

// What no schema can hold: a formula whose flour does not make 100 %, a bake into which nothing
// went.
[[nodiscard]] std::vector<std::string> unsound_things(const Store& store);

// All of it. `mend`: within a transaction, puts right what follows from other things, what SQLite
// can make anew, and what was left lying about; every other finding says what to do.
[[nodiscard]] std::vector<Finding> look_through(Store& store, const PhotoStore& photos,
                                                const std::filesystem::path& folder, bool mend);

}  // namespace loafmark::journal
