// Readings in the database: values, cells, pictures. What each does is said in journal.h.
#pragma once

#include <map>

#include "journal/store.h"

namespace loafmark::journal {

ReadingId add_reading(Store& store, SliceId slice, const NewReading& reading);

// In the order of their numbers, whatever that of `ids`.
[[nodiscard]] std::vector<Reading> readings(const Store& store, const std::vector<ReadingId>& ids);
[[nodiscard]] std::vector<ReadingId> readings_of(const Store& store, SliceId slice);
// The newest of each of these slices that has one.
[[nodiscard]] std::vector<ReadingId> newest_readings(const Store& store,
                                                     const std::vector<SliceId>& slices);

[[nodiscard]] std::map<PictureKind, ReadingPicture> pictures_of(const Store& store, ReadingId id,
                                                                PictureSize size);
[[nodiscard]] std::string document_of(const Store& store, ReadingId id);

}  // namespace loafmark::journal
