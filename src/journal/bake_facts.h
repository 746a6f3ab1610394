// The parts of a bake that are written alike when it is added and when it is changed.
#pragma once

#include "journal/store.h"

namespace loafmark::journal {

// Throw Error for what the journal does not keep.
void check_mixed(const Store& store, const std::vector<MixedAmount>& mixed);
void check_facts(const BakeFacts& facts);
void check_facts(const LoafFacts& facts);
void check_step(const BakeStep& step);

// The bake day of that date with that room, made or completed where need be. Error: it has another
// room temperature.
[[nodiscard]] BakeDayId bake_day_of(Store& store, Date date, std::optional<Celsius> room);

// In place of what was mixed before.
void keep_mixed(Store& store, BakeId bake, const std::vector<MixedAmount>& mixed);

// What is given replaces what was known; the rest stays.
void keep_facts(Store& store, BakeId bake, const BakeFacts& facts);
void keep_facts(Store& store, LoafId loaf, const LoafFacts& facts);

}  // namespace loafmark::journal
