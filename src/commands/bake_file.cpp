#include "commands/bake_file.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <ostream>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "arithmetic/quantities.h"
#include "commands/command_line_errors.h"
#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/messages.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"
#include "documents/csv_table.h"

namespace loafmark::commands {
namespace {

using Json = nlohmann::ordered_json;

// One bake of the file as options of `bake add`, and where it stands.
struct TypedBake {
    std::string where;  // "line 4", "bake 2"
    std::vector<std::string> arguments;
};

std::vector<std::string> known_options() {
    CLI::App app;
    BakeAddOptions unused;
    std::vector<std::string> names;
    for (const CLI::Option* option : add_bake_add(app, unused).get_options())
        for (const std::string& name : option->get_lnames())
            if (name != "help") names.push_back(name);
    return names;
}

void check_option(const std::string& name, const std::string& place) {
    const std::vector<std::string> known = known_options();
    if (std::ranges::find(known, name) != known.end()) return;
    const std::string near = did_you_mean(near_names(name, known));
    throw Failure(place + " '" + name + "' is nothing that is known of a bake",
                  (near.empty() ? "" : near + " Or ") +
                      std::string("say what it means with --column '") + name +
                      "=note', or that it is to be passed over with --column '" + name + "='");
}

std::string trimmed_text(const std::string& text) {
    return std::string(trimmed(text));
}

// A yes or no for the options that are there or not.
void add_argument(std::vector<std::string>& arguments, const std::string& option,
                  const std::string& value) {
    const bool flag = option == "free-form" || option == "sure";
    if (!flag)
        arguments.push_back("--" + option + "=" + value);
    else if (folded(value) == "yes" || folded(value) == "true" || value == "1")
        arguments.push_back("--" + option);
}

ColumnMeaning meaning_of(const std::string& heading, const std::vector<ColumnMeaning>& said) {
    for (const ColumnMeaning& meaning : said)
        if (folded(meaning.column) == folded(heading)) return meaning;
    return {heading, folded(heading), ""};
}

// Old notebooks write 900 under "dough (g)", and 0,5 for 0.5.
std::string with_unit(std::string value, const std::string& unit) {
    if (unit.empty()) return value;
    std::ranges::replace(value, ',', '.');
    return in_unit(value, unit);
}

std::vector<TypedBake> bakes_of_csv(const std::string& text, const BakeReadOptions& options) {
    const documents::CsvTable table = documents::parse_csv(text);
    std::vector<ColumnMeaning> meanings;
    for (const std::string& heading : table.headings) {
        meanings.push_back(meaning_of(trimmed_text(heading), options.columns));
        if (!meanings.back().option.empty()) check_option(meanings.back().option, "the column");
    }
    for (const ColumnMeaning& said : options.columns)
        if (std::ranges::none_of(table.headings, [&](const std::string& heading) {
                return folded(heading) == folded(said.column);
            }))
            throw Failure("the file has no column '" + said.column + "'",
                          did_you_mean(near_names(said.column, table.headings)));
    std::vector<TypedBake> bakes;
    for (const documents::CsvRow& row : table.rows) {
        TypedBake& bake = bakes.emplace_back(TypedBake{"line " + std::to_string(row.line), {}});
        for (std::size_t i = 0; i < meanings.size(); ++i) {
            const std::string value = trimmed_text(row.cells[i]);
            if (!value.empty() && !meanings[i].option.empty())
                add_argument(bake.arguments, meanings[i].option,
                             with_unit(value, meanings[i].unit));
        }
    }
    return bakes;
}

std::string text_of(const Json& value, const std::string& where, const std::string& name) {
    if (value.is_string()) return value.get<std::string>();
    if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
    if (value.is_number()) return value.dump();
    throw Failure(where + ": '" + name + "' is neither a text nor a number",
                  "write it like \"dough\": \"900g\"");
}

std::vector<TypedBake> bakes_of_json(const std::string& text) {
    Json document;
    try {
        document = Json::parse(text);
    } catch (const Json::parse_error& error) {
        throw Failure("it is no JSON (byte " + std::to_string(error.byte) + ")", "");
    }
    const Json& list =
        document.is_object() && document.contains("bakes") ? document["bakes"] : document;
    if (!list.is_array())
        throw Failure("it holds no list of bakes",
                      "write {\"bakes\": [{\"formula\": \"country\", \"dough\": \"900g\"}]}");
    std::vector<TypedBake> bakes;
    for (const Json& one : list) {
        TypedBake& bake =
            bakes.emplace_back(TypedBake{"bake " + std::to_string(bakes.size() + 1), {}});
        if (!one.is_object()) throw Failure(bake.where + " is not a bake", "");
        for (const auto& [name, value] : one.items()) {
            check_option(name, bake.where + ":");
            if (value.is_null()) continue;
            for (const Json& each : value.is_array() ? value : Json::array({value}))
                add_argument(bake.arguments, name, text_of(each, bake.where, name));
        }
    }
    return bakes;
}

journal::NewBake read_bake(const TypedBake& typed, const journal::Journal& journal,
                           const Context& context) {
    CLI::App parent;
    BakeAddOptions options;
    CLI::App& app = add_bake_add(parent, options);
    try {
        app.parse(std::vector<std::string>(typed.arguments.rbegin(), typed.arguments.rend()));
    } catch (const CLI::ParseError& error) {
        const UsageError said = usage_error(error, app);
        throw Failure(typed.where + ": " + said.what(), said.remedy());
    } catch (const Failure& error) {
        throw Failure(typed.where + ": " + error.what(), error.remedy());
    }
    try {
        return bake_of(options, journal, context);
    } catch (const Failure& error) {
        throw Failure(typed.where + ": " + error.what(), error.remedy());
    }
}

Grams dough_of(const std::vector<journal::MixedAmount>& mixed) {
    Grams sum{0};
    for (const journal::MixedAmount& amount : mixed)
        sum = sum + amount.mass;
    return sum;
}

// The bake of the journal that this one seems to be; null: none.
const journal::BakeEntry* same_in(const std::vector<journal::BakeEntry>& known,
                                  const journal::NewBake& bake) {
    const Grams dough = dough_of(bake.mixed);
    for (const journal::BakeEntry& entry : known)
        if (entry.bake.date == bake.date && entry.bake.formula_version == bake.formula_version &&
            (!bake.title || entry.bake.title == *bake.title) &&
            std::abs((dough_of(entry.bake.mixed) - dough).count()) < 0.01)
            return &entry;
    return nullptr;
}

void refuse_known(const std::vector<TypedBake>& typed, const std::vector<journal::NewBake>& bakes,
                  const journal::Journal& journal) {
    const std::vector<journal::BakeEntry> known = journal.find();
    for (std::size_t i = 0; i < bakes.size(); ++i)
        if (const auto* same = same_in(known, bakes[i]))
            throw Failure(typed[i].where + " seems to be bake " +
                              std::to_string(same->bake.id.value) + " already",
                          "nothing was added; take it out of the file, or say --again");
}

std::vector<TypedBake> typed_bakes(const std::string& text, const BakeReadOptions& options) {
    const auto first = text.find_first_not_of(" \t\r\n");
    const bool json = first != std::string::npos && (text[first] == '{' || text[first] == '[');
    try {
        return json ? bakes_of_json(text) : bakes_of_csv(text, options);
    } catch (const documents::CsvError& error) {
        throw Failure(error.what(), "");
    }
}

}  // namespace

ColumnMeaning parse_column(const std::string& text) {
    const auto equals = text.rfind('=');
    if (equals == std::string::npos || equals == 0)
        throw std::runtime_error("'" + text +
                                 "' does not say what a column means; write it as 'Day=date' or "
                                 "'Dough (g)=dough:g'");
    const std::string meaning = text.substr(equals + 1);
    const auto colon = meaning.find(':');
    return {text.substr(0, equals), meaning.substr(0, colon),
            colon == std::string::npos ? "" : meaning.substr(colon + 1)};
}

CLI::App& add_bake_read(CLI::App& bake, BakeReadOptions& options) {
    CLI::App& app = add_command(
        bake, "read", "adds the bakes of a file",
        "Adds the bakes of a file, all of them or, where one cannot be, none. Columns of a CSV "
        "file and\n"
        "names in a JSON file are the options of bake add without dashes: formula, date, dough, "
        "with,\n"
        "handling, baked... Formulas must be in the journal.");
    app.footer(
        "Examples:\n"
        "  loafmark bake read bakes.json\n"
        "  loafmark bake read notebook.csv --column 'Day=date' --column 'Dough (g)=dough:g' \\\n"
        "      --column 'Weather=' --dry-run\n"
        "bakes.json: {\"bakes\": [{\"formula\": \"country\", \"date\": \"2026-03-01\", \"dough\": "
        "\"900g\",\n"
        "             \"with\": [\"water=335g\"], \"baked\": [\"790g\"]}]}");
    add_value(app, "FILE", options.file, plain_text, "", "a CSV or JSON file")->required();
    add_repeated(app, "--column", options.columns, parse_column, "'Dough (g)=dough:g'",
                 "what a column means, and the unit of its bare\nnumbers; 'Weather=' passes it "
                 "over; may be repeated");
    app.add_flag("--dry-run", options.dry_run, "only tell whether it could be added");
    app.add_flag("--again", options.again, "add what seems to be in the journal already");
    return app;
}

Outcome run(const BakeReadOptions& options, journal::Journal& journal, const Context& context) {
    const std::string text = read_file(options.file);
    std::vector<journal::NewBake> bakes;
    try {
        const std::vector<TypedBake> typed = typed_bakes(text, options);
        for (const TypedBake& one : typed)
            bakes.push_back(read_bake(one, journal, context));
        if (!options.again) refuse_known(typed, bakes, journal);
    } catch (const Failure& error) {
        throw Failure(options.file + ", " + error.what(), error.remedy());
    }
    const std::string count = counted(bakes.size(), "bake", "bakes");
    if (options.dry_run) {
        context.out << count << " could be added; nothing was.\n";
        return Outcome::done;
    }
    (void)journal.add_bakes(bakes);
    context.out << "Added " << count << ".\n";
    return Outcome::done;
}

}  // namespace loafmark::commands
