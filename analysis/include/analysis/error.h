#pragma once

#include <stdexcept>
#include <string>

namespace loafmark::analysis {

// The photo could not be read at all: not an image, truncated, too large. A photo that was read and
// disappoints is no error but a reading with warnings.
class Error : public std::runtime_error {
  public:
    // `what` says which file and what is wrong with it, `remedy` what the baker can do.
    Error(const std::string& what, std::string remedy)
        : std::runtime_error(what), remedy_(std::move(remedy)) {}
    [[nodiscard]] const std::string& remedy() const { return remedy_; }

  private:
    std::string remedy_;
};

}  // namespace loafmark::analysis
