#include "commands/context.h"

#include "commands/failure.h"

namespace loafmark::commands {

std::filesystem::path journal_folder(const std::optional<std::string>& option,
                                     const Context& context) {
    if (option) return *option;
    if (const auto folder = context.environment("LOAFMARK_JOURNAL")) return *folder;
    if (const auto data = context.environment("XDG_DATA_HOME"))
        return std::filesystem::path(*data) / "loafmark";
    if (const auto home = context.environment("HOME"))
        return std::filesystem::path(*home) / ".local" / "share" / "loafmark";
    throw UsageError("no folder for the journal: HOME is not set", "name one with --journal DIR");
}

bool colour_on_out(const Context& context) {
    return context.out_is_terminal && !context.environment("NO_COLOR");
}

bool colour_on_err(const Context& context) {
    return context.err_is_terminal && !context.environment("NO_COLOR");
}

}  // namespace loafmark::commands
