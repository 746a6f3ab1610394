#include "commands/blend.h"

#include <algorithm>
#include <ostream>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "arithmetic/protein.h"
#include "commands/flour_text.h"
#include "commands/help_text.h"
#include "commands/loaves_left.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"
#include "commands/words.h"
#include "documents/text_table.h"
#include "insight/blend.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

double parse_volume_per_gram(const std::string& text) {
    std::string number = text;
    for (const char* unit : {"ml/g", "mL/g"})
        if (number.ends_with(unit)) number.resize(number.size() - 4);
    const auto value = parse_number(number);
    if (number == text || !value || !(*value > 0))
        throw std::runtime_error("'" + text + "' is no specific volume; write it as 3.6ml/g");
    return *value;
}

// The oldest bag that holds flour and tells its own protein goes before the flour's.
std::optional<Fraction> protein_of(const journal::Journal& journal, journal::Flour flour) {
    for (const journal::Bag& bag : journal.bags(flour.id)) {
        if (!bag.protein || (bag.left && !(*bag.left > Grams(0)))) continue;
        flour.protein = bag.protein;
        flour.protein_basis = bag.protein_basis;
        break;
    }
    return comparable_protein(flour);
}

std::optional<Fraction> said_of(const std::vector<NamedShare>& said, const journal::Flour& flour,
                                const journal::Journal& journal) {
    for (const NamedShare& one : said)
        if (named_flour(journal, one.name).id == flour.id) return one.share;
    return std::nullopt;
}

struct Question {
    std::vector<journal::Flour> flours;
    std::vector<insight::BlendFlour> parts;
    insight::BlendWish wish;
    std::string unit;   // of strength; "" where none is wished
    std::string basis;  // how strength was told, a line
};

Grams flour_needed(const BlendOptions& options, const journal::Journal& journal) {
    if (options.need.has_value() == options.formula.has_value())
        throw UsageError("say how much flour is needed",
                         "write --need 1.5kg, or --formula country --loaves 3 --each 900g");
    if (options.need) return *options.need;
    if (!options.each)
        throw UsageError("say how much dough a loaf is", "write --each 900g besides --formula");
    const journal::FormulaVersion formula = named_formula(journal, *options.formula);
    Grams flour{0};
    for (const auto& amount : journal::amounts_for_dough(
             formula.ingredients, *options.each * options.loaves.value_or(1)))
        flour = flour + amount.mass * amount.flour_fraction.count();
    return flour;
}

void tell_strength_by_protein(Question& question, const BlendOptions& options,
                              const journal::Journal& journal) {
    question.unit = "%";
    question.wish.strength = options.strength->count();
    question.basis =
        "Strength: protein that counts, at 14 % moisture. All of white wheat's, half of brown and "
        "wholemeal wheat's, none of other grains' (common practice, no source; --counts changes "
        "it).\n";
    for (std::size_t i = 0; i < question.parts.size(); ++i) {
        const journal::Flour& flour = question.flours[i];
        auto counts = said_of(options.counts, flour, journal);
        if (!counts) counts = insight::share_of_protein_that_counts(flour.grain, flour.grade);
        if (!counts)
            throw Failure("grain or grade of '" + flour.name + "' is not known",
                          "tell it with loafmark flour edit '" + flour.name +
                              "' --grain wheat --grade white, or say --counts '" + flour.name +
                              "=100%'");
        if (!question.parts[i].protein && *counts > Fraction(0))
            throw Failure("the protein of '" + flour.name + "' or its basis is not known",
                          "tell it with loafmark flour edit '" + flour.name +
                              "' --protein 12.5% --protein-basis pack_eu");
        question.parts[i].strength =
            *counts > Fraction(0) ? question.parts[i].protein->count() * counts->count() : 0;
    }
}

void tell_strength_by_bakes(Question& question, insight::StrengthMeasure measure, double wished,
                            const char* unit, const journal::Journal& journal) {
    std::vector<journal::FlourId> ids;
    for (const journal::Flour& flour : question.flours)
        ids.push_back(flour.id);
    const auto model = insight::mixture_model(ids, journal.find(), measure);
    if (!model)
        throw Failure(
            "the journal has too few measured bakes of these flours alone to tell what "
            "each does",
            "wish for protein instead, --strength 11%, or bake them in different shares");
    question.unit = unit;
    question.wish.strength = wished;
    question.basis = "Strength: by the shares in " + std::to_string(model->bakes) +
                     " of your bakes, which scatter by " + number_text(model->residual_sd) + " " +
                     unit + " about it.\n";
    for (std::size_t i = 0; i < question.parts.size(); ++i)
        question.parts[i].strength = model->coefficients[i];
}

