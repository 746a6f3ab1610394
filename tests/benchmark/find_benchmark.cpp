// Makes a journal of 100 000 bakes, asks `loafmark find` for pages of it, and prints as Markdown
// what each costs in CPU time above the program's own start, and how SQLite finds it.
//   loafmark-find-benchmark [BAKES]
#include <SQLiteCpp/Statement.h>
#include <sys/resource.h>
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

namespace {

using namespace loafmark;
using namespace loafmark::journal;

// Even numbers over the bakes that look like chance: multiples of primes, cut off.
constexpr const char* made_up = R"sql(
WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 365 * 10)
INSERT INTO bake_day (id, uid, kitchen, date, created_at)
    SELECT i, 'day-' || i, (SELECT min(id) FROM kitchen), date('2016-01-01', '+' || i || ' days'), 'now'
    FROM n;
WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < :bakes)
INSERT INTO bake (id, uid, bake_day, formula_version, title, notes, handling, leaven,
                  dough_temperature_c, created_at)
    SELECT i, 'bake-' || i, 1 + (i * 3650 / (:bakes + 1)), 1,
        'Loaf ' || (i * 7919 % 1000),
        CASE WHEN i % 3 = 0 THEN 'a note on the crust, number ' || (i * 104729 % 9973) END,
        CASE i % 4 WHEN 0 THEN 'tacky' WHEN 1 THEN 'supple' END,
        CASE i % 50 WHEN 0 THEN 'starter' ELSE 'instant yeast' END,
        22 + (i * 31 % 60) / 10.0, 'now'
    FROM n;
INSERT INTO mixed_amount (bake, position, kind, name, flour, bag, mass_g, water_fraction,
                          flour_fraction)
    SELECT id, 1, 'flour', 'Flour', 1 + id % 20, 1 + id % 20, 100.0 * (1 + id % 7), 0, 1 FROM bake;
INSERT INTO mixed_amount (bake, position, kind, name, flour, mass_g, water_fraction, flour_fraction)
    SELECT id, 2, 'flour', 'Flour', 1 + (id + 5) % 20, 300.0, 0, 1 FROM bake;
INSERT INTO mixed_amount (bake, position, kind, name, mass_g, water_fraction, flour_fraction)
    SELECT id, 3, 'water', 'Water', (300 + 100 * (1 + id % 7)) * (0.6 + (id * 13 % 250) / 1000.0), 1, 0
    FROM bake;
INSERT INTO mixed_amount (bake, position, kind, name, mass_g, water_fraction, flour_fraction)
    SELECT id, 4, 'salt', 'Salt', 12, 0, 0 FROM bake;
INSERT INTO loaf (id, uid, bake, number, tin, dough_mass_g, baked_mass_g, core_temperature_c,
                  created_at)
    SELECT id, 'loaf-' || id, id, 1, 'tin ' || (id % 5), 900, 760 + id * 17 % 60, 94 + id % 5, 'now'
    FROM bake;
INSERT INTO photo (id, hash, extension, size_bytes, created_at)
    SELECT id, printf('%064x', id), '.jpg', 1, 'now' FROM bake;
INSERT INTO slice (id, uid, loaf, photo, photo_name, index_in_photo, created_at)
    SELECT id, 'slice-' || id, id, id, 'slice.jpg', 1, 'now' FROM bake;
INSERT INTO reading (id, uid, slice, analysis_version, made_at, scale_source, document)
    SELECT id, 'reading-' || id, id, '1', 'now', 'mat', '{}' FROM bake;
INSERT INTO reading_value (reading, key, value, low, high)
    SELECT b.id, k.key, k.least + k.span * (b.id * k.prime % 1009) / 1009.0, 0, 1 FROM bake AS b,
    (SELECT 'openness' AS key, 0.1 AS least, 0.5 AS span, 7919 AS prime UNION ALL
     SELECT 'loaf_height', 60, 60, 104729 UNION ALL SELECT 'coarseness', 1, 9, 15485863 UNION ALL
     SELECT 'loaf_width', 90, 40, 1299709 UNION ALL SELECT 'section_area', 6000, 4000, 999983) AS k;
)sql";

void make(const std::filesystem::path& folder, int bakes) {
    {
        Journal journal = Journal::open(folder);
        std::vector<Flour> flours;
        for (int i = 1; i <= 20; ++i) {
            NewFlour flour;
            flour.name = "Flour " + std::to_string(i);
            flour.grain = i % 4 == 0 ? "rye" : "wheat";
            flours.push_back(journal.add_flour(flour));
            NewBag bag;
            bag.flour = flours.back().id;
            (void)journal.add_bag(bag);
        }
        (void)journal.add_formula("Plain", {{{IngredientKind::flour, "Flour 1", flours[0].id,
                                              Fraction(1), Fraction(0), Fraction(1), "dough"}},
                                            {}});
    }
    SQLite::Database db = open_to_write(folder / database_name, std::chrono::seconds(10));
    db.exec("BEGIN");
    std::string sql = made_up;
    for (std::size_t at; (at = sql.find(":bakes")) != std::string::npos;)
        sql.replace(at, 6, std::to_string(bakes));
    db.exec(sql);
    db.exec("COMMIT");
}

double seconds(const ::timeval& time) {
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
}

double cpu_ms_so_far() {
    ::rusage usage{};
    ::getrusage(RUSAGE_SELF, &usage);
    return 1000 * (seconds(usage.ru_utime) + seconds(usage.ru_stime));
}

// CPU time, user and system, of opening the journal and taking the page, as `loafmark find` does.
double middle_ms(const std::filesystem::path& folder, const Filter& filter) {
    constexpr int runs = 9;
    std::vector<double> times;
    for (int i = 0; i < runs; ++i) {
        const double begin = cpu_ms_so_far();
        const Journal journal = Journal::open_for_reading(folder);
        (void)journal.find(filter);
        times.push_back(cpu_ms_so_far() - begin);
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
    make(full, bakes);
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
