#include "commands/target.h"

#include <ostream>

#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/options.h"

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
        parent, "target", "writes a printable mat or strip",
        "Writes the target that gives a photo its scale, ready to print at 100 %. The mat lies "
        "under\n"
        "the slice; the strip stands in the plane of the cut, or lies beside the slice. After "
        "printing,\n"
        "rule its 100 mm line once: if it is not 100 mm long, say so with --print-check.");
    app.footer(
        "Examples:\n"
        "  loafmark target --paper a4 -o mat.pdf\n"
        "  loafmark target --paper letter --field frame -o mat.pdf\n"
        "  loafmark target --paper strip -o strip.svg");
    add_value(app, "--paper", options.kind, parse_paper, "a4|letter|strip", "which target")
        ->required();
    add_value(app, "-o,--output", options.output, parse_output, "FILE.pdf|.svg",
              "the file to write")
        ->required();
    add_value(app, "--field", options.field, parse_field, "blue|frame|white",
              "a mat's ground: blue (default); a frame for a dark sheet\n"
              "of your own, saving ink; white, for dark rye");
    return app;
}

Outcome run(const TargetOptions& options, const Context& context) {
    const bool svg = is_svg(options.output);
    write_file(options.output, svg ? targets::target_svg(options.kind, options.field)
                                   : targets::target_pdf(options.kind, options.field));
    context.out << "Wrote " << options.output
                << ". Print it at 100 % and rule its 100 mm line once.\n";
    return Outcome::done;
}

}  // namespace loafmark::commands
