// The options by which find, trend and report choose bakes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

// As typed, but for what can be read without a journal.
struct FilterOptions {
    std::optional<std::string> flour;
    std::optional<std::string> grain;
    std::optional<std::string> formula;
    std::optional<FractionRange> hydration;
    std::optional<std::string> since;
    std::optional<std::string> until;
    std::optional<std::string> text;
    std::vector<journal::Condition> where;
    std::optional<std::string> day;
    std::optional<std::string> leaven;
    std::optional<int> bag;
    struct Share {
        std::string flour;
        FractionRange range;
    };
    std::vector<Share> shares;
    std::optional<std::string> trial;
};

void add_filter_options(CLI::App& app, FilterOptions& options);

// Throws UsageError for what is no date, journal::NotFound for names that the journal has not.
[[nodiscard]] journal::Filter filter_of(const FilterOptions& options,
                                        const journal::Journal& journal, const Context& context);

// "flour Emmer, hydration 66..74"; empty where nothing narrows.
[[nodiscard]] std::string words_of(const FilterOptions& options);

}  // namespace loafmark::commands
