#include "commands/help_text.h"

#include <algorithm>

namespace loafmark::commands {
namespace {

// CLI11 knows one description a command: the line and the paragraph are kept in it together.
constexpr char parting = '\v';

std::string before(const std::string& text, char sign) {
    return text.substr(0, text.find(sign));
}

}  // namespace

CLI::App& add_command(CLI::App& parent, const std::string& name, const std::string& in_one_line,
                      const std::string& paragraph) {
    CLI::App& app = *parent.add_subcommand(name, in_one_line + parting + paragraph);
    app.group("Commands");
    return app;
}

std::string HelpText::make_description(const CLI::App* app) const {
    const std::string both = app->get_description();
    const auto at = both.find(parting);
    return (at == std::string::npos ? both : both.substr(at + 1)) + "\n\n";
}

std::string HelpText::make_subcommand(const CLI::App* command) const {
    std::string line = "  " + command->get_name();
    line.resize(std::max<std::size_t>(line.size() + 2, 12), ' ');
    return line + before(command->get_description(), parting) + "\n";
}

std::string HelpText::make_option_opts(const CLI::Option* option) const {
    std::string text;
    if (!option->get_type_name().empty()) text += " " + option->get_type_name();
    if (option->get_expected_max() > 1) text += " ...";
    if (option->get_required()) text += " (needed)";
    return text;
}

std::string HelpText::make_help(const CLI::App* app, std::string name,
                                CLI::AppFormatMode mode) const {
    std::string text = CLI::Formatter::make_help(app, std::move(name), mode);
    // Versions of CLI11 differ in how many empty lines they leave between groups.
    for (std::size_t at = 0; (at = text.find("\n\n\n")) != std::string::npos;)
        text.erase(at, 1);
    return text;
}

}  // namespace loafmark::commands
