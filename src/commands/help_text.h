// How --help looks.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace loafmark::commands {

// A command as its parent's help lists it, and the paragraph that opens its own help.
CLI::App& add_command(CLI::App& parent, const std::string& name, const std::string& in_one_line,
                      const std::string& paragraph);

// One line a command in lists, its paragraph on its own page.
class HelpText : public CLI::Formatter {
  public:
    std::string make_description(const CLI::App* app) const override;
    std::string make_subcommand(const CLI::App* command) const override;
    std::string make_option_opts(const CLI::Option* option) const override;
    std::string make_help(const CLI::App* app, std::string name,
                          CLI::AppFormatMode mode) const override;
};

}  // namespace loafmark::commands
