// Asking what is told once a kitchen.
#include <ostream>

#include "arithmetic/quantities.h"
#include "commands/kitchen.h"
#include "commands/options.h"
#include "commands/prompts.h"
#include "commands/text.h"
#include "commands/words.h"

namespace loafmark::commands {
namespace {

journal::NewTin tin_in_ml(const std::string& answer) {
    const auto sign = answer.rfind('=');
    if (sign == std::string::npos) return parse_tin(answer);
    return parse_tin(answer.substr(0, sign + 1) + in_unit(answer.substr(sign + 1), "ml"));
}

template <class Read>
auto ask_for_several(const Context& context, const std::string& question, Read read) {
    std::vector<decltype(read(std::string()))> all;
    while (const auto one = ask_or_leave(context, question, read))
        all.push_back(*one);
    return all;
}

std::string names_of(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names)
        text += (text.empty() ? " (there: " : ", ") + name;
    return text.empty() ? "" : text + ")";
}

}  // namespace

journal::KitchenChange ask_about_kitchen(const journal::Kitchen& known, const Context& context) {
    context.err << "Your kitchen, asked once. Enter or - leaves a line as it stands.\n";
    journal::KitchenChange change;
    const auto plain = [](const std::string& text) { return text; };
    const auto number = [](const auto& value) { return to_text(value); };
    change.facts.temperatures = ask_with_usual(context, "Temperatures in C or F",
                                               known.facts.temperatures, plain, parse_temperatures);
    change.facts.scale_step = ask_with_usual(
        context, "Your scales show steps of (g)", known.facts.scale_step, number,
        [](const std::string& text) { return more_than_nothing(in_unit(text, "g")); });
    change.facts.leaven =
        ask_with_usual(context, "Your usual leaven (" + words_in_a_row(journal::leaven_words) + ")",
                       known.facts.leaven, plain, [](const std::string& text) {
                           return parse_word(text, journal::leaven_words, "no leaven");
                       });
    change.facts.slice_thickness = ask_with_usual(
        context, "Your slices are usually so thick (mm)", known.facts.slice_thickness, number,
        [](const std::string& text) { return read_length(in_unit(text, "mm")); });
    change.facts.cut_after = ask_with_usual(
        context, "Loaves usually cool before the cut (h)", known.facts.cut_after, hours_text,
        [](const std::string& text) { return read_hours(in_unit(text, "h")); });
    std::vector<std::string> tins;
    for (const journal::Tin& tin : known.tins)
        tins.push_back(tin.name);
    change.tins = ask_for_several(
        context,
        "A tin and its ml to the brim, such as small tin=1800; Enter or -: no more" +
            names_of(tins) + ":",
        tin_in_ml);
    change.tasters = ask_for_several(
        context, "Who tastes; Enter or -: no more" + names_of(known.tasters) + ":", plain_text);
    return change;
}

}  // namespace loafmark::commands
