// loafmark trial new|add|show|list: a control and variants. `trial plan` is in trial_plan.h.
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

struct TrialNewOptions {
    std::string name;
    std::string factor = "flour";
    std::string control;
    std::vector<std::string> variants;
    std::optional<std::string> question;  // left out: by whether anything is fitted
    std::vector<std::string> held;
    std::vector<journal::TrialSetting> fitted;
    std::vector<std::string> free;
    std::optional<std::string> note;
};
struct TrialAddOptions {
    std::string trial;
    std::vector<std::string> bakes;
    std::optional<std::string> variant;  // left out: what the bakes had of the factor
};
struct TrialShowOptions {
    std::string trial;
    bool json = false;
};
struct TrialListOptions {
    bool json = false;
};

CLI::App& add_trial(CLI::App& parent);
CLI::App& add_trial_new(CLI::App& trial, TrialNewOptions& options);
CLI::App& add_trial_add(CLI::App& trial, TrialAddOptions& options);
CLI::App& add_trial_show(CLI::App& trial, TrialShowOptions& options);
CLI::App& add_trial_list(CLI::App& trial, TrialListOptions& options);

[[nodiscard]] Outcome run(const TrialNewOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const TrialAddOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const TrialShowOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const TrialListOptions&, const journal::Journal&, const Context&);

// What `new` and `plan` both ask: --factor, --control, --variant.
void add_variant_options(CLI::App& app, std::string& factor, std::string& control,
                         std::vector<std::string>& variants);

// One of journal::setting_words, whatever the case. Throws std::runtime_error with all of them.
[[nodiscard]] std::string read_setting(const std::string& text);

}  // namespace loafmark::commands
