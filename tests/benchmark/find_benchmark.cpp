// Makes a journal of 100 000 bakes, asks `loafmark find` for pages of it, and prints as Markdown
// what each costs in CPU time above the program's own start, and how SQLite finds it.
//   loafmark-find-benchmark [BAKES]
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <functional>
#include <iostream>
#include <string>
#include <vector>

#include "journal/bakes.h"
#include "journal/database.h"
#include "made_up_journal.h"

namespace {

using namespace loafmark;
using namespace loafmark::journal;

// CPU time, user and system, of opening the journal and taking the page, as `loafmark find` does.
double middle_ms(const std::filesystem::path& folder, const Filter& filter) {
    constexpr int runs = 9;
    std::vector<double> times;
    for (int i = 0; i < runs; ++i) {
        const double begin = benchmark::cpu_ms_so_far();
        const Journal journal = Journal::open_for_reading(folder);
        (void)journal.find(filter);
        times.push_back(benchmark::cpu_ms_so_far() - begin);
    }
    std::ranges::sort(times);
    return times[runs / 2];
}

struct Question {
    std::vector<std::string> options;
    std::function<void(Filter&)> filter;
};

std::vector<Question> questions() {
    const auto where = [](const char* condition) {
        return [condition](Filter& filter) { filter.where.push_back(parse_condition(condition)); };
    };
    const auto sorted = [](std::string key, bool descending) {
        return [key, descending](Filter& filter) { filter.order = Order{key, descending}; };
    };
    return {
        {{}, [](Filter&) {}},
        {{"--since", "2025-12-01"},
         [](Filter& f) {
             f.since = Date{2025, 12, 1};
         }},
        {{"--flour", "Flour 7"}, [](Filter& f) { f.flour = FlourId{7}; }},
        {{"--bag", "7"}, [](Filter& f) { f.bag = BagId{7}; }},
        {{"--share", "Flour 7=60..65"},
         [](Filter& f) {
             f.shares = {{FlourId{7}, {Fraction(0.6), Fraction(0.65)}}};
         }},
        {{"--hydration", "66..66.1"},
         [](Filter& f) {
             f.hydration = {Fraction(0.66), Fraction(0.661)};
         }},
        {{"--hydration", "60..85"},
         [](Filter& f) {
             f.hydration = {Fraction(0.6), Fraction(0.85)};
         }},
        {{"--where", "openness 0.3..0.301"}, where("openness 0.3..0.301")},
        {{"--where", "openness 0.3.."}, where("openness 0.3..")},
        {{"--where", "openness 0.3..", "--where", "loaf_height 118.."},
         [](Filter& f) {
             f.where = {parse_condition("openness 0.3.."), parse_condition("loaf_height 118..")};
         }},
        {{"--where", "core_temperature 98.."}, where("core_temperature 98..")},
        {{"--where", "core_temperature 99.."}, where("core_temperature 99..")},  // fits none
        {{"--hydration", "66..66.1", "--where", "openness 0.3.."},
         [](Filter& f) {
             f.hydration = {Fraction(0.66), Fraction(0.661)};
             f.where = {parse_condition("openness 0.3..")};
         }},
        {{"--flour", "Flour 7", "--where", "openness 0.3.."},
         [](Filter& f) {
             f.flour = FlourId{7};
             f.where = {parse_condition("openness 0.3..")};
         }},
        // Many fit each, none fits both: every bake is looked at.
        {{"--bag", "7", "--where", "core_temperature 98.."},
         [](Filter& f) {
             f.bag = BagId{7};
             f.where = {parse_condition("core_temperature 98..")};
         }},
        {{"--leaven", "starter"}, where("leaven starter")},
        {{"--where", "handling pours"}, where("handling pours")},  // fits none
        {{"--text", "number 4711"}, [](Filter& f) { f.text = "number 4711"; }},
        {{"--text", "crust"}, [](Filter& f) { f.text = "crust"; }},
        {{"--text", "77"}, [](Filter& f) { f.text = "77"; }},
        {{"--sort", "-openness"}, sorted("openness", true)},
        {{"--sort", "hydration_percent"}, sorted("hydration_percent", false)},
        {{"--sort", "baked_mass"}, sorted("baked_mass", false)},
        {{"--sort", "title"}, sorted("title", false)},
        {{"--flour", "Flour 7", "--sort", "-openness", "--page", "3"},
         [](Filter& f) {
             f.flour = FlourId{7};
             f.order = Order{"openness", true};
             f.skip = 100;
         }},
    };
}

std::string joined(const std::vector<std::string>& texts, const std::string& between) {
    std::string all;
    for (const std::string& text : texts)
        all += (all.empty() ? "" : between) + text;
    return all;
}

}  // namespace

int main(int argc, char** argv) {
    const int bakes = argc > 1 ? std::atoi(argv[1]) : 100'000;
    const auto folder = std::filesystem::temp_directory_path() /
                        ("loafmark-find-benchmark-" + std::to_string(::getpid()));
    const auto empty = folder / "empty";
    const auto full = folder / "full";
    std::filesystem::create_directories(folder);
    (void)Journal::open(empty);
    benchmark::make_journal(full, bakes);
    const double start = middle_ms(empty, {});
    std::printf(
        "%d bakes, %.0f MB; a page is 50 bakes. The program's start (find in an empty "
        "journal): %.1f ms.\n\n",
        bakes, static_cast<double>(std::filesystem::file_size(full / database_name)) / 1e6, start);
    std::printf(
        "| `loafmark find --limit 50` and | CPU, ms | how SQLite finds it "
        "|\n|---|---|---|\n");
    const Environment environment;
    SQLite::Database db = open_to_read(full / database_name, std::chrono::seconds(10));
    const Store store(db, environment);
    for (const Question& question : questions()) {
        Filter filter;
        filter.limit = 51;
        question.filter(filter);
        std::printf("| `%s` | %.1f | %s |\n", joined(question.options, " ").c_str(),
                    middle_ms(full, filter) - start,
                    joined(query_plan(store, filter), "; ").c_str());
    }
    std::filesystem::remove_all(folder);
}
