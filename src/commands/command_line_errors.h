#pragma once

#include "commands/failure.h"

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

namespace loafmark::commands {

// What CLI11 found wrong, in this program's words: what it was, the nearest thing that there is,
// and which help to read.
[[nodiscard]] UsageError usage_error(const CLI::ParseError& error, const CLI::App& root);

}  // namespace loafmark::commands
