#include "commands/bake_facts_options.h"

#include "arithmetic/quantities.h"
#include "commands/options.h"
#include "commands/text.h"
#include "commands/words.h"

namespace loafmark::commands {
namespace {

constexpr const char* dough_group = "The dough";
constexpr const char* loaf_group = "The loaves";

// An option that takes one of these words.
void add_word(CLI::App& app, const std::string& name, std::optional<std::string>& into,
              std::span<const std::string_view> words, const char* what,
              const std::string& description, const char* group) {
    add_value(
        app, name, into,
        [words, what](const std::string& text) { return parse_word(text, words, what); }, "WORD",
        description + words_in_a_row(words))
        ->group(group);
}

}  // namespace

void add_dough_facts_options(CLI::App& app, DoughFactsTyped& into) {
    journal::BakeFacts& facts = into.facts;
    const auto temperature = [&](const char* name, std::optional<Celsius>& place,
                                 const char* example, const char* description) {
        add_value(app, name, place, read_temperature, example, description)->group(dough_group);
    };
    add_value(app, "--dough-temperature", into.dough_temperature, read_dough_temperature, "25C",
              "of the dough after mixing")
        ->group(dough_group);
    temperature("--room", into.room, "21C", "the kitchen, that day");
    temperature("--water-temperature", facts.water_temperature, "28C",
                "of the water; with room and dough the program\nlearns what mixing adds");
    temperature("--flour-temperature", facts.flour_temperature, "20C", "of the flour");
    temperature("--starter-temperature", facts.starter_temperature, "23C", "of the starter");
    add_word(app, "--handling", into.handling, journal::handling_words, "no handling",
             "how it felt at mixing: ", dough_group);
    add_word(app, "--handling-shaped", facts.handling_shaped, journal::handling_words,
             "no handling", "how it felt at shaping: ", dough_group);
    add_word(app, "--held-shape", facts.held_shape, journal::held_shape_words, "no answer",
             "whether it held its shape: ", dough_group);
    add_word(app, "--leaven", facts.leaven, journal::leaven_words, "no leaven", "", dough_group);
    add_value(app, "--fed-before", facts.leaven_fed_before, read_hours, "6h",
              "how long before mixing the starter was fed")
        ->group(dough_group);
    add_word(app, "--mixed-by", facts.mixed_by, journal::mixing_words, "neither", "", dough_group);
    add_value(
        app, "--folds", facts.folds,
        [](const std::string& text) { return parse_count(text, 0, "no number of folds"); }, "3",
        "how many times it was folded")
        ->group(dough_group);
    add_value(app, "--note", into.note, plain_text, "TEXT", "anything else")->group(dough_group);
}

void add_loaf_facts_options(CLI::App& app, journal::LoafFacts& into) {
    add_value(app, "--dough-height", into.dough_height, read_length, "55mm",
              "of the dough in the tin at its middle, when put in")
        ->group(loaf_group);
    add_value(app, "--proof-height", into.proof_height, read_length, "95mm",
              "the same when it went into the oven")
        ->group(loaf_group);
    add_value(
        app, "--proof", into.proof, [](const std::string& text) { return parse_duration(text); },
        "75min",
        "its final proof, where loaves of one dough were\nproved for different times (else --step "
        "proof=75min)")
        ->group(loaf_group);
    add_value(app, "--proof-temperature", into.proof_temperature, read_temperature, "26C",
              "where it proved")
        ->group(loaf_group);
    add_word(app, "--dent", into.dent, journal::dent_words, "no dent",
             "what a finger's dent did before the oven:\n", loaf_group);
    add_value(app, "--scoring", into.scoring, plain_text, "'one long cut'", "how it was scored")
        ->group(loaf_group);
    add_value(app, "--oven-place", into.oven_place, plain_text, "'back left'",
              "where it stood in the oven")
        ->group(loaf_group);
    add_value(app, "--steam", into.steam, plain_text, "'a cup of water'", "steam, and how much")
        ->group(loaf_group);
    add_value(app, "--core", into.core_temperature, read_core_temperature, "96C",
              "of the core when it came out; tells that it is\ndone, not that it is safe")
        ->group(loaf_group);
    add_value(app, "--weighed-after", into.weighed_after, read_hours, "1h",
              "hours out of the oven when --baked was weighed")
        ->group(loaf_group);
    add_value(app, "--length", into.length, read_length, "240mm",
              "of the baked loaf; with its slices it tells its volume,\nunless --volume does")
        ->group(loaf_group);
    add_value(app, "--volume", into.volume, read_volume, "2.9l",
              "of the loaf, by seed displacement")
        ->group(loaf_group);
}

journal::BakeStep parse_step(const std::string& text) {
    const auto equals = text.find('=');
    journal::BakeStep step;
    step.step = read_step(text.substr(0, equals));
    if (equals == std::string::npos)
        throw std::runtime_error("'" + text + "' does not say how long; write it as '" + step.step +
                                 "=45min' or '" + step.step + "=45min@230C'");
    const std::string rest = text.substr(equals + 1);
    const auto at = rest.find('@');
    step.lasted = parse_duration(rest.substr(0, at));
    if (at != std::string::npos) step.temperature = parse_temperature(rest.substr(at + 1));
    return step;
}

void ask_about_hydration(std::optional<Fraction> hydration, bool sure) {
    if (sure || !hydration) return;
    if (*hydration >= Fraction(0.3) && *hydration <= Fraction(2)) return;
    throw UsageError(
        "that makes a hydration of " + percent_text(hydration) + ", which few doughs have",
        "put the amounts right or, if it is meant, add --sure");
}

}  // namespace loafmark::commands
