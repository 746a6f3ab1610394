#include "commands/next.h"

#include <charconv>
#include <ostream>

#include "commands/help_text.h"
#include "commands/left_out.h"
#include "commands/named.h"
#include "commands/options.h"
#include "documents/next_document.h"
#include "insight/bake_values.h"

namespace loafmark::commands {

insight::Goal parse_goal(const std::string& text) {
    if (text == "tallest") return {Measure::loaf_height, std::nullopt};
    const std::size_t blank = text.find(' ');
    const auto measure = measure_of_key(text.substr(0, blank));
    double value = 0;
    const char* const end = text.data() + text.size();
    const bool number = blank != std::string::npos &&
                        std::from_chars(text.data() + blank + 1, end, value).ptr == end &&
                        blank + 1 < text.size();
    if (!measure || !number || info_of(*measure).state != MeasureState::built)
        throw std::runtime_error(
            "'" + text +
            "' is no outcome; write tallest, or a measure and its value such as "
            "'openness 0.45' or 'loaf_height 95'");
    return {*measure, value};
}

CLI::App& add_next(CLI::App& parent, NextOptions& options) {
    CLI::App& app = add_command(
        parent, "next", "which water to bake a flour with next",
        "Says which water to bake a flour with next, for the outcome that you name, from the bakes "
        "in\n"
        "which it is the main flour: where the fitted curve peaks or the line reaches the value, "
        "with a\n"
        "95 % interval; or which bake would teach most. It never goes more than 2 points of water "
        "beyond\n"
        "what was tried, nor wetter than the wettest dough that handled as tacky or easier. 'Not\n"
        "determined' is an answer.");
    app.footer(
        "Examples:\n"
        "  loafmark next emmer --want tallest\n"
        "  loafmark next emmer --want 'openness 0.45'");
    add_value(app, "FLOUR", options.flour, plain_text, "", "the flour")->required();
    add_value(app, "--want", options.want, parse_goal, "OUTCOME",
              "tallest, or a measure and its value in its unit:\n'openness 0.45', 'loaf_height 95'")
        ->required();
    app.add_flag("--json", options.json, "one JSON document instead of text");
    return app;
}

Outcome run(const NextOptions& options, const journal::Journal& journal, const Context& context) {
    const journal::Flour flour = named_flour(journal, options.flour);
    journal::Filter filter;
    filter.flour = flour.id;
    const insight::Goal goal = options.want.value();
    const std::vector<journal::BakeEntry> bakes = journal.find(filter);
    insight::NextBake next = insight::next_bake(bakes, flour.id, goal);
    const std::string left_out = left_out_text(bakes, journal, [&](const journal::BakeEntry& bake) {
        const journal::FlourShare* main = insight::main_flour(bake);
        return main && main->flour == flour.id;
    });
    if (!left_out.empty()) next.assumptions.push_back(left_out);
    context.out << (options.json ? documents::next_document(next, goal, flour.name)
                                 : documents::next_text(next, flour.name));
    return Outcome::done;
}

}  // namespace loafmark::commands
