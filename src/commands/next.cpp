#include "commands/next.h"

#include <charconv>
#include <map>
#include <ostream>
#include <stdexcept>

#include "commands/failure.h"
#include "commands/help_text.h"
#include "commands/left_out.h"
#include "commands/named.h"
#include "commands/options.h"
#include "documents/next_document.h"
#include "insight/bake_values.h"
#include "insight/recipe.h"

namespace loafmark::commands {
namespace {

constexpr std::string_view as_word = "as ";

insight::Vary parse_vary(const std::string& text) {
    if (const auto vary = insight::vary_of_name(text)) return *vary;
    throw std::runtime_error("'" + text + "' is not known; write water, proof, rest or share");
}

// The bakes of that bake's recipe or, of a flour, of the recipe that it alone was baked by and
// measured most.
std::vector<journal::BakeEntry> control_bakes(const std::string& name, Measure measure,
                                              const std::vector<journal::BakeEntry>& all,
                                              const journal::Journal& journal,
                                              const Context& context) {
    std::map<insight::Recipe, std::vector<journal::BakeEntry>> by_recipe;
    const auto flour = [&]() -> std::optional<journal::FlourId> {
        try {
            return journal.flour(name).id;
        } catch (const journal::NotFound&) {
            return std::nullopt;
        }
    }();
    if (!flour) {
        const journal::BakeEntry bake = named_bake(journal, name, context.today);
        const insight::Recipe recipe = insight::recipe_of(bake);
        std::vector<journal::BakeEntry> repeats;
        for (const journal::BakeEntry& entry : all)
            if (!entry.bake.set_aside && insight::recipe_of(entry) == recipe)
                repeats.push_back(entry);
        if (repeats.empty())
            throw Failure("'" + bake.bake.title + "' is set aside", "name another control");
        return repeats;
    }
    for (const journal::BakeEntry& entry : all)
        if (!entry.bake.set_aside && entry.flours.size() == 1 && entry.flours[0].flour == *flour &&
            insight::bake_mean(entry, measure))
            by_recipe[insight::recipe_of(entry)].push_back(entry);
    const auto most = std::ranges::max_element(
        by_recipe, {}, [](const auto& recipe) { return recipe.second.size(); });
    if (most == by_recipe.end())
        throw Failure("no bake of '" + name + "' alone has " + std::string(info_of(measure).name),
                      "name a bake as the control");
    return most->second;
}

insight::Goal goal_of(const GoalTyped& typed, const std::vector<journal::BakeEntry>& all,
                      const journal::Journal& journal, const Context& context) {
    insight::Goal goal = typed.goal;
    if (!typed.as) return goal;
    goal.control = control_bakes(*typed.as, goal.measure, all, journal, context);
    goal.control_name = insight::recipe_words(goal.control.front());
    return goal;
}

}  // namespace

GoalTyped parse_goal(const std::string& text) {
    if (text == "tallest") return {{Measure::loaf_height, {}, {}, {}}, std::nullopt};
    const auto as = text.starts_with(as_word) ? 0 : text.find(std::string(" ").append(as_word));
    const std::size_t blank = text.find(' ');
    const auto measure =
        as == 0 ? std::optional(Measure::loaf_height) : measure_of_key(text.substr(0, blank));
    GoalTyped typed;
    bool good = measure && info_of(*measure).state == MeasureState::built;
    if (good) typed.goal.measure = *measure;
    if (as != std::string::npos) {
        typed.as = text.substr(as + (as == 0 ? 0 : 1) + as_word.size());
        good = good && (as == 0 || as == blank) &&
               typed.as->find_first_not_of(' ') != std::string::npos;
    } else {
        double value = 0;
        const char* const end = text.data() + text.size();
        good = good && blank != std::string::npos && blank + 1 < text.size() &&
               std::from_chars(text.data() + blank + 1, end, value).ptr == end;
        typed.goal.value = value;
    }
    if (!good)
        throw std::runtime_error(
            "'" + text +
            "' is no outcome; write tallest, a measure and its value such as 'openness 0.45' or "
            "'loaf_height 95', or a control such as 'as wheat' or 'openness as wheat'");
    return typed;
}

CLI::App& add_next(CLI::App& parent, NextOptions& options) {
    CLI::App& app = add_command(
        parent, "next", "what to bake a flour with next",
        "Says what to bake a flour with next for the outcome that you name, from your own bakes of "
        "it:\n"
        "  --vary water   the water at which the loaf is tallest, or comes to the value or the "
        "control\n"
        "  --vary proof   how long to prove for the tallest loaf, and how soon past it the loaf "
        "falls\n"
        "  --vary rest    whether a rest of 8 hours and more brings it nearer to what you want\n"
        "  --vary share   the largest share of it in a blend with the control's flour that keeps "
        "at\n"
        "                 least 90 % of the control's loaf_height (or specific_volume)\n"
        "Each with a 95 % interval, how many bakes it rests on and what it assumes; or which bake "
        "would\n"
        "teach most. Water never goes more than 2 points beyond what was tried, nor wetter than "
        "the\n"
        "wettest dough that handled as tacky or easier. 'Not determined' is an answer.");
    app.footer(
        "Examples:\n"
        "  loafmark next emmer --want tallest\n"
        "  loafmark next emmer --want 'openness 0.45'\n"
        "  loafmark next emmer --want 'as wheat'\n"
        "  loafmark next emmer --want 'openness as Wheat 70'\n"
        "  loafmark next emmer --want tallest --vary proof\n"
        "  loafmark next emmer --want 'as wheat' --vary share");
    add_value(app, "FLOUR", options.flour, plain_text, "", "the flour")->required();
    add_value(app, "--want", options.want, parse_goal, "OUTCOME",
              "tallest; a measure and its value in its unit:\n'openness 0.45'; or as a control, a "
              "flour or a bake:\n'as wheat', 'openness as last'")
        ->required();
    add_value(app, "--vary", options.vary, parse_vary, "WHAT",
              "water (unless said), proof, rest or share");
    app.add_flag("--json", options.json, "one JSON document instead of text");
    return app;
}

Outcome run(const NextOptions& options, const journal::Journal& journal, const Context& context) {
    const journal::Flour flour = named_flour(journal, options.flour);
    const std::vector<journal::BakeEntry> all = journal.find();
    const insight::Goal goal = goal_of(options.want.value(), all, journal, context);
    insight::NextBake next;
    try {
        next = insight::next_bake(all, flour.id, goal, options.vary);
    } catch (const std::invalid_argument& error) {
        throw UsageError(error.what(), "loafmark next --help shows what goes together");
    }
    const std::string left_out = left_out_text(all, journal, [&](const journal::BakeEntry& bake) {
        const journal::FlourShare* main = insight::main_flour(bake);
        return main && main->flour == flour.id;
    });
    if (!left_out.empty()) next.notes.push_back(left_out);
    context.out << (options.json ? documents::next_document(next, goal, flour.name)
                                 : documents::next_text(next, flour.name));
    return Outcome::done;
}

}  // namespace loafmark::commands
