#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace loafmark::journal {

// The journal could not do what was asked; nothing of it was done. `what` names the thing and the
// place. What to do about it, where that names a command, is added by whoever knows commands.
class Error : public std::runtime_error {
    using std::runtime_error::runtime_error;
};

// No thing of that name, or several; `suggestions` lists near or fitting ones, best first.
class NotFound : public Error {
  public:
    NotFound(const std::string& what, std::vector<std::string> suggestions)
        : Error(what), suggestions_(std::move(suggestions)) {}
    [[nodiscard]] const std::vector<std::string>& suggestions() const { return suggestions_; }

  private:
    std::vector<std::string> suggestions_;
};

}  // namespace loafmark::journal
