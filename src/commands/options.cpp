#include "commands/options.h"

#include <charconv>

#include "arithmetic/quantities.h"
#include "commands/print_check.h"

namespace loafmark::commands {

namespace {
constexpr const char* photo_group = "What you know of the photo";
}

std::string shown_name(const std::string& names) {
    const auto comma = names.rfind(',');
    return comma == std::string::npos ? names : names.substr(comma + 1);
}

std::string plain_text(const std::string& text) {
    if (text.find_first_not_of(" \t\n") == std::string::npos)
        throw std::runtime_error("is empty; give it a text or leave it out");
    return text;
}

void add_thickness_option(CLI::App& app, analysis::MeasureOptions& options) {
    add_value(
        app, "--thickness", options.thickness,
        [](const std::string& text) { return parse_lengths(text); }, "15mm[,16mm]",
        "slice thickness, ruled at one place or more")
        ->group(photo_group);
}

void add_photo_options(CLI::App& app, analysis::MeasureOptions& options) {
    add_value(
        app, "--loaf-width", options.loaf_width,
        [](const std::string& text) { return parse_length(text); }, "118mm",
        "slice width at the base, where no target is seen")
        ->group(photo_group);
    add_value(app, "--base", options.base, parse_base, "auto|bottom|X1,Y1,X2,Y2",
              "the side that it baked on; pixels after EXIF rotation")
        ->group(photo_group);
    add_value(app, "--print-check", options.print_check, parse_print_check, "98.7mm",
              "what the target's 100 mm line measures on paper")
        ->group(photo_group);
}

analysis::BaseHint parse_base(const std::string& text) {
    using Kind = analysis::BaseHint::Kind;
    if (text == "auto") return {Kind::automatic, {}};
    if (text == "bottom") return {Kind::bottom, {}};
    std::array<double, 4> numbers{};
    const char* at = text.data();
    const char* const end = text.data() + text.size();
    bool good = true;
    for (std::size_t i = 0; i < numbers.size() && good; ++i) {
        if (i > 0) good = at < end && *at++ == ',';
        const auto [next, error] = std::from_chars(at, end, numbers[i]);
        good = good && error == std::errc{} && numbers[i] >= 0 && numbers[i] < 1e6;
        at = next;
    }
    if (!good || at != end)
        throw std::runtime_error("'" + text +
                                 "' is no base; write auto, bottom or two points in pixels such as "
                                 "120,1890,2200,1875");
    const PhotoPoint first{numbers[0], numbers[1]};
    const PhotoPoint second{numbers[2], numbers[3]};
    if (first == second)
        throw std::runtime_error("'" + text + "' is one point; give two different ones");
    return {Kind::line, std::array{first, second}};
}

}  // namespace loafmark::commands
