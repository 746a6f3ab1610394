// Declaring options whose values are read at once into what they mean, for all commands.
#pragma once

#include <CLI/CLI.hpp>
#include <concepts>
#include <filesystem>
#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "analysis/measure.h"
#include "commands/failure.h"

namespace loafmark::commands {

// Runs `read`; what it throws about the text becomes a UsageError that names the option first.
template <std::invocable Read>
auto reading_option(const std::string& name, Read read) {
    try {
        return read();
    } catch (const Failure&) {
        throw;
    } catch (const std::runtime_error& error) {
        throw UsageError(name + " " + error.what(), "");
    } catch (const std::invalid_argument& error) {
        throw UsageError(name + " " + error.what(), "");
    }
}

// The longest of "-o,--output", as messages name it.
[[nodiscard]] std::string shown_name(const std::string& names);

// An option that is given once: `into = read(text)`. `example` stands behind it in the help. `into`
// must outlive the parsing.
template <class T, class Read>
CLI::Option* add_value(CLI::App& app, const std::string& names, T& into, Read read,
                       const std::string& example, const std::string& description) {
    const auto take = [&into, read, names](const std::string& text) {
        into = reading_option(shown_name(names), [&] { return read(text); });
    };
    return app.add_option_function<std::string>(names, take, description)->type_name(example);
}

// An option that may be given again and again, one text each: `into.push_back(read(text))`.
template <class T, class Read>
CLI::Option* add_repeated(CLI::App& app, const std::string& names, std::vector<T>& into, Read read,
                          const std::string& example, const std::string& description) {
    const auto take = [&into, read, names](const std::vector<std::string>& texts) {
        for (const std::string& text : texts)
            into.push_back(reading_option(shown_name(names), [&] { return read(text); }));
    };
    return app.add_option_function<std::vector<std::string>>(names, take, description)
        ->type_name(example)
        ->allow_extra_args(false);
}

// The text as it stands, but not an empty one.
[[nodiscard]] std::string plain_text(const std::string& text);

// What the baker knows of a photo: --thickness; and --loaf-width, --base, --print-check.
void add_thickness_option(CLI::App& app, analysis::MeasureOptions& options);
void add_photo_options(CLI::App& app, analysis::MeasureOptions& options);

// auto, bottom or X1,Y1,X2,Y2 in photo pixels after EXIF rotation. Throws std::runtime_error.
[[nodiscard]] analysis::BaseHint parse_base(const std::string& text);

}  // namespace loafmark::commands
