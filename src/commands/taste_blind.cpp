// Blind sittings.
#include <algorithm>
#include <ostream>
#include <random>
#include <set>

#include "arithmetic/near_names.h"
#include "cautions/cautions.h"
#include "commands/files.h"
#include "commands/messages.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/prompts.h"
#include "commands/taste.h"
#include "commands/taste_text.h"
#include "documents/text_table.h"
#include "insight/tasting.h"

namespace loafmark::commands {
namespace {

std::vector<std::string> tasters_of(const journal::Sitting& sitting) {
    std::vector<std::string> tasters;
    for (const journal::Tasting& tasting : sitting.tastings)
        if (std::ranges::find(tasters, tasting.taster) == tasters.end())
            tasters.push_back(tasting.taster);
    return tasters;
}

// Codes in the order of serving, no bread.
std::string orders_text(const journal::Sitting& sitting) {
    std::vector<std::vector<std::string>> rows;
    for (const std::string& taster : tasters_of(sitting)) {
        std::string codes;
        for (const journal::Tasting& tasting : sitting.tastings)
            if (tasting.taster == taster)
                codes += (codes.empty() ? "" : "  ") + std::to_string(*tasting.code) +
                         (tasting.scored ? "+" : "");
        rows.push_back({taster, codes});
    }
    return documents::text_table({{"taster"}, {"in this order (+: scored)"}}, rows);
}

std::string key_text(const journal::Sitting& sitting, const journal::Journal& journal) {
    std::vector<std::vector<std::string>> rows;
    for (const journal::Tasting& tasting : sitting.tastings) {
        const journal::BakeEntry bake = journal.bake(tasting.bake);
        rows.push_back({std::to_string(*tasting.code), tasting.taster,
                        std::to_string(*tasting.turn), std::to_string(bake.bake.id.value),
                        to_text(bake.bake.date) + " " + bake.bake.title});
    }
    using documents::Align;
    return "Key of sitting " + std::to_string(sitting.id.value) +
           ". For whoever cuts and serves, not for those who taste.\nWrite the code on each "
           "plate.\n\n" +
           documents::text_table(
               {{"code"}, {"taster"}, {"turn", Align::right}, {"bake", Align::right}, {"bread"}},
               rows);
}

std::string result_text(const journal::Sitting& sitting, const journal::Journal& journal) {
    std::vector<std::vector<std::string>> rows;
    std::vector<journal::BakeId> bakes;
    BakeNames names;
    for (const journal::Tasting& tasting : sitting.tastings) {
        const journal::BakeEntry bake = journal.bake(tasting.bake);
        if (names.emplace(tasting.bake, bake.bake.title).second) bakes.push_back(tasting.bake);
        rows.push_back({tasting.taster, std::to_string(*tasting.code),
                        std::to_string(bake.bake.id.value) + ", " + bake.bake.title});
    }
    std::ranges::sort(bakes);
    std::vector<std::vector<journal::BakeId>> groups;
    for (const journal::BakeId bake : bakes)
        groups.push_back({bake});
    return documents::text_table({{"taster"}, {"code"}, {"was bake"}}, rows) + "\n" +
           tastings_text(insight::summary_of(sitting.tastings, groups), names);
}

std::vector<std::optional<std::string>> all_grains(const journal::Sitting& sitting,
                                                   const journal::Journal& journal) {
    std::vector<std::optional<std::string>> grains;
    for (const journal::Tasting& tasting : sitting.tastings)
        for (auto& grain : grains_of(journal.bake(tasting.bake)))
            grains.push_back(std::move(grain));
    return grains;
}

int oldest(const journal::Sitting& sitting, const journal::Journal& journal) {
    int days = 0;
    for (const journal::Tasting& tasting : sitting.tastings)
        days = std::max(days, days_between(journal.bake(tasting.bake).bake.date, sitting.date));
    return days;
}

journal::Sitting named_sitting(int number, const journal::Journal& journal) {
    try {
        return journal.sitting(journal::SittingId{number});
    } catch (const journal::NotFound& error) {
        throw Failure(error.what(), "loafmark taste --blind begins one");
    }
}

// Taster by taster, as far as there are answers. A taster who may not eat it is passed over.
void ask_all(const journal::Sitting& sitting, journal::Journal& journal, const Context& context) {
    std::set<std::string> asked;
    std::set<std::string> left_out;
    for (const journal::Tasting& tasting : sitting.tastings) {
        if (tasting.scored || left_out.contains(tasting.taster)) continue;
        if (asked.insert(tasting.taster).second &&
            !ask_about_allergies(context, tasting.taster, all_grains(sitting, journal))) {
            left_out.insert(tasting.taster);
            continue;
        }
        context.err << "\n" << tasting.taster << ", slice " << *tasting.code << "\n";
        (void)journal.score_serving(tasting.id, ask_for_scores(context));
    }
}

void prompt(const journal::Sitting& sitting, journal::Journal& journal, const Context& context) {
    or_else_said([&] { ask_all(sitting, journal, context); },
                 "slices that were scored are kept; go on with loafmark taste --sitting " +
                     std::to_string(sitting.id.value));
}

void tell(const journal::Sitting& sitting, const journal::Journal& journal,
          const Context& context) {
    if (sitting.over()) {
        context.out << "\nSitting " << sitting.id.value << " is over. Which was which:\n"
                    << result_text(sitting, journal);
        return;
    }
    context.out << "Sitting " << sitting.id.value << ", "
                << "score each slice with: loafmark taste --sitting " << sitting.id.value
                << " --code CODE --soft-firm 4 ...\n"
                << orders_text(sitting);
}

}  // namespace

Outcome run_blind(const TasteOptions& options, journal::Journal& journal, const Context& context) {
    if (options.bakes.empty())
        throw UsageError("which bakes are to be tasted?",
                         "write loafmark taste 12 13 --blind --taster Ada");
    if (options.any_score())
        throw UsageError("a blind sitting begins without scores",
                         "score its slices with --sitting and --code");
    const std::vector<std::string> tasters =
        options.tasters.empty() ? journal.kitchen().tasters : options.tasters;
    if (tasters.empty())
        throw UsageError("who tastes?",
                         "name each with --taster NAME, or once: loafmark kitchen set --taster "
                         "NAME");
    if (!options.key)
        throw UsageError("somebody must know which slice is which",
                         "name a file for whoever cuts and serves with --key FILE");
    std::vector<journal::BakeId> bakes;
    for (const std::string& text : options.bakes) {
        const journal::BakeId id = named_bake(journal, text, context.today).bake.id;
        if (std::ranges::find(bakes, id) == bakes.end()) bakes.push_back(id);
    }
    journal::NewSitting sitting;
    sitting.date = tasting_day(options, context);
    const std::uint64_t seed = options.seed ? *options.seed : std::random_device{}() % 100000;
    sitting.seed = static_cast<std::int64_t>(seed);
    try {
        sitting.servings = insight::servings(bakes, tasters, seed);
    } catch (const std::invalid_argument& error) {
        throw UsageError(error.what(), "");
    }
    for (journal::Serving& serving : sitting.servings) {
        serving.loaf = options.loaf.value_or(1);
        serving.since_oven = options.since_oven;
        serving.kept = options.kept;
    }
    journal::Sitting begun = journal.add_sitting(sitting);
    write_file(*options.key, key_text(begun, journal));
    context.out << cautions::before_tasting(all_grains(begun, journal))
                << cautions::of_age(oldest(begun, journal)) << "The key is in " << *options.key
                << ": give it to whoever cuts and serves.\n";
    if (can_ask(context)) {
        prompt(begun, journal, context);
        begun = journal.sitting(begun.id);
    }
    tell(begun, journal, context);
    return Outcome::done;
}

Outcome run_sitting(const TasteOptions& options, journal::Journal& journal,
                    const Context& context) {
    journal::Sitting sitting = named_sitting(*options.sitting, journal);
    if (options.code) {
        const auto tasting = std::ranges::find(sitting.tastings, *options.code,
                                               [](const journal::Tasting& t) { return *t.code; });
        if (tasting == sitting.tastings.end())
            throw Failure(
                "no slice of sitting " + std::to_string(*options.sitting) + " has the code " +
                    std::to_string(*options.code),
                "loafmark taste --sitting " + std::to_string(*options.sitting) + " lists them");
        if (!options.any_score())
            throw UsageError("the slice has no score", "write for example --soft-firm 4");
        (void)journal.score_serving(tasting->id, options.scores);
        sitting = journal.sitting(sitting.id);
        context.out << "Kept what was said of slice " << *options.code << ".\n";
        if (sitting.over()) tell(sitting, journal, context);
        return Outcome::done;
    }
    if (options.any_score())
        throw UsageError("of which slice are the scores?", "name it with --code");
    if (!sitting.over() && can_ask(context)) {
        context.out << cautions::of_age(oldest(sitting, journal));
        prompt(sitting, journal, context);
        sitting = journal.sitting(sitting.id);
    }
    tell(sitting, journal, context);
    return Outcome::done;
}

}  // namespace loafmark::commands
