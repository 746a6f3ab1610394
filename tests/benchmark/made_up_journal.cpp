#include "made_up_journal.h"

#include <SQLiteCpp/Statement.h>
#include <sys/resource.h>

#include <string>
#include <vector>

#include "journal/bakes.h"
#include "journal/database.h"

namespace loafmark::benchmark {
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

double seconds(const ::timeval& time) {
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
}

}  // namespace

void make_journal(const std::filesystem::path& folder, int bakes) {
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

double cpu_ms_so_far() {
    ::rusage usage{};
    ::getrusage(RUSAGE_SELF, &usage);
    return 1000 * (seconds(usage.ru_utime) + seconds(usage.ru_stime));
}

}  // namespace loafmark::benchmark
