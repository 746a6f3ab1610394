// The bin: what was dropped is hidden and counts nowhere, and can be taken out again until the bin
// is emptied.
#pragma once

#include <vector>

#include "journal/journal.h"
#include "journal/store.h"

namespace loafmark::journal {

Dropped drop(Store& store, Droppable kind, std::int64_t number);
Dropped take_out(Store& store, Droppable kind, std::int64_t number);
// The last dropped first.
[[nodiscard]] std::vector<Dropped> bin(const Store& store);

struct EmptiedRows {
    int gone = 0;
    std::vector<Dropped> kept;
    std::vector<StoredPhotoName> photos;  // whose rows went
};
EmptiedRows empty_bin(Store& store);

void set_aside(Store& store, BakeId bake, const std::optional<std::string>& reason);

}  // namespace loafmark::journal
