#include "commands/filter_options.h"

#include "arithmetic/quantities.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"

namespace loafmark::commands {

void add_filter_options(CLI::App& app, FilterOptions& options) {
    const std::string group = "Which bakes (all unless said; every one narrows)";
    add_value(app, "--flour", options.flour, plain_text, "NAME", "with this flour in it")
        ->group(group);
    add_value(app, "--grain", options.grain, plain_text, "emmer", "with a flour of this grain")
        ->group(group);
    add_value(app, "--formula", options.formula, plain_text, "NAME",
              "of any version of this formula")
        ->group(group);
    add_value(
        app, "--hydration", options.hydration,
        [](const std::string& text) { return parse_percentage_range(text); }, "66..74",
        "as mixed, in percent; 70.. and ..70 too")
        ->group(group);
    add_value(app, "--since", options.since, plain_text, "DATE", "on this day or later")
        ->group(group);
    add_value(app, "--until", options.until, plain_text, "DATE", "on this day or before")
        ->group(group);
    add_value(app, "--text", options.text, plain_text, "TEXT",
              "with this in title, notes or handling")
        ->group(group);
    add_repeated(
        app, "--where", options.where,
        [](const std::string& text) { return journal::parse_condition(text); }, "'openness 0.3..'",
        "any measure or field within a range;\nmay be repeated")
        ->group(group);
}

journal::Filter filter_of(const FilterOptions& options, const journal::Journal& journal,
                          const Context& context) {
    const auto date = [&](const char* name, const std::optional<std::string>& text) {
        return text ? std::optional(
                          reading_option(name, [&] { return parse_date(*text, context.today); }))
                    : std::nullopt;
    };
    journal::Filter filter;
    filter.since = date("--since", options.since);
    filter.until = date("--until", options.until);
    if (filter.since && filter.until && *filter.since > *filter.until)
        throw UsageError(
            "--since " + to_text(*filter.since) + " is after --until " + to_text(*filter.until),
            "swap the two");
    if (options.flour) filter.flour = named_flour(journal, *options.flour).id;
    if (options.formula) filter.formula = named_formula(journal, *options.formula).formula;
    filter.grain = options.grain;
    filter.hydration = options.hydration;
    filter.text = options.text;
    filter.where = options.where;
    return filter;
}

std::string words_of(const FilterOptions& options) {
    std::string words;
    const auto add = [&](const std::string& name, const std::string& value) {
        words += (words.empty() ? "" : ", ") + name + " " + value;
    };
    if (options.flour) add("flour", *options.flour);
    if (options.grain) add("grain", *options.grain);
    if (options.formula) add("formula", *options.formula);
    if (options.hydration) {
        const auto end = [](const std::optional<Fraction>& fraction) {
            return fraction ? number_text(percent(*fraction)) : std::string();
        };
        add("hydration", end(options.hydration->low) + ".." + end(options.hydration->high) + " %");
    }
    if (options.since) add("since", *options.since);
    if (options.until) add("until", *options.until);
    if (options.text) add("with the text", "'" + *options.text + "'");
    for (const journal::Condition& condition : options.where)
        add(condition.key, to_text(condition.range));
    return words;
}

}  // namespace loafmark::commands
