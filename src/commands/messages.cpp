#include "commands/messages.h"

#include <new>

#include "analysis/error.h"
#include "commands/failure.h"
#include "journal/error.h"

namespace loafmark::commands {
namespace {

std::string with_remedy(const std::string& what, const std::string& remedy) {
    return remedy.empty() ? what : what + "; " + remedy;
}

}  // namespace

std::string did_you_mean(const std::vector<std::string>& names) {
    if (names.empty()) return "";
    std::string text = "did you mean ";
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (i > 0) text += i + 1 == names.size() ? " or " : ", ";
        text += "'" + names[i] + "'";
    }
    return text + "?";
}

std::string message_of(const std::exception& error) {
    if (const auto* failure = dynamic_cast<const Failure*>(&error))
        return with_remedy(failure->what(), failure->remedy());
    if (const auto* unreadable = dynamic_cast<const analysis::Error*>(&error))
        return with_remedy(unreadable->what(), unreadable->remedy());
    if (const auto* not_found = dynamic_cast<const journal::NotFound*>(&error))
        return with_remedy(not_found->what(), did_you_mean(not_found->suggestions()));
    if (dynamic_cast<const std::bad_alloc*>(&error))
        return "out of memory; close other programs, or measure fewer photos at once";
    return error.what();
}

std::string message_of(std::exception_ptr error) {
    try {
        std::rethrow_exception(error);
    } catch (const std::exception& known) {
        return message_of(known);
    } catch (...) {
        return "unknown failure";
    }
}

std::string stderr_line(std::string_view severity, std::string_view message, bool colour) {
    const std::string paint = severity == "error" ? "\033[1;31m" : "\033[1;33m";
    std::string label = std::string(severity) + ":";
    if (colour) label = paint + label + "\033[0m";
    return "loafmark: " + label + " " + std::string(message) + "\n";
}

}  // namespace loafmark::commands
