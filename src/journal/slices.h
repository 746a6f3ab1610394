// Slices and the rows of their photos in the database. What each does is said in journal.h.
#pragma once

#include <filesystem>

#include "journal/photo_store.h"
#include "journal/store.h"

namespace loafmark::journal {

// The extension that the photo with this hash is filed under.
[[nodiscard]] std::optional<std::string> photo_filed_as(const Store& store,
                                                        const std::string& hash);

// Rows of a photo and its slices, readings included. `photo_name`: as the baker's file is called.
std::vector<SliceId> add_slices(Store& store, const StoredPhoto& photo,
                                const std::string& photo_name, const std::vector<NewSlice>& slices);

// With their newest readings, by loaf, then number.
[[nodiscard]] std::vector<SliceEntry> slice_entries(const Store& store,
                                                    const std::vector<SliceId>& ids);
[[nodiscard]] SliceEntry slice_entry(const Store& store, SliceId id);

// Throws NotFound.
void check_slice_exists(const Store& store, SliceId id);

}  // namespace loafmark::journal
