// Bakes in the database. What each does is said in journal.h.
#pragma once

#include <span>
#include <string_view>

#include "journal/measured.h"
#include "journal/store.h"

namespace loafmark::journal {

BakeId add_bake(Store& store, const NewBake& bake);
void change_bake(Store& store, BakeId id, const BakeChange& change);
void change_loaf(Store& store, BakeId bake, int number, const LoafChange& change);
void add_step(Store& store, BakeId bake, const BakeStep& step);

[[nodiscard]] BakeId find_bake(const Store& store, std::string_view text, Date today);

// With all that hangs on them, in the order of `ids`.
[[nodiscard]] std::vector<BakeEntry> bake_entries(const Store& store,
                                                  const std::vector<BakeId>& ids);
[[nodiscard]] BakeEntry bake_entry(const Store& store, BakeId id);

// What journal.h says of Journal::measured().
[[nodiscard]] MeasuredBakes measured_bakes(const Store& store, const Filter& filter,
                                           Measure measure,
                                           std::span<const std::string_view> poor_warnings);

// Up to so many bakes a list is no more work than a page.
inline constexpr int few_bakes = 2000;
// Those that fit, in the order that is asked for. `few` tells only how they are found.
[[nodiscard]] std::vector<BakeId> matching_bakes(const Store& store, const Filter& filter,
                                                 int few = few_bakes);
// How SQLite goes about it, a line a step, so that a benchmark can show which indices serve.
[[nodiscard]] std::vector<std::string> query_plan(const Store& store, const Filter& filter);

}  // namespace loafmark::journal