Question question_of(const BlendOptions& options, const journal::Journal& journal) {
    Question question;
    question.flours.push_back(named_flour(journal, options.spared));
    for (const std::string& name : options.others)
        question.flours.push_back(named_flour(journal, name));
    for (const journal::Flour& flour : question.flours) {
        insight::BlendFlour& part = question.parts.emplace_back();
        part.name = flour.name;
        part.stock = stock_of(flour.id, journal);
        part.protein = protein_of(journal, flour);
        part.least = said_of(options.least, flour, journal).value_or(Fraction(0));
        part.most = said_of(options.most, flour, journal).value_or(Fraction(1));
    }
    question.wish.flour = flour_needed(options, journal);
    if (options.strength.has_value() + options.height.has_value() + options.volume.has_value() > 1)
        throw UsageError("strength is wished in several ways",
                         "take one of --strength, --height and --volume");
    using enum insight::StrengthMeasure;
    if (options.strength)
        tell_strength_by_protein(question, options, journal);
    else if (options.height)
        tell_strength_by_bakes(question, loaf_height_mm, options.height->count(), "mm", journal);
    else if (options.volume)
        tell_strength_by_bakes(question, specific_volume_ml_per_g, *options.volume, "mL/g",
                               journal);
    return question;
}

std::string blend_text(const Question& question, const insight::Blend& blend) {
    using documents::Align;
    std::vector<std::vector<std::string>> rows;
    for (std::size_t i = 0; i < blend.shares.size(); ++i) {
        const Grams mass = question.wish.flour * blend.shares[i].count();
        const auto& stock = question.parts[i].stock;
        rows.push_back({question.parts[i].name, percent_text(blend.shares[i]), grams_text(mass, 0),
                        grams_text(stock ? std::optional(*stock - mass) : std::nullopt, 0)});
    }
    std::string text = documents::text_table(
        {{"flour"}, {"share", Align::right}, {"weigh", Align::right}, {"left then", Align::right}},
        rows);
    if (question.wish.strength) {
        const bool in_percent = question.unit == "%";
        text += "Strength " + number_text(blend.strength * (in_percent ? 100 : 1)) + " " +
                question.unit + ".\n" + question.basis;
    }
    return text + "Protein of all flours together: " + percent_text(blend.protein) +
           " at 14 % moisture.\n";
}

}  // namespace

CLI::App& add_blend(CLI::App& parent, BlendOptions& options) {
    CLI::App& app = add_command(
        parent, "blend", "stretches a scarce flour with others",
        "Finds shares of flours that use as little of SCARCE as can be, within what the bags hold "
        "and\n"
        "the limits that you set, for a dough at least as strong as you wish. Strength is the "
        "protein\n"
        "that counts, or what your own loaves measured by share. Protein of all flours together "
        "is\n"
        "shown, never aimed at: rye adds protein and no strength.");
    app.footer(
        "Examples:\n"
        "  loafmark blend 'Strong white' --with 'Plain white' --with rye --need 1.5kg --strength "
        "11% \\\n"
        "      --most rye=10%\n"
        "  loafmark blend strong --with plain --formula country --loaves 3 --each 900g --height "
        "95mm");
    add_value(app, "SCARCE", options.spared, plain_text, "", "the flour to spare")->required();
    add_repeated(app, "--with", options.others, plain_text, "FLOUR",
                 "a flour to stretch it with; may be repeated")
        ->required();
    add_value(app, "--need", options.need, read_mass, "1.5kg", "how much flour in all");
    add_value(app, "--formula", options.formula, plain_text, "NAME",
              "or for loaves of this formula");
    add_value(
        app, "--loaves", options.loaves,
        [](const std::string& text) { return parse_count(text, 1, "no number of loaves"); }, "3",
        "how many (1 unless said)");
    add_value(app, "--each", options.each, read_mass, "900g", "dough of a loaf");
    add_value(app, "--strength", options.strength, read_percentage, "11%",
              "protein that counts, at least, at 14 % moisture");
    add_value(app, "--height", options.height, read_length, "95mm",
              "or the loaf's height, by your own loaves");
    add_value(app, "--volume", options.volume, parse_volume_per_gram, "3.6ml/g",
              "or its specific volume, by your own loaves");
    add_repeated(app, "--least", options.least, parse_named_share, "NAME=20%",
                 "at least this share of a flour");
    add_repeated(app, "--most", options.most, parse_named_share, "NAME=10%",
                 "at most this share of a flour");
    add_repeated(app, "--counts", options.counts, parse_named_share, "NAME=60%",
                 "how much of its protein counts");
    return app;
}

Outcome run(const BlendOptions& options, const journal::Journal& journal, const Context& context) {
    const Question question = question_of(options, journal);
    if (!(question.wish.flour > Grams(0)))
        throw UsageError("the flour needed is nothing", "give more than 0g");
    const auto answer = insight::blend(question.parts, question.wish, question.unit);
    if (const auto* none = std::get_if<insight::NoBlend>(&answer))
        throw Failure("no such blend: " + none->why,
                      "wish for less, allow more, or count the bags again (loafmark bag list)");
    context.out << blend_text(question, std::get<insight::Blend>(answer));
    return Outcome::done;
}

}  // namespace loafmark::commands
