// What loafmark trial plan prints.
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "arithmetic/quantities.h"
#include "cautions/cautions.h"
#include "commands/formula_sheet.h"
#include "commands/loaves_left.h"
#include "commands/text.h"
#include "commands/trial_plan.h"
#include "documents/json_values.h"
#include "documents/text_table.h"
#include "insight/compare_words.h"

namespace loafmark::commands {
namespace {

using documents::Align;
using Json = nlohmann::ordered_json;

constexpr int rows_shown = 6;

std::string seen_text(double seen, Measure measure) {
    return std::isfinite(seen) ? insight::measured_text(seen, measure) : "nothing";
}

std::string chance_text(double chance) {
    if (chance > 0.995) return "over 99 %";
    return number_text(100 * chance, 0) + " %";
}

std::string clock_text(const TrialPlanOptions& options, std::size_t place) {
    const int minutes = std::stoi(options.start.substr(0, 2)) * 60 +
                        std::stoi(options.start.substr(3, 2)) +
                        static_cast<int>(std::lround(mixed_after(options, place).count()));
    const std::string hour = std::to_string(minutes / 60 % 24);
    const std::string minute = std::to_string(minutes % 60);
    return std::string(hour.size() < 2 ? "0" : "") + hour + ":" + (minute.size() < 2 ? "0" : "") +
           minute + (minutes >= 24 * 60 ? " next day" : "");
}

std::string day_name(const PlanInWords& plan, std::size_t day) {
    const std::string number = "day " + std::to_string(day + 1);
    if (!plan.first_day) return number;
    return number + ", " +
           to_text(days_after(*plan.first_day, static_cast<int>(day) * plan.options.days_apart));
}

int doughs_in(const insight::Plan& plan) {
    int count = 0;
    for (const auto& day : plan.days)
        count += static_cast<int>(day.size());
    return count;
}

// The answer first.
std::string answer(const PlanInWords& plan) {
    const Measure measure = plan.options.measure;
    const std::string wanted = insight::measured_text(plan.wish.difference, measure);
    const std::string size = std::to_string(plan.plan.repeats) + " of each, " +
                             std::to_string(doughs_in(plan.plan)) + " doughs on " +
                             counted(plan.plan.days.size(), "day", "days");
    if (plan.plan.enough)
        return "To see " + wanted + " of " + std::string(info_of(measure).name) + ": bake " + size +
               ". The chance of seeing it is " + chance_text(plan.plan.chance) + ".\n";
    return "With " + size + " you would see " + seen_text(plan.plan.seen, measure) + " of " +
           std::string(info_of(measure).name) + ", not " + wanted + " (chance " +
           chance_text(plan.plan.chance) + ").\n";
}

std::string rests_on(const PlanInWords& plan) {
    return "Rests on: doughs of one recipe on one day scatter by " +
           insight::measured_text(plan.scatter.sd, plan.options.measure) +
           " (standard deviation; " + plan.scatter.source +
           "). Differences are judged within days, " +
           counted(plan.plan.degrees_of_freedom, "degree", "degrees") +
           " of freedom, all variants " + "together at 5 %; seen: with a chance of " +
           chance_text(plan.wish.chance) + " or more.\n";
}

std::string repeats_table(const PlanInWords& plan) {
    std::vector<std::vector<std::string>> rows;
    const int up_to = std::max(rows_shown, std::min(plan.plan.repeats + 1, rows_shown + 4));
    for (const insight::PlanRow& row : insight::plan_rows(plan.wish, up_to))
        rows.push_back({std::to_string(row.repeats), std::to_string(row.doughs),
                        std::to_string(row.days), seen_text(row.seen, plan.options.measure),
                        chance_text(row.chance)});
    return "\n" +
           documents::text_table(
               {{"bakes of each", Align::right},
                {"doughs", Align::right},
                {"days", Align::right},
                {"you would see", Align::right},
                {"chance of " + insight::measured_text(plan.wish.difference, plan.options.measure),
                 Align::right}},
               rows);
}

std::string days_table(const PlanInWords& plan) {
    std::vector<std::vector<std::string>> rows;
    for (std::size_t day = 0; day < plan.plan.days.size(); ++day)
        for (std::size_t i = 0; i < plan.plan.days[day].size(); ++i) {
            const insight::PlannedDough& dough = plan.plan.days[day][i];
            rows.push_back({i == 0 ? day_name(plan, day) : "", clock_text(plan.options, i),
                            plan.variants[static_cast<std::size_t>(dough.variant)] +
                                (dough.variant == 0 ? " (control)" : ""),
                            dough.oven_place});
        }
    return "\nThe days, shuffled by seed " + std::to_string(plan.wish.seed) + ":\n" +
           documents::text_table({{"bake day"}, {"mix at"}, {"variant"}, {"oven place"}}, rows);
}

// Of each flour, over all doughs.
std::map<journal::FlourId, Grams> flour_needed(const PlanInWords& plan) {
    std::map<journal::FlourId, Grams> needed;
    for (const auto& day : plan.plan.days)
        for (const insight::PlannedDough& dough : day) {
            const PlannedFormula& own = plan.doughs[static_cast<std::size_t>(dough.variant)];
            for (std::size_t i = 0; i < own.masses.size(); ++i) {
                const journal::Ingredient& line = own.formula.ingredients[i];
                if (line.flour && line.flour_fraction > Fraction(0))
                    needed[*line.flour] =
                        needed[*line.flour] + own.masses[i] * line.flour_fraction.count();
            }
        }
    return needed;
}

std::string shopping_list(const PlanInWords& plan, const journal::Journal& journal) {
    if (plan.doughs.empty()) return "";
    std::vector<std::vector<std::string>> rows;
    for (const auto& [id, mass] : flour_needed(plan)) {
        const auto stock = stock_of(id, journal);
        const Grams missing = stock ? mass - *stock : mass;
        rows.push_back({journal.flour(id).name, grams_text(mass, 0),
                        stock ? grams_text(*stock, 0) : "not known",
                        missing > Grams(0) ? grams_text(missing, 0) : "nothing"});
    }
    return "\nFlour, against your bags:\n" + documents::text_table({{"flour"},
                                                                    {"needed", Align::right},
                                                                    {"in the bags", Align::right},
                                                                    {"to buy", Align::right}},
                                                                   rows);
}

}  // namespace

std::string plan_text(const PlanInWords& plan, const journal::Journal& journal) {
    return answer(plan) + rests_on(plan) + repeats_table(plan) + days_table(plan) +
           shopping_list(plan, journal);
}

std::string plan_sheets(const PlanInWords& plan, const journal::Journal& journal) {
    std::string text;
    std::vector<std::optional<std::string>> grains;
    for (std::size_t day = 0; day < plan.plan.days.size(); ++day)
        for (std::size_t i = 0; i < plan.plan.days[day].size(); ++i) {
            const insight::PlannedDough& dough = plan.plan.days[day][i];
            const auto variant = static_cast<std::size_t>(dough.variant);
            const PlannedFormula& own = plan.doughs[variant];
            text += "\n" + day_name(plan, day) + ", dough " + std::to_string(i + 1) + ", mix at " +
                    clock_text(plan.options, i) + ": " + plan.variants[variant] +
                    (dough.variant == 0 ? " (control)" : "") +
                    (dough.oven_place.empty() ? "" : ", oven place " + dough.oven_place) + "\n" +
                    bench_list(own.formula, own.masses);
            for (auto& grain : grains_of(own.formula, journal))
                grains.push_back(std::move(grain));
        }
    return text + "\n" + cautions::at_the_bench() + cautions::of_grains(grains);
}

std::string plan_document(const PlanInWords& plan) {
    const auto finite = [](double x) { return std::isfinite(x) ? Json(x) : Json(); };
    Json json{{"schema", 1},
              {"factor", plan.options.factor},
              {"variants", plan.variants},
              {"measure", info_of(plan.options.measure).key},
              {"difference", plan.wish.difference},
              {"scatter", {{"sd", plan.scatter.sd}, {"source", plan.scatter.source}}},
              {"repeats", plan.plan.repeats},
              {"degrees_of_freedom", plan.plan.degrees_of_freedom},
              {"chance", plan.plan.chance},
              {"seen", finite(plan.plan.seen)},
              {"enough", plan.plan.enough},
              {"seed", plan.wish.seed}};
    Json days = Json::array();
    for (std::size_t day = 0; day < plan.plan.days.size(); ++day) {
        Json doughs = Json::array();
        for (std::size_t i = 0; i < plan.plan.days[day].size(); ++i) {
            const insight::PlannedDough& dough = plan.plan.days[day][i];
            doughs.push_back(
                {{"variant", plan.variants[static_cast<std::size_t>(dough.variant)]},
                 {"mix_at", clock_text(plan.options, i)},
                 {"oven_place", dough.oven_place.empty() ? Json() : Json(dough.oven_place)}});
        }
        days.push_back(doughs);
    }
    json["days"] = days;
    return documents::printed(json);
}

}  // namespace loafmark::commands
