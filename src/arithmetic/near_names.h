// Names compared as people mean them: whatever the case, and near misses found.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace loafmark {

// Lower case of UTF-8 text for Latin, Greek and Cyrillic letters, blanks trimmed and runs of them
// made one; for comparing, not for showing. Bytes that are not UTF-8 pass as they are.
[[nodiscard]] std::string folded(std::string_view text);

// How many letters must be inserted, deleted, changed or swapped with their neighbour to make one
// text the other (optimal string alignment distance); counted in Unicode code points, after
// folding.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

// Those of `known` that `wanted` may have been meant for, nearest first, at most `limit`: an edit
// distance of up to a third of the longer text's letters, or one text within the other. Where one
// is a single slip away, only such.
[[nodiscard]] std::vector<std::string> near_names(std::string_view wanted,
                                                  std::span<const std::string> known,
                                                  std::size_t limit = 3);

}  // namespace loafmark
