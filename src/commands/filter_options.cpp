#include "commands/filter_options.h"

#include "arithmetic/quantities.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"
#include "commands/words.h"

namespace loafmark::commands {

namespace {

FilterOptions::Share parse_share(const std::string& text) {
    const std::size_t equals = text.rfind('=');
    if (equals == std::string::npos || equals == 0)
        throw std::runtime_error("'" + text + "' is no share; write it like 'Emmer=50..100'");
    return {text.substr(0, equals), parse_percentage_range(text.substr(equals + 1))};
}

std::string percent_range_text(const FractionRange& range) {
    const auto end = [](const std::optional<Fraction>& fraction) {
        return fraction ? number_text(percent(*fraction)) : std::string();
    };
    return end(range.low) + ".." + end(range.high) + " %";
}

}  // namespace

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
              "with this in title, notes, handling or\nthe formula's name")
        ->group(group);
    add_value(app, "--day", options.day, plain_text, "DATE", "of this bake day")->group(group);
    add_value(
        app, "--leaven", options.leaven,
        [](const std::string& text) {
            return parse_word(text, journal::leaven_words, "no leaven");
        },
        "starter", "risen by " + words_in_a_row(journal::leaven_words))
        ->group(group);
    add_value(
        app, "--bag", options.bag,
        [](const std::string& text) { return parse_count(text, 1, "no bag's number"); }, "3",
        "with flour of this bag")
        ->group(group);
    add_repeated(app, "--share", options.shares, parse_share, "'Emmer=50..100'",
                 "with so much of a flour, in percent of all flour;\nmay be repeated")
        ->group(group);
    add_value(app, "--trial", options.trial, plain_text, "TRIAL", "put into this trial")
        ->group(group);
    add_repeated(
        app, "--where", options.where,
        [](const std::string& text) { return journal::parse_condition(text); }, "'openness 0.3..'",
        "any measure or field within a range, or a field\nof words: 'handling tacky'; may be "
        "repeated")
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
    if (const auto day = date("--day", options.day)) {
        if (filter.since || filter.until)
            throw UsageError("--day goes without --since and --until", "leave one of them out");
        filter.since = filter.until = day;
    }
    if (options.flour) filter.flour = named_flour(journal, *options.flour).id;
    if (options.formula) filter.formula = named_formula(journal, *options.formula).formula;
    filter.grain = options.grain;
    filter.hydration = options.hydration;
    filter.text = options.text;
    filter.where = options.where;
    if (options.leaven)
        filter.where.push_back({.key = "leaven", .range = {}, .word = options.leaven});
    if (options.bag) filter.bag = journal.bag(journal::BagId{*options.bag}).id;
    if (options.trial) filter.trial = named_trial(journal, *options.trial).id;
    for (const FilterOptions::Share& share : options.shares)
        filter.shares.push_back({named_flour(journal, share.flour).id, share.range});
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
    if (options.hydration) add("hydration", percent_range_text(*options.hydration));
    if (options.since) add("since", *options.since);
    if (options.until) add("until", *options.until);
    if (options.text) add("with the text", "'" + *options.text + "'");
    for (const journal::Condition& condition : options.where)
        add(condition.key, condition.word ? *condition.word : to_text(condition.range));
    if (options.day) add("day", *options.day);
    if (options.leaven) add("leaven", *options.leaven);
    if (options.bag) add("bag", std::to_string(*options.bag));
    if (options.trial) add("trial", *options.trial);
    for (const FilterOptions::Share& share : options.shares)
        add(share.flour, percent_range_text(share.range));
    return words;
}

}  // namespace loafmark::commands
