#include "commands/taste.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>
#include <set>

#include "arithmetic/near_names.h"
#include "arithmetic/quantities.h"
#include "cautions/cautions.h"
#include "commands/bake.h"
#include "commands/files.h"
#include "commands/messages.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/prompts.h"
#include "commands/taste_text.h"
#include "commands/text.h"

namespace loafmark::commands {
namespace {

using Json = nlohmann::json;

std::string text_at(const Json& object, const char* name, const std::string& where) {
    const Json& value = object.at(name);
    if (value.is_string()) return value.get<std::string>();
    if (value.is_number_integer()) return std::to_string(value.get<long long>());
    throw Failure(where + ": '" + name + "' is no text", "");
}

double score_at(const Json& value, const std::string& name, const std::string& where) {
    if (value.is_number() && value.get<double>() >= 0 &&
        value.get<double>() <= journal::end_of_line)
        return value.get<double>();
    throw Failure(where + ": '" + name + "' is " + value.dump() + ", no place on the line",
                  "write a number from 0 to 10");
}

journal::TasteScores scores_from(const Json& one, const std::string& where) {
    journal::TasteScores scores;
    if (one.contains("scores")) {
        if (!one["scores"].is_object())
            throw Failure(where + ": 'scores' is no list of lines",
                          "write \"scores\": {\"soft-firm\": 4}");
        for (const auto& [key, value] : one["scores"].items()) {
            std::vector<std::string> keys;
            for (const journal::TastingLine& line : journal::tasting_lines)
                keys.emplace_back(line.key);
            if (std::ranges::find(keys, key) == keys.end())
                throw Failure(where + ": '" + key + "' is no line of a tasting",
                              did_you_mean(near_names(key, keys)));
            scores.lines[key] = score_at(value, key, where);
        }
    }
    if (one.contains("liking")) scores.liking = score_at(one["liking"], "liking", where);
    if (one.contains("words")) scores.words = text_at(one, "words", where);
    return scores;
}

journal::NewTasting tasting_from(const Json& one, const std::string& where,
                                 const journal::Journal& journal, const Context& context) {
    if (!one.is_object()) throw Failure(where + " is no tasting", "");
    static const std::set<std::string> known{"bake", "taster", "date",   "since_oven", "kept",
                                             "loaf", "scores", "liking", "words"};
    for (const auto& [name, value] : one.items())
        if (!known.contains(name))
            throw Failure(where + ": '" + name + "' is nothing that is known of a tasting",
                          did_you_mean(near_names(
                              name, std::vector<std::string>(known.begin(), known.end()))));
    for (const char* needed : {"bake", "taster"})
        if (!one.contains(needed))
            throw Failure(where + " does not name its " + needed,
                          std::string("write \"") + needed + "\": \"...\"");
    journal::NewTasting tasting;
    try {
        tasting.bake = named_bake(journal, text_at(one, "bake", where), context.today).bake.id;
        tasting.taster = text_at(one, "taster", where);
        tasting.date = one.contains("date")
                           ? past_date("date", text_at(one, "date", where), context.today)
                           : context.today;
        if (one.contains("since_oven"))
            tasting.since_oven = hours_from(parse_duration(text_at(one, "since_oven", where)));
        if (one.contains("kept")) tasting.kept = text_at(one, "kept", where);
        if (one.contains("loaf")) tasting.loaf = one.at("loaf").get<int>();
    } catch (const Failure& error) {
        const std::string what = error.what();
        throw Failure(what.starts_with(where) ? what : where + ": " + what, error.remedy());
    } catch (const std::exception& error) {
        throw Failure(where + ": " + error.what(), "");
    }
    tasting.scores = scores_from(one, where);
    return tasting;
}

std::vector<journal::NewTasting> tastings_of_file(const std::string& file,
                                                  const journal::Journal& journal,
                                                  const Context& context) {
    Json document;
    try {
        document = Json::parse(read_file(file));
    } catch (const Json::parse_error& error) {
        throw Failure(file + " is no JSON (byte " + std::to_string(error.byte) + ")", "");
    }
    const Json& list =
        document.is_object() && document.contains("tastings") ? document["tastings"] : document;
    if (!list.is_array())
        throw Failure(file + " holds no list of tastings",
                      "loafmark taste --help shows how it is written");
    std::vector<journal::NewTasting> tastings;
    for (const Json& one : list)
        tastings.push_back(tasting_from(
            one, file + ", tasting " + std::to_string(tastings.size() + 1), journal, context));
    return tastings;
}

void keep(const std::vector<journal::NewTasting>& tastings, journal::Journal& journal,
          const Context& context) {
    (void)journal.add_tastings(tastings);
    context.out << "Kept " << counted(tastings.size(), "tasting", "tastings") << ".\n";
}

void say_cautions(const std::vector<journal::NewTasting>& tastings, const journal::Journal& journal,
                  const Context& context) {
    std::vector<std::optional<std::string>> grains;
    int days = 0;
    for (const journal::NewTasting& tasting : tastings) {
        const journal::BakeEntry bake = journal.bake(tasting.bake);
        for (auto& grain : grains_of(bake))
            grains.push_back(std::move(grain));
        days = std::max(days, days_between(bake.bake.date, tasting.date));
    }
    context.out << cautions::before_tasting(grains) << cautions::of_age(days);
}

std::string one_taster(const TasteOptions& options, const journal::Journal& journal,
                       const Context& context) {
    if (options.tasters.size() == 1) return options.tasters.front();
    if (options.tasters.size() > 1)
        throw UsageError("scores are of one taster, and several are named",
                         "name one, or begin a sitting with --blind");
    const std::vector<std::string> tasters = journal.kitchen().tasters;
    if (tasters.size() == 1) {
        context.out << "Taster: " << tasters.front() << ", the kitchen's only one.\n";
        return tasters.front();
    }
    std::string known;
    for (const std::string& name : tasters)
        known += (known.empty() ? "" : ", ") + name;
    if (options.any_score())
        throw UsageError("who tasted?",
                         "write --taster NAME" + (known.empty() ? "" : " (" + known + ")"));
    return ask_until_read(context, tasters.empty() ? "Who tastes?" : "Who tastes? (" + known + ")",
                          [](const std::string& name) {
                              if (name.empty()) throw std::runtime_error("A name is wanted.");
                              return name;
                          });
}

// By options, or line by line on the terminal.
Outcome taste_openly(const TasteOptions& options, journal::Journal& journal,
                     const Context& context) {
    if (options.bakes.empty())
        throw UsageError("which bake was tasted?", "write loafmark taste last");
    if (options.any_score() && options.bakes.size() > 1)
        throw UsageError("scores are of one bake, and several are named",
                         "name one, or leave the scores out to be asked");
    std::vector<journal::BakeEntry> bakes;
    for (const std::string& text : options.bakes)
        bakes.push_back(named_bake(journal, text, context.today));
    if (!options.any_score() && !can_ask(context))
        throw Failure("there is no terminal to ask the taster on",
                      "give the scores as options (--soft-firm 4) or as a file (--file "
                      "tastings.json)");
    const std::string taster = one_taster(options, journal, context);
    for (const journal::BakeEntry& bake : bakes) {
        journal::NewTasting tasting;
        tasting.bake = bake.bake.id;
        tasting.loaf = options.loaf.value_or(1);
        tasting.taster = taster;
        tasting.date = tasting_day(options, context);
        tasting.since_oven = options.since_oven;
        tasting.kept = options.kept;
        tasting.scores = options.scores;
        if (tasting.date < bake.bake.date)
            throw UsageError("bake " + std::to_string(bake.bake.id.value) +
                                 " was baked after that day, on " + to_text(bake.bake.date),
                             "say when it was tasted with --date");
        if (options.any_score()) {
            say_cautions({tasting}, journal, context);
        } else {
            context.out << bake.bake.title << ", " << to_text(bake.bake.date) << "\n"
                        << cautions::of_age(days_between(bake.bake.date, tasting.date));
            if (!ask_about_allergies(context, taster, grains_of(bake))) {
                context.out << "Then " << taster << " does not taste it.\n";
                continue;
            }
            tasting.scores = ask_for_scores(context);
        }
        keep({tasting}, journal, context);
    }
    return Outcome::done;
}

// The bakes of each variant together, the control first; variants without one are passed over.
void groups_of_trial(const journal::Trial& trial, std::vector<std::vector<journal::BakeId>>& groups,
                     BakeNames& names) {
    for (std::size_t v = 0; v < trial.variants.size(); ++v) {
        std::vector<journal::BakeId> group;
        for (const journal::TrialBake& bake : trial.bakes)
            if (bake.variant == static_cast<int>(v)) group.push_back(bake.bake);
        if (group.empty()) continue;
        names[group.front()] = trial.variants[v];
        groups.push_back(group);
    }
}

// Those named, else all of which something may be told.
std::vector<journal::BakeId> bakes_to_show(const TastingsOptions& options,
                                           const std::vector<journal::Tasting>& tastings,
                                           const journal::Journal& journal,
                                           const Context& context) {
    std::vector<journal::BakeId> bakes;
    for (const std::string& text : options.bakes)
        bakes.push_back(named_bake(journal, text, context.today).bake.id);
    if (!bakes.empty()) return bakes;
    std::set<journal::SittingId> going_on;
    for (const journal::Tasting& tasting : tastings)
        if (!tasting.scored && tasting.sitting) going_on.insert(*tasting.sitting);
    for (const journal::Tasting& tasting : tastings)
        if (!(tasting.sitting && going_on.contains(*tasting.sitting)) &&
            std::ranges::find(bakes, tasting.bake) == bakes.end())
            bakes.push_back(tasting.bake);
    std::ranges::sort(bakes);
    return bakes;
}

}  // namespace

std::vector<std::optional<std::string>> grains_of(const journal::BakeEntry& bake) {
    std::vector<std::optional<std::string>> grains;
    for (const journal::FlourShare& flour : bake.flours)
        grains.push_back(flour.grain);
    if (grains.empty()) grains.emplace_back();
    return grains;
}

Date tasting_day(const TasteOptions& options, const Context& context) {
    return options.date ? past_date("--date", *options.date, context.today) : context.today;
}

Outcome run(const TasteOptions& options, journal::Journal& journal, const Context& context) {
    if (options.blind) return run_blind(options, journal, context);
    if (options.sitting) return run_sitting(options, journal, context);
    if (!options.file)
        return or_else_said([&] { return taste_openly(options, journal, context); },
                            options.bakes.size() > 1
                                ? "what was said of the bakes before is kept, of this one nothing"
                                : "nothing was kept");
    if (!options.bakes.empty() || options.any_score())
        throw UsageError("a file says all of its tastings", "leave bakes and scores out");
    const auto tastings = tastings_of_file(*options.file, journal, context);
    say_cautions(tastings, journal, context);
    keep(tastings, journal, context);
    return Outcome::done;
}

Outcome run(const TastingsOptions& options, const journal::Journal& journal,
            const Context& context) {
    const std::vector<journal::Tasting> tastings = journal.tastings();
    std::vector<std::vector<journal::BakeId>> groups;
    BakeNames names;
    if (options.trial) {
        groups_of_trial(named_trial(journal, *options.trial), groups, names);
    } else {
        for (const journal::BakeId id : bakes_to_show(options, tastings, journal, context)) {
            groups.push_back({id});
            names[id] = journal.bake(id).bake.title;
        }
    }
    const insight::TasteSummary summary = insight::summary_of(tastings, groups);
    context.out << (options.json ? tastings_document(summary) : tastings_text(summary, names));
    return Outcome::done;
}

}  // namespace loafmark::commands
