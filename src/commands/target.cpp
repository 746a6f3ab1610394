#include "commands/target.h"

#include <ostream>

#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/options.h"
#include "commands/print_check.h"

namespace loafmark::commands {
namespace {

TargetKind parse_paper(const std::string& text) {
    if (text == "a4") return TargetKind::a4_mat;
    if (text == "letter") return TargetKind::letter_mat;
    if (text == "strip") return TargetKind::strip;
    throw std::runtime_error("'" + text + "' is no target; write a4, letter or strip");
}

targets::FieldStyle parse_field(const std::string& text) {
    if (text == "blue") return targets::FieldStyle::blue;
    if (text == "frame") return targets::FieldStyle::frame;
    if (text == "white") return targets::FieldStyle::none;
    throw std::runtime_error("'" + text + "' is no field; write blue, frame or white");
}

bool is_svg(const std::string& file) {
    return file.ends_with(".svg");
}

std::string parse_output(const std::string& text) {
    if (!text.ends_with(".pdf") && !is_svg(text))
        throw std::runtime_error("'" + text +
                                 "' is neither PDF nor SVG; write a name such as mat.pdf");
    return text;
}

}  // namespace

CLI::App& add_target(CLI::App& parent, TargetOptions& options) {
    CLI::App& app = add_command(
        parent, "target", "writes a printable mat or strip; keeps what its print measures",
        "Writes the target that gives a photo its scale, ready to print at 100 %. The mat lies "
        "under\n"
        "the slice; the strip stands in the plane of the cut, or lies beside the slice. After "
        "printing,\n"
        "rule its 100 mm line and say what it measures: the journal keeps that, and photos of "
        "this\n"
        "target are measured by it.");
    app.footer(
        "Examples:\n"
        "  loafmark target --paper a4 -o mat.pdf\n"
        "  loafmark target --paper a4 --print-check 98.7mm\n"
        "  loafmark target --list\n"
        "  loafmark target --paper letter --field frame -o mat.pdf");
    add_value(app, "--paper", options.kind, parse_paper, "a4|letter|strip", "which target");
    add_value(app, "-o,--output", options.output, parse_output, "FILE.pdf|.svg",
              "the file to write");
    add_value(app, "--field", options.field, parse_field, "blue|frame|white",
              "a mat's ground: blue (default); a frame for a dark sheet\n"
              "of your own, saving ink; white, for dark rye");
    const std::string group = "What the print measures";
    auto* check = add_value(app, "--print-check", options.print_check, parse_print_check, "98.7mm",
                            "keep what the target's 100 mm line measures on paper")
                      ->group(group);
    app.add_flag("--forget-check", options.forget_check, "forget it, after a new print")
        ->excludes(check)
        ->group(group);
    app.add_flag("--list", options.list, "show what is kept of each target")->group(group);
    return app;
}

namespace {

void write_target(TargetKind kind, const TargetOptions& options, const Context& context) {
    const std::string& file = *options.output;
    write_file(file, is_svg(file) ? targets::target_svg(kind, options.field)
                                  : targets::target_pdf(kind, options.field));
    context.out << "Wrote " << file << ". Print it at 100 % and rule its 100 mm line once.\n";
}

void forget_check(TargetKind kind, journal::Journal journal, const Context& context) {
    if (!journal.forget_print_check(kind))
        throw Failure("the journal keeps no print check of " + target_name(kind),
                      "loafmark target --list shows those that it keeps");
    context.out << "Forgotten: what the 100 mm line of " << target_name(kind) << " measures.\n";
}

}  // namespace

Outcome run(const TargetOptions& options, const OpenJournal& open, const Context& context) {
    const bool about_one = options.output || options.print_check || options.forget_check;
    if (!options.kind && (about_one || !options.list))
        throw UsageError("which target?", "name it with --paper a4, letter or strip");
    if (!about_one && !options.list)
        throw UsageError("what about " + target_name(*options.kind) + "?",
                         "write it with -o mat.pdf, or keep what its 100 mm line measures with "
                         "--print-check 98.7mm");
    if (options.output) write_target(*options.kind, options, context);
    if (options.print_check) {
        journal::Journal journal = open.to_write();
        context.out << keep_print_check(journal, *options.kind, *options.print_check);
    }
    if (options.forget_check) forget_check(*options.kind, open.to_write(), context);
    if (options.list) context.out << print_checks_table(open.to_read().print_checks());
    return Outcome::done;
}

}  // namespace loafmark::commands
