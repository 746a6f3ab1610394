// The whole command line: which commands there are, and which one was asked for.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "commands/context.h"

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

namespace loafmark::commands {

class Program {
  public:
    Program();
    ~Program();
    Program(const Program&) = delete;
    Program& operator=(const Program&) = delete;

    // Reads the arguments, the program's name left out. Opens no file. Returns the text to print
    // when help or the version was asked for; otherwise run() is next. Throws UsageError.
    [[nodiscard]] std::optional<std::string> parse(const std::vector<std::string>& arguments);

    // Does what parse() read. Throws what the command throws.
    [[nodiscard]] Outcome run(const Context& context) const;

  private:
    struct Entry {
        CLI::App* app;
        std::function<Outcome(const Context&)> run;
    };
    template <class Options>
    void add(CLI::App& parent, CLI::App& (*declare)(CLI::App&, Options&));

    std::unique_ptr<CLI::App> app_;
    std::optional<std::string> journal_;
    std::vector<Entry> entries_;
};

}  // namespace loafmark::commands
