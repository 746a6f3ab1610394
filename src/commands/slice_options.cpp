// The options of loafmark slice.
#include <algorithm>

#include "arithmetic/quantities.h"
#include "commands/help_text.h"
#include "commands/options.h"
#include "commands/slice.h"
#include "commands/words.h"

namespace loafmark::commands {
namespace {

int parse_loaf(const std::string& text) {
    return parse_count(text, 1, "no loaf's number");
}

std::vector<std::string> parse_bakes(const std::string& text) {
    std::vector<std::string> bakes;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t comma = std::min(text.find(',', at), text.size());
        bakes.push_back(plain_text(text.substr(at, comma - at)));
        at = comma + 1;
    }
    return bakes;
}

std::string parse_place(const std::string& text) {
    if (text == "1/3") return "one third";
    if (text == "2/3") return "two thirds";
    return parse_word(text, journal::slice_places, "no place along the loaf");
}

std::string parse_cut(const std::string& text) {
    return parse_word(text, journal::cut_directions, "no cut");
}

Hours parse_since_oven(const std::string& text) {
    return hours_from(parse_duration(text));
}

CrumbPlugs parse_plugs(const std::string& text) {
    const std::size_t sign = text.find_first_of("xX");
    if (sign == std::string::npos)
        throw std::runtime_error("'" + text +
                                 "' is no number and width of plugs; write it like 4x30mm");
    return {parse_count(text.substr(0, sign), 1, "no number of plugs"),
            parse_length(text.substr(sign + 1))};
}

}  // namespace

CLI::App& add_slice(CLI::App& parent) {
    CLI::App& app = add_command(
        parent, "slice", "slices: add, show, remeasure",
        "A slice is one cut face of a loaf. Its photo is measured and kept in the journal with "
        "the\n"
        "reading, so that later versions of the analysis can measure it again.");
    app.footer(
        "Examples:\n"
        "  loafmark slice add last slice.jpg --thickness 15mm\n"
        "  loafmark slice show last");
    app.require_subcommand(1);
    return app;
}

CLI::App& add_slice_add(CLI::App& slice, SliceAddOptions& options) {
    CLI::App& app = add_command(
        slice, "add", "files photos under a bake and measures them",
        "Measures photos and files them under a bake: photo, reading and pictures together or not\n"
        "at all. A photo that shows several slices needs the bake of each, left to right, top to\n"
        "bottom, in --slices. What --print-check says is kept for the target in the photo.");
    app.footer(
        "Examples:\n"
        "  loafmark slice add last slice.jpg --thickness 15mm --since-oven 4h\n"
        "  loafmark slice add '20 November' middle.jpg --place middle --mass 42g\n"
        "  loafmark slice add three.jpg --slices 11,12,13 --thickness 15mm");
    add_value(app, "BAKE", options.bake, plain_text, "",
              "last, a date, a number, part of its title; may be\n"
              "left out with --slices")
        ->required();
    app.add_option("PHOTO", options.photos, "JPEG, PNG or HEIC files")->type_name("");
    const std::string group = "The slice";
    add_value(app, "--loaf", options.loaf, parse_loaf, "N",
              "which loaf of the bake (1 unless said)")
        ->group(group);
    add_value(app, "--place", options.facts.place, parse_place, "WORD",
              "where along the loaf: middle, one third, two thirds\n"
              "or end; trends leave ends out")
        ->group(group);
    add_value(app, "--cut", options.facts.cut, parse_cut, "crosswise|lengthwise",
              "across the loaf's length, or along it")
        ->group(group);
    add_value(app, "--since-oven", options.facts.since_oven, parse_since_oven, "4h",
              "how long the loaf was out of the oven when it was cut")
        ->group(group);
    add_value(
        app, "--mass", options.facts.mass, [](const std::string& text) { return parse_mass(text); },
        "42g", "what the slice weighs")
        ->group(group);
    auto* crumb = add_value(app, "--crumb", options.facts.crumb_mass, read_mass, "31g",
                            "what its crumb alone weighs, all crust trimmed off")
                      ->group(group);
    add_value(app, "--plugs", options.facts.plugs, parse_plugs, "4x30mm",
              "what --crumb is the mass of, where a round cutter was\npressed through the crumb: "
              "how many, how wide")
        ->group(group)
        ->needs(crumb);
    add_value(app, "--slices", options.bakes_of_slices, parse_bakes, "BAKE,BAKE",
              "the bake of each slice, in a photo of several")
        ->group(group);
    add_thickness_option(app, options.analysis);
    add_photo_options(app, options.analysis);
    return app;
}

CLI::App& add_slice_show(CLI::App& slice, SliceShowOptions& options) {
    CLI::App& app = add_command(slice, "show", "shows what was measured on a bake's slices",
                                "Shows the newest reading of each slice of a bake in full.");
    app.footer("Examples:\n  loafmark slice show last\n  loafmark slice show emmer --json");
    add_value(app, "BAKE", options.bake, plain_text, "",
              "last, a date, a number, part of its title")
        ->required();
    app.add_flag("--json", options.json, "one JSON document instead of tables");
    return app;
}

CLI::App& add_slice_remeasure(CLI::App& slice, SliceRemeasureOptions& options) {
    CLI::App& app = add_command(
        slice, "remeasure", "measures kept photos again",
        "Measures the photos that the journal keeps with this version of the analysis. Each slice\n"
        "gets a new reading; the old ones stay. Thickness, hours since the oven and the print "
        "check\n"
        "of the target are those in the journal. For photos of an earlier print of the target, "
        "say\n"
        "--print-check; what else you know of a photo is to be said again.");
    app.footer(
        "Examples:\n"
        "  loafmark slice remeasure last\n"
        "  loafmark slice remeasure --all");
    auto* bake = add_value(app, "BAKE", options.bake, plain_text, "",
                           "last, a date, a number, part of its title");
    app.add_flag("--all", options.all, "every slice of the journal")->excludes(bake);
    add_photo_options(app, options.analysis);
    return app;
}

}  // namespace loafmark::commands
