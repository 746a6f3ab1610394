#include "commands.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <filesystem>
#include <iomanip>
#include <optional>
#include <ostream>
#include <string_view>
#include <thread>

#include "phantoms/recipes.h"
#include "photo_files.h"
#include "samples.h"
#include "variants.h"

namespace loafmark::phantoms {

namespace {

// What a set is of.
struct SetKind {
    std::string_view option;
    std::string_view stem;
    PhantomRecipe (*recipe)(std::uint32_t seed, int number, Family family);
};
constexpr std::array<SetKind, 6> set_kinds{{{"", "loaf-", random_loaf},
                                            {"--patches", "patch-", random_patch},
                                            {"--spheres", "spheres-", sphere_patch},
                                            {"--shape", "shape-", shape_view},
                                            {"--several", "several-", several_view},
                                            {"--standing", "standing-", standing_view}}};

const SetKind* set_kind(std::string_view option) {
    const auto found = std::find_if(set_kinds.begin() + 1, set_kinds.end(),
                                    [&](const SetKind& kind) { return kind.option == option; });
    return found == set_kinds.end() ? nullptr : &*found;
}

struct Options {
    std::string command;
    std::filesystem::path folder;
    std::optional<std::uint32_t> seed;
    std::optional<int> count;
    int from = 1;
    bool held_back = false;
    const SetKind* kind = &set_kinds.front();
    bool variants = false;
    bool fast = false;
    std::optional<std::string> only;
    int threads = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
};

int number(const std::string& option, const std::string& text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || value < 0)
        throw BadCommandLine(option + " '" + text + "' is not a whole number; write it as " +
                             option + " 3");
    return value;
}

void take_option(Options& options, const std::string& name, const std::vector<std::string>& words,
                 std::size_t& at) {
    const auto value = [&]() -> const std::string& {
        if (at + 1 >= words.size()) throw BadCommandLine(name + " wants a value");
        return words[++at];
    };
    if (name == "--seed")
        options.seed = static_cast<std::uint32_t>(number(name, value()));
    else if (name == "--count")
        options.count = number(name, value());
    else if (name == "--from")
        options.from = number(name, value());
    else if (name == "--threads")
        options.threads = std::max(1, number(name, value()));
    else if (name == "--only")
        options.only = value();
    else if (name == "--held-back")
        options.held_back = true;
    else if (const SetKind* kind = set_kind(name))
        options.kind = kind;
    else if (name == "--variants")
        options.variants = true;
    else if (name == "--fast")
        options.fast = true;
    else
        throw BadCommandLine("there is no option " + name);
}

Options parse(const std::vector<std::string>& words) {
    if (words.empty()) throw BadCommandLine("no command given");
    Options options;
    options.command = words[0];
    if (options.command != "samples" && options.command != "set")
        throw BadCommandLine("there is no command '" + options.command + "'");
    for (std::size_t at = 1; at < words.size(); ++at) {
        if (words[at].starts_with("--"))
            take_option(options, words[at], words, at);
        else if (options.folder.empty())
            options.folder = words[at];
        else
            throw BadCommandLine("'" + words[at] + "' is one folder too many");
    }
    if (options.folder.empty()) throw BadCommandLine("say which folder to write to");
    if (options.command == "set" && (!options.seed || !options.count))
        throw BadCommandLine("set wants --seed N and --count K");
    return options;
}

// Tells how long the work took.
template <class Work>
void timed(const std::string& name, std::ostream& progress, const Work& work) {
    const auto start = std::chrono::steady_clock::now();
    progress << name << " ... " << std::flush;
    work();
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    progress << std::fixed << std::setprecision(1) << took.count() << " s" << std::endl;
}

void make(PhantomRecipe recipe, const Options& options, std::ostream& progress) {
    if (options.fast) recipe.samples = {2, 6};
    timed(recipe.name, progress,
          [&] { write_phantom(make_phantom(recipe, options.threads), options.folder); });
}

void make_set(const Options& options, std::ostream& progress) {
    const Family family = options.held_back ? Family::held_back : Family::development;
    const std::string_view kind = options.variants ? "variants-" : options.kind->stem;
    for (int i = options.from; i < options.from + *options.count; ++i) {
        std::string digits = std::to_string(i);
        digits.insert(0, digits.size() < 3 ? 3 - digits.size() : 0, '0');
        const std::string name = (options.held_back ? "held-" : "") + std::string(kind) + digits;
        if (options.variants) {
            timed(name, progress, [&] {
                write_variants(changed_views(*options.seed, i, family), name, options.folder,
                               options.threads);
            });
            continue;
        }
        PhantomRecipe recipe = options.kind->recipe(*options.seed, i, family);
        recipe.name = name;
        make(recipe, options, progress);
    }
}

}  // namespace

int run(const std::vector<std::string>& words, std::ostream& progress) {
    if (!words.empty() && (words[0] == "--help" || words[0] == "-h")) {
        progress << usage;
        return 0;
    }
    const Options options = parse(words);
    std::filesystem::create_directories(options.folder);
    if (options.command == "set") {
        make_set(options, progress);
        return 0;
    }
    bool any = false;
    for (const PhantomRecipe& recipe : sample_recipes())
        if (!options.only || *options.only == recipe.name) {
            make(recipe, options, progress);
            any = true;
        }
    if (!any) throw BadCommandLine("there is no sample '" + *options.only + "'");
    return 0;
}

}  // namespace loafmark::phantoms
