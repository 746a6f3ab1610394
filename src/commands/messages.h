// What people read on stderr: "loafmark: error: WHAT (where); remedy".
#pragma once

#include <exception>
#include <string>
#include <string_view>
#include <vector>

namespace loafmark::commands {

// "did you mean 'Emmer' or 'Einkorn'?"; empty for no names.
[[nodiscard]] std::string did_you_mean(const std::vector<std::string>& names);

// "WHAT; remedy" of any exception that a command lets out, its kind's remedy included.
[[nodiscard]] std::string message_of(const std::exception& error);
[[nodiscard]] std::string message_of(std::exception_ptr error);

// The whole line, newline included. `severity`: "error" or "warning", in red or yellow if `colour`.
[[nodiscard]] std::string stderr_line(std::string_view severity, std::string_view message,
                                      bool colour);

}  // namespace loafmark::commands
