// What a command throws. main() turns them into a message and an exit code.
#pragma once

#include <stdexcept>
#include <string>

namespace loafmark::commands {

// The work could not be done (exit code 1). `what` says what and where, `remedy` what to do about
// it (may be empty).
class Failure : public std::runtime_error {
  public:
    Failure(const std::string& what, std::string remedy)
        : std::runtime_error(what), remedy_(std::move(remedy)) {}
    [[nodiscard]] const std::string& remedy() const { return remedy_; }

  private:
    std::string remedy_;
};

// The command line itself was wrong (exit code 2): nothing was opened or begun.
class UsageError : public Failure {
    using Failure::Failure;
};

}  // namespace loafmark::commands
