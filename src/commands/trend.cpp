#include "commands/trend.h"

#include <ostream>

#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/measure_name.h"
#include "commands/options.h"
#include "documents/trend_document.h"
#include "reports/trend_chart.h"

namespace loafmark::commands {
namespace {

insight::Against parse_against(const std::string& text) {
    if (const auto against = insight::against_of_name(text)) return *against;
    throw std::runtime_error("'" + text +
                             "' is not known; write hydration, date, share, protein, "
                             "dough-temperature, room-temperature, proof or proof-at-25C");
}

insight::Split parse_split(const std::string& text) {
    if (text == "flour") return insight::Split::flour;
    if (text == "bag") return insight::Split::bag;
    throw std::runtime_error("'" + text + "' is not known; write flour or bag");
}

// "bag 3 (lot L77)", of all bags.
std::map<journal::BagId, std::string> bag_words(const journal::Journal& journal) {
    std::map<journal::BagId, std::string> words;
    for (const journal::Flour& flour : journal.flours())
        for (const journal::Bag& bag : journal.bags(flour.id))
            words[bag.id] =
                "bag " + std::to_string(bag.id.value) + (bag.lot ? " (lot " + *bag.lot + ")" : "");
    return words;
}

}  // namespace

CLI::App& add_trend(CLI::App& parent, TrendOptions& options) {
    CLI::App& app = add_command(
        parent, "trend", "how a measure goes with water or time",
        "Shows how a measure goes with hydration, date, share of the main flour, protein, "
        "temperature or\n"
        "final proof, over the bakes of the journal, grouped by main flour, with a slope and its "
        "95 %\n"
        "interval where the bakes give one, and where it peaks if it bends. Protein is compared "
        "within\n"
        "one grain and grade only. Over proof, loaves of one dough that were proved for different "
        "times\n"
        "count each. proof-at-25C brings minutes to 25 C by what this journal says of the leaven, "
        "else\n"
        "by a doubling for every 9 C, and only from 15 to 32 C.\n"
        "MEASURE is a key such as openness, loaf_height, coarseness, cells_per_cm2.");
    app.footer(
        "Examples:\n"
        "  loafmark trend openness --by hydration\n"
        "  loafmark trend loaf_height --by date --flour emmer\n"
        "  loafmark trend openness --by protein --grain wheat\n"
        "  loafmark trend loaf_height --by proof --flour wheat\n"
        "  loafmark trend loaf_height --by hydration --split bag\n"
        "  loafmark trend coarseness --by hydration --svg coarseness.svg");
    add_value(app, "MEASURE", options.measure, parse_measure, "", "what to look at")->required();
    add_value(
        app, "--by", options.against, parse_against, "WHAT",
        "hydration (unless said), date, share, protein,\ndough-temperature, room-temperature, "
        "proof or\nproof-at-25C");
    add_value(app, "--split", options.split, parse_split, "flour|bag",
              "group by main flour (unless said), or by the bags\nof it that it came from");
    app.add_flag("--with-ends", options.with_ends, "take in slices cut at an end of the loaf, too");
    auto* json = app.add_flag("--json", options.json, "one JSON document instead of tables");
    app.add_flag("--csv", options.csv, "comma-separated values, a line a bake")->excludes(json);
    add_value(app, "--svg", options.svg, plain_text, "FILE", "write a chart too");
    add_filter_options(app, options.filter);
    return app;
}

Outcome run(const TrendOptions& options, const journal::Journal& journal, const Context& context) {
    if (options.split == insight::Split::bag && options.against == insight::Against::protein)
        throw UsageError(
            "--split bag does not go with --by protein, which groups by grain and grade",
            "leave one of them out");
    const journal::Filter filter = filter_of(options.filter, journal, context);
    insight::TrendQuestion question;
    question.measure = options.measure;
    question.against = options.against;
    question.flour = filter.flour;
    question.split = options.split;
    if (options.with_ends) question.ends = insight::EndSlices::taken_in;
    question.kinds = insight::kinds_of(journal.flours());
    if (options.split == insight::Split::bag) question.bag_words = bag_words(journal);
    // Learnt from all bakes, whichever are shown.
    if (options.against == insight::Against::proof_at_25c)
        question.doublings = insight::proof_doublings(journal.find());
    const insight::Trend trend =
        insight::wants_measured_only(question)
            ? insight::measured_trend(
                  journal.measured(filter, question.measure, insight::poor_warnings()), question)
            : insight::find_trend(journal.find(filter), question);
    if (options.svg) write_file(*options.svg, reports::trend_svg(trend));
    if (options.json)
        context.out << documents::trend_document(trend);
    else if (options.csv)
        context.out << documents::trend_csv(trend);
    else
        context.out << documents::trend_table(trend);
    return Outcome::done;
}

}  // namespace loafmark::commands
