// loafmark trial plan: how many repeats, which bake days, what to buy.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "analysis/measures.h"
#include "arithmetic/dates.h"
#include "commands/context.h"
#include "commands/open_journal.h"
#include "insight/trial_plan.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct TrialPlanOptions {
    std::string factor = "flour";
    std::string control;
    std::vector<std::string> variants;
    Measure measure = Measure::loaf_height;
    std::string difference_text;  // as typed: 8mm, 0.05
    std::string scatter_text;     // as --difference; "" from the journal
    int doughs_a_day = 0;         // 0: one of each
    std::vector<std::string> oven_places;
    std::optional<int> repeats;
    Fraction chance{0.8};
    std::optional<std::uint64_t> seed;
    std::optional<std::string> formula;
    std::optional<Grams> each;
    std::optional<std::string> first_day;
    int days_apart = 1;
    std::string start = "08:00";
    Minutes apart{20};
    Minutes bake_time{45};
    bool sheets = false;
    std::optional<std::string> keep;
    bool json = false;
};

CLI::App& add_trial_plan(CLI::App& trial, TrialPlanOptions& options);
[[nodiscard]] Outcome run(const TrialPlanOptions&, const OpenJournal&, const Context&);

// What one dough of a variant takes: the formula, its main flour or its water as the variant says.
struct PlannedFormula {
    journal::FormulaVersion formula;
    std::vector<Grams> masses;  // of its ingredients, as weighed
};

// A plan with what its text needs.
struct PlanInWords {
    TrialPlanOptions options;
    std::vector<std::string> variants;  // the control first
    insight::Scatter scatter;
    insight::PlanWish wish;
    insight::Plan plan;
    std::vector<PlannedFormula> doughs;  // one a variant; none: no formula was named
    std::optional<Date> first_day;
};

// In trial_plan_text.cpp.
[[nodiscard]] std::string plan_text(const PlanInWords& plan, const journal::Journal& journal);
[[nodiscard]] std::string plan_sheets(const PlanInWords& plan, const journal::Journal& journal);
[[nodiscard]] std::string plan_document(const PlanInWords& plan);
// When the dough of that place in its day is mixed, minutes after the first. Loaves go into the
// oven in batches of as many as there are places.
[[nodiscard]] Minutes mixed_after(const TrialPlanOptions& options, std::size_t place);

}  // namespace loafmark::commands
