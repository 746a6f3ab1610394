// loafmark taste: what a loaf is like to eat. loafmark tastings: what was said so far.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct TasteOptions {
    std::vector<std::string> bakes;
    std::optional<std::string> file;  // JSON, instead of bakes
    std::vector<std::string> tasters;
    journal::TasteScores scores;
    std::optional<int> loaf;  // 1 unless said
    std::optional<std::string> date;
    std::optional<Hours> since_oven;
    std::optional<std::string> kept;
    bool blind = false;
    std::optional<std::string> key;  // the file that says which code is which bread
    std::optional<std::uint64_t> seed;
    std::optional<int> sitting;
    std::optional<int> code;

    [[nodiscard]] bool any_score() const { return scores != journal::TasteScores{}; }
};
struct TastingsOptions {
    std::vector<std::string> bakes;
    std::optional<std::string> trial;
    bool json = false;
};

CLI::App& add_taste(CLI::App& parent, TasteOptions& options);
CLI::App& add_tastings(CLI::App& parent, TastingsOptions& options);
[[nodiscard]] Outcome run(const TasteOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const TastingsOptions&, const journal::Journal&, const Context&);

// ---- Parts of it, in files of their own ----

// taste_blind.cpp
[[nodiscard]] Outcome run_blind(const TasteOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run_sitting(const TasteOptions&, journal::Journal&, const Context&);

// taste_prompts.cpp. Each throws AnswersEnd (prompts.h).
// Whether the taster was asked about allergies and may eat this; `grains` as cautions know them.
[[nodiscard]] bool ask_about_allergies(const Context& context, const std::string& taster,
                                       const std::vector<std::optional<std::string>>& grains);
// At least one.
[[nodiscard]] journal::TasteScores ask_for_scores(const Context& context);

// 0 to 10. Throws std::runtime_error.
[[nodiscard]] double read_score(const std::string& text);
[[nodiscard]] std::vector<std::optional<std::string>> grains_of(const journal::BakeEntry& bake);
[[nodiscard]] Date tasting_day(const TasteOptions& options, const Context& context);

}  // namespace loafmark::commands
