// The options of loafmark taste and loafmark tastings.
#include "arithmetic/numbers.h"
#include "commands/help_text.h"
#include "commands/options.h"
#include "commands/taste.h"
#include "commands/words.h"

namespace loafmark::commands {
namespace {

void add_score_options(CLI::App& app, TasteOptions& options) {
    const std::string group = "On a line from 0 to 10; any may be left out";
    for (const journal::TastingLine& line : journal::tasting_lines) {
        const std::string key(line.key);
        app.add_option_function<std::string>(
               "--" + key,
               [&options, key](const std::string& text) {
                   options.scores.lines[key] =
                       reading_option("--" + key, [&] { return read_score(text); });
               },
               "0: " + std::string(line.low) + ", 10: " + std::string(line.high))
            ->type_name("0..10")
            ->group(group);
    }
    add_value(app, "--liking", options.scores.liking, read_score, "0..10",
              "how well it was liked; a matter apart")
        ->group(group);
    add_value(app, "--words", options.scores.words, plain_text, "TEXT",
              "in the taster's words: 'good for soup'")
        ->group(group);
}

void add_blind_options(CLI::App& app, TasteOptions& options) {
    const std::string group = "Blind";
    auto* blind = app.add_flag("--blind", options.blind,
                               "three-digit codes, an order for each taster, one\nbread served "
                               "twice; names only after the last score")
                      ->group(group);
    add_value(app, "--key", options.key, plain_text, "FILE",
              "where to write which code is which bread, for\nwhoever cuts and serves")
        ->needs(blind)
        ->group(group);
    add_value(
        app, "--seed", options.seed,
        [](const std::string& text) -> std::uint64_t {
            const auto number = parse_number(text);
            if (!number || *number < 0 || *number > 1e15 ||
                *number != static_cast<double>(static_cast<long long>(*number)))
                throw std::runtime_error("'" + text + "' is no whole number");
            return static_cast<std::uint64_t>(*number);
        },
        "4711", "what codes and orders follow from")
        ->needs(blind)
        ->group(group);
    auto* sitting =
        add_value(
            app, "--sitting", options.sitting,
            [](const std::string& text) { return parse_count(text, 1, "no number of a sitting"); },
            "1", "go on with a blind sitting, or see its end")
            ->excludes(blind)
            ->group(group);
    add_value(
        app, "--code", options.code,
        [](const std::string& text) { return parse_count(text, 100, "no three-digit code"); },
        "417", "the slice that the scores are of")
        ->needs(sitting)
        ->group(group);
}

}  // namespace

double read_score(const std::string& text) {
    const auto score = parse_number(text);
    if (!score || *score < 0 || *score > journal::end_of_line)
        throw std::runtime_error("'" + text + "' is no place on the line; write 0 to 10");
    return *score;
}

CLI::App& add_taste(CLI::App& parent, TasteOptions& options) {
    CLI::App& app = add_command(
        parent, "taste", "what a loaf is like to eat",
        "Keeps what a taster says of a loaf: places on lines that have a word at both ends, liking "
        "apart,\n"
        "and free words. Without scores it asks on the terminal. --blind hides which bread is "
        "which until\n"
        "the last score, and serves one twice, so that each taster's own scatter is known.");
    app.footer(
        "Examples:\n"
        "  loafmark taste last --taster Ada --since-oven 4h --soft-firm 3 --dry-moist 7 --liking "
        "8\n"
        "  loafmark taste last --taster Ada                    asks line by line\n"
        "  loafmark taste --file tastings.json\n"
        "  loafmark taste 12 13 14 --blind --taster Ada --taster Ben --key key.txt\n"
        "  loafmark taste --sitting 1 --code 417 --soft-firm 4\n"
        "tastings.json: {\"tastings\": [{\"bake\": \"last\", \"taster\": \"Ada\", \"since_oven\": "
        "\"20h\",\n"
        "    \"scores\": {\"soft-firm\": 4}, \"liking\": 7, \"words\": \"good for soup\"}]}");
    app.add_option("BAKE", options.bakes, "last, a date, a number or part of a title")
        ->type_name("");
    add_value(app, "--file", options.file, plain_text, "FILE.json", "tastings from a file instead");
    add_repeated(app, "--taster", options.tasters, plain_text, "NAME",
                 "who tastes; of a blind sitting, each of them");
    add_value(
        app, "--loaf", options.loaf,
        [](const std::string& text) { return parse_count(text, 1, "no number of a loaf"); }, "2",
        "which loaf of the bake (the first unless said)");
    add_value(app, "--date", options.date, plain_text, "2026-11-20", "the day (today unless said)");
    add_value(app, "--since-oven", options.since_oven, read_hours, "20h",
              "how long it has been out of the oven");
    add_value(app, "--kept", options.kept, plain_text, "'paper bag'", "how it was kept");
    add_score_options(app, options);
    add_blind_options(app, options);
    return app;
}

CLI::App& add_tastings(CLI::App& parent, TastingsOptions& options) {
    CLI::App& app = add_command(
        parent, "tastings", "what tasters said so far",
        "Shows the means of each bake, and how each differs from the first one named, over tasters "
        "who\n"
        "had both. Differences within the tasters' own repeats are not told apart.");
    app.footer(
        "Examples:\n"
        "  loafmark tastings\n"
        "  loafmark tastings 12 13 14\n"
        "  loafmark tastings --trial which --json");
    auto* bakes = app.add_option("BAKE", options.bakes,
                                 "the one to hold against, then others (all that were\ntasted "
                                 "unless said)")
                      ->type_name("");
    add_value(app, "--trial", options.trial, plain_text, "TRIAL", "the bakes of that trial")
        ->excludes(bakes);
    app.add_flag("--json", options.json, "one JSON document instead of text");
    return app;
}

}  // namespace loafmark::commands
