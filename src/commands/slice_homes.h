// Which loaf each slice of a photo belongs to.
#pragma once

#include <string>
#include <vector>

#include "analysis/reading.h"
#include "commands/slice.h"

namespace loafmark::commands {

// Found before anything is measured.
struct SliceHomes {
    std::vector<std::string> photos;
    // Of the slices of every photo: one loaf, or as many as --slices names.
    std::vector<journal::LoafId> loaves;
    bool named_one_by_one = false;  // with --slices
};

// Throws UsageError and Failure: a bake or loaf that is not there, no photo.
[[nodiscard]] SliceHomes slice_homes(const SliceAddOptions& options,
                                     const journal::Journal& journal, Date today);

// Throws Failure unless the photo shows as many slices as there are homes for them.
void check_slice_count(const std::string& photo, const PhotoReading& reading,
                       const SliceHomes& homes);

// "1 top left, 2 top right": where in the photo the slices were seen.
[[nodiscard]] std::string places_in_photo(const PhotoReading& reading);

// The middle of a slice's outline, in photo pixels; (0, 0) without an outline.
[[nodiscard]] PhotoPoint middle_of(const std::vector<PhotoPoint>& outline);

}  // namespace loafmark::commands
