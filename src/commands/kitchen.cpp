#include "commands/kitchen.h"

#include <nlohmann/json.hpp>
#include <ostream>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "arithmetic/quantities.h"
#include "commands/help_text.h"
#include "commands/messages.h"
#include "commands/options.h"
#include "commands/prompts.h"
#include "commands/text.h"
#include "commands/words.h"
#include "documents/json_values.h"
#include "documents/text_table.h"

namespace loafmark::commands {
namespace {

using Json = nlohmann::ordered_json;

std::string joined(const std::vector<std::string>& texts) {
    std::string all;
    for (const std::string& text : texts)
        all += (all.empty() ? "" : ", ") + text;
    return all.empty() ? nothing_text : all;
}

std::string kitchen_text(const journal::Kitchen& kitchen) {
    const journal::KitchenFacts& facts = kitchen.facts;
    const auto shown = [](const auto& value) {
        return value ? to_text(*value) : std::string(nothing_text);
    };
    std::vector<std::string> tins;
    for (const journal::Tin& tin : kitchen.tins)
        tins.push_back(tin.volume ? tin.name + " (" + to_text(*tin.volume) + ")" : tin.name);
    return documents::text_table(
        {{"kitchen " + kitchen.name}, {""}},
        {{"scales show steps of", shown(facts.scale_step)},
         {"usual slice thickness", shown(facts.slice_thickness)},
         {"cut after", facts.cut_after ? hours_text(*facts.cut_after) : std::string(nothing_text)},
         {"usual leaven", or_nothing(facts.leaven)},
         {"temperatures in", facts.temperatures.value_or("C")},
         {"tins", joined(tins)},
         {"tasters", joined(kitchen.tasters)}});
}

std::string kitchen_document(const journal::Kitchen& kitchen) {
    const journal::KitchenFacts& facts = kitchen.facts;
    const auto count = [](const auto& value) { return value ? Json(value->count()) : Json(); };
    const auto text = [](const auto& value) { return value ? Json(*value) : Json(); };
    Json json{{"schema", 1}, {"name", kitchen.name}};
    json["scale_step_grams"] = count(facts.scale_step);
    json["slice_thickness_mm"] = count(facts.slice_thickness);
    json["cut_after_hours"] = count(facts.cut_after);
    json["leaven"] = text(facts.leaven);
    json["temperatures"] = facts.temperatures.value_or("C");
    json["tins"] = Json::array();
    for (const journal::Tin& tin : kitchen.tins)
        json["tins"].push_back({{"name", tin.name}, {"volume_ml", count(tin.volume)}});
    json["tasters"] = kitchen.tasters;
    return documents::printed(json);
}

}  // namespace

journal::NewTin parse_tin(const std::string& text) {
    const auto sign = text.rfind('=');
    const std::string name(trimmed(text.substr(0, sign)));
    if (name.empty())
        throw std::runtime_error("'" + text + "' names no tin; write it like 'small tin=1.8l'");
    if (sign == std::string::npos) return {name, std::nullopt};
    return {name, parse_volume(text.substr(sign + 1))};
}

std::string parse_temperatures(const std::string& text) {
    const std::string word = folded(text);
    if (word == "c" || word == "celsius") return "C";
    if (word == "f" || word == "fahrenheit") return "F";
    throw std::runtime_error("'" + text + "' is no scale of temperatures; write C or F");
}

CLI::App& add_kitchen(CLI::App& parent) {
    CLI::App& app =
        add_command(parent, "kitchen", "your kitchen: show, set",
                    "What does not change from bake to bake is told once: what your scales show, "
                    "your tins and\n"
                    "how much they hold, how thick you cut and how long after the oven, which "
                    "leaven you use,\n"
                    "who tastes, whether you read Celsius or Fahrenheit.");
    app.footer(
        "Examples:\n"
        "  loafmark kitchen set                    asks line by line\n"
        "  loafmark kitchen set --scale-step 1g --tin 'small tin=1.8l' --leaven starter\n"
        "  loafmark kitchen show");
    app.require_subcommand(1);
    return app;
}

CLI::App& add_kitchen_show(CLI::App& kitchen, KitchenShowOptions& options) {
    CLI::App& app = add_command(kitchen, "show", "shows what is known of your kitchen",
                                "Shows what is known of your kitchen; a dash: not told yet.");
    app.footer("Examples:\n  loafmark kitchen show\n  loafmark kitchen show --json");
    app.add_flag("--json", options.json, "one JSON document instead of text");
    return app;
}

CLI::App& add_kitchen_set(CLI::App& kitchen, KitchenSetOptions& options) {
    CLI::App& app = add_command(
        kitchen, "set", "tells what does not change",
        "Keeps what you name; the rest stays as it was. With nothing named it asks on the "
        "terminal.\n"
        "A tin's volume is what it holds to the brim, weighed with water: 1 g is 1 ml.");
    app.footer(
        "Examples:\n"
        "  loafmark kitchen set\n"
        "  loafmark kitchen set --scale-step 1g --thickness 15mm --cut-after 4h\n"
        "  loafmark kitchen set --tin 'small tin=1.8l' --tin 'long tin=2.6l' --taster Ada\n"
        "  loafmark kitchen set --forget-tin 'long tin'");
    journal::KitchenFacts& facts = options.change.facts;
    add_value(app, "--scale-step", facts.scale_step, more_than_nothing, "1g",
              "what your scales show");
    add_value(app, "--thickness", facts.slice_thickness, read_length, "15mm",
              "how thick you usually cut; slice add takes it where\nit is told no thickness");
    add_value(app, "--cut-after", facts.cut_after, read_hours, "4h",
              "how long loaves usually cool before the cut; slice\nadd takes it likewise");
    add_value(
        app, "--leaven", facts.leaven,
        [](const std::string& text) {
            return parse_word(text, journal::leaven_words, "no leaven");
        },
        "WORD", "your usual leaven: fresh yeast, active dry\nyeast, instant yeast or starter");
    add_value(app, "--temperatures", facts.temperatures, parse_temperatures, "C|F",
              "in which you read them (C unless said)");
    add_repeated(app, "--tin", options.change.tins, parse_tin, "NAME[=1.8l]",
                 "a tin and what it holds; may be repeated");
    add_repeated(app, "--taster", options.change.tasters, plain_text, "NAME",
                 "who tastes; may be repeated");
    add_repeated(app, "--forget-tin", options.change.forgotten_tins, plain_text, "NAME",
                 "a tin that is gone; bakes keep its name");
    add_repeated(app, "--forget-taster", options.change.forgotten_tasters, plain_text, "NAME",
                 "who tastes no more");
    return app;
}

Outcome run(const KitchenShowOptions& options, const journal::Journal& journal,
            const Context& context) {
    const journal::Kitchen kitchen = journal.kitchen();
    context.out << (options.json ? kitchen_document(kitchen) : kitchen_text(kitchen));
    return Outcome::done;
}

Outcome run(const KitchenSetOptions& options, journal::Journal& journal, const Context& context) {
    journal::KitchenChange change = options.change;
    if (change == journal::KitchenChange{}) {
        if (!can_ask(context))
            throw UsageError("nothing is told of the kitchen, and there is no terminal to ask on",
                             "loafmark kitchen set --help lists what can be told");
        change = or_else_said([&] { return ask_about_kitchen(journal.kitchen(), context); },
                              "nothing was kept");
    }
    try {
        context.out << kitchen_text(journal.change_kitchen(change));
    } catch (const journal::NotFound& error) {
        const std::string near = did_you_mean(error.suggestions());
        throw Failure(error.what(), near.empty() ? "loafmark kitchen show lists them" : near);
    }
    return Outcome::done;
}

}  // namespace loafmark::commands
