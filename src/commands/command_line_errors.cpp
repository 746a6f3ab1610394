#include "commands/command_line_errors.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <string>
#include <vector>

#include "arithmetic/near_names.h"
#include "commands/messages.h"

namespace loafmark::commands {
namespace {

struct Chosen {
    const CLI::App* app;
    std::string words;  // "loafmark flour add"
};

Chosen chosen_command(const CLI::App& root) {
    Chosen chosen{&root, root.get_name()};
    while (!chosen.app->get_subcommands().empty()) {
        chosen.app = chosen.app->get_subcommands().front();
        chosen.words += " " + chosen.app->get_name();
    }
    return chosen;
}

std::vector<std::string> option_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::Option* option : app.get_options())
        for (const std::string& name : option->get_lnames())
            names.push_back("--" + name);
    return names;
}

std::vector<std::string> command_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands({}))
        names.push_back(command->get_name());
    return names;
}

std::string remedy(const std::vector<std::string>& near, const std::string& words,
                   const std::string& lists) {
    const std::string help = words + " --help " + lists;
    return near.empty() ? help : did_you_mean(near) + " (" + help + ")";
}

UsageError unknown_command(const std::string& word, const Chosen& chosen) {
    return {"unknown command '" + word + "'",
            remedy(near_names(word, command_names(*chosen.app), 2), chosen.words, "lists them")};
}

UsageError unexpected_word(const std::string& word, const Chosen& chosen, const CLI::App& root) {
    if (!word.starts_with('-'))
        return {"'" + word + "' is one word too many",
                "put names of several words in quotes (" + chosen.words + " --help)"};
    const std::string name = word.substr(0, word.find('='));
    std::vector<std::string> known = option_names(*chosen.app);
    for (const std::string& option : option_names(root))
        known.push_back(option);
    return {"unknown option '" + name + "'",
            remedy(near_names(name, known, 2), chosen.words, "lists them")};
}

}  // namespace

UsageError usage_error(const CLI::ParseError& error, const CLI::App& root) {
    const Chosen chosen = chosen_command(root);
    const std::vector<std::string> rest = root.remaining(true);
    const bool wants_command = !command_names(*chosen.app).empty();
    const bool is_extra = dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr;
    const bool is_missing = dynamic_cast<const CLI::RequiredError*>(&error) != nullptr;
    if (is_extra || is_missing) {
        // A word that is too many may be the value of an option that there is not.
        const auto option = std::ranges::find_if(
            rest, [](const std::string& word) { return word.starts_with('-'); });
        if (option != rest.end()) return unexpected_word(*option, chosen, root);
        if (wants_command && !rest.empty()) return unknown_command(rest.front(), chosen);
        if (wants_command)
            return {"a command is missing behind '" + chosen.words + "'",
                    chosen.words + " --help lists them"};
        if (is_extra && !rest.empty()) return unexpected_word(rest.front(), chosen, root);
    }
    return {error.what(), chosen.words + " --help shows how it is written"};
}

}  // namespace loafmark::commands
