// Which bags a bake's flour came from.
#pragma once

#include <vector>

#include "journal/records.h"

namespace loafmark::insight {

// Those of this flour that were noted, each once, by number; a starter's flour has none.
[[nodiscard]] std::vector<journal::BagId> bags_of(const journal::BakeEntry& bake,
                                                  journal::FlourId flour);

}  // namespace loafmark::insight
