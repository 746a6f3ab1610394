// The commands that a page of docs/ shows, so that tests can run them as they stand.
#pragma once

#include <string>
#include <vector>

namespace loafmark::end_to_end {

// Each as a shell parts it, "loafmark" left out: lines that begin with four blanks and "loafmark ".
[[nodiscard]] std::vector<std::vector<std::string>> commands_of(const std::string& page);

}  // namespace loafmark::end_to_end
