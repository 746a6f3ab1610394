#include "journal/schema.h"

#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>

#include <array>
#include <string>

#include "journal/changes.h"
#include "journal/kitchen_step.h"
#include "journal/loaf_proof_step.h"
#include "journal/rows.h"
#include "journal/safe_step.h"
#include "journal/trial_step.h"
#include "journal/weighed_step.h"

namespace loafmark::journal {
namespace {

// "Loaf" in ASCII, so that `file` and we ourselves tell a journal from another database.
constexpr int application_id = 0x4c6f6166;

// Numbers of kitchens, bakes and the like are AUTOINCREMENT, since people write them down: one that
// was given out never comes to mean something else. Names are kept folded beside as written, since
// SQLite's own NOCASE knows ASCII only.
constexpr const char* first_version = R"sql(
CREATE TABLE kitchen (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    name TEXT NOT NULL CHECK (name <> ''),
    created_at TEXT NOT NULL
) STRICT;

CREATE TABLE flour (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    name TEXT NOT NULL CHECK (name <> ''),
    name_folded TEXT NOT NULL UNIQUE,
    grain TEXT,
    grade TEXT,
    mill TEXT,
    protein_fraction REAL CHECK (protein_fraction BETWEEN 0 AND 1),
    protein_basis TEXT CHECK (protein_basis IN ('pack-eu', 'pack-us', 'mill-14', 'dry')),
    notes TEXT,
    created_at TEXT NOT NULL
) STRICT;

CREATE TABLE bag (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    flour INTEGER NOT NULL REFERENCES flour,
    lot TEXT,
    bought_on TEXT CHECK (bought_on IS date(bought_on)),
    best_before TEXT CHECK (best_before IS date(best_before)),
    opened_on TEXT CHECK (opened_on IS date(opened_on)),
    bought_mass_g REAL CHECK (bought_mass_g >= 0),
    left_mass_g REAL CHECK (left_mass_g >= 0),
    protein_fraction REAL CHECK (protein_fraction BETWEEN 0 AND 1),
    protein_basis TEXT CHECK (protein_basis IN ('pack-eu', 'pack-us', 'mill-14', 'dry')),
    created_at TEXT NOT NULL
) STRICT;
CREATE INDEX bag_flour ON bag (flour);

CREATE TABLE formula (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    name TEXT NOT NULL CHECK (name <> ''),
    name_folded TEXT NOT NULL UNIQUE,
    created_at TEXT NOT NULL
) STRICT;

CREATE TABLE formula_version (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    formula INTEGER NOT NULL REFERENCES formula,
    version INTEGER NOT NULL CHECK (version >= 1),
    notes TEXT,
    created_at TEXT NOT NULL,
    UNIQUE (formula, version)
) STRICT;

CREATE TABLE ingredient (
    formula_version INTEGER NOT NULL REFERENCES formula_version,
    position INTEGER NOT NULL CHECK (position >= 1),
    kind TEXT NOT NULL CHECK (kind IN ('flour', 'water', 'salt', 'leaven', 'other')),
    name TEXT NOT NULL CHECK (name <> ''),
    flour INTEGER REFERENCES flour,
    share_of_flour REAL NOT NULL CHECK (share_of_flour >= 0),
    water_fraction REAL NOT NULL CHECK (water_fraction BETWEEN 0 AND 1),
    flour_fraction REAL NOT NULL CHECK (flour_fraction BETWEEN 0 AND 1),
    stage TEXT NOT NULL CHECK (stage <> ''),
    PRIMARY KEY (formula_version, position),
    CHECK (kind <> 'flour' OR flour IS NOT NULL)
) STRICT, WITHOUT ROWID;
CREATE INDEX ingredient_flour ON ingredient (flour);

CREATE TABLE bake_day (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    kitchen INTEGER NOT NULL REFERENCES kitchen,
    date TEXT NOT NULL CHECK (date IS date(date)),
    room_temperature_c REAL,
    created_at TEXT NOT NULL
) STRICT;
CREATE INDEX bake_day_date ON bake_day (date);

CREATE TABLE bake (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    bake_day INTEGER NOT NULL REFERENCES bake_day,
    formula_version INTEGER NOT NULL REFERENCES formula_version,
    title TEXT NOT NULL CHECK (title <> ''),
    dough_temperature_c REAL,
    handling TEXT,
    notes TEXT,
    set_aside TEXT CHECK (set_aside <> ''),
    created_at TEXT NOT NULL
) STRICT;
CREATE INDEX bake_bake_day ON bake (bake_day);
CREATE INDEX bake_formula_version ON bake (formula_version);

CREATE TABLE mixed_amount (
    bake INTEGER NOT NULL REFERENCES bake,
    position INTEGER NOT NULL CHECK (position >= 1),
    kind TEXT NOT NULL CHECK (kind IN ('flour', 'water', 'salt', 'leaven', 'other')),
    name TEXT NOT NULL CHECK (name <> ''),
    flour INTEGER REFERENCES flour,
    bag INTEGER REFERENCES bag,
    mass_g REAL NOT NULL CHECK (mass_g >= 0),
    water_fraction REAL NOT NULL CHECK (water_fraction BETWEEN 0 AND 1),
    flour_fraction REAL NOT NULL CHECK (flour_fraction BETWEEN 0 AND 1),
    PRIMARY KEY (bake, position),
    CHECK (kind <> 'flour' OR flour IS NOT NULL)
) STRICT, WITHOUT ROWID;
CREATE INDEX mixed_amount_flour ON mixed_amount (flour);
CREATE INDEX mixed_amount_bag ON mixed_amount (bag);

CREATE TABLE loaf (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    bake INTEGER NOT NULL REFERENCES bake,
    number INTEGER NOT NULL CHECK (number >= 1),
    tin TEXT,
    free_form INTEGER CHECK (free_form IN (0, 1)),
    dough_mass_g REAL CHECK (dough_mass_g >= 0),
    baked_mass_g REAL CHECK (baked_mass_g >= 0),
    created_at TEXT NOT NULL,
    UNIQUE (bake, number)
) STRICT;

CREATE TABLE photo (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    hash TEXT NOT NULL UNIQUE CHECK (length(hash) = 64 AND hash NOT GLOB '*[^0-9a-f]*'),
    extension TEXT NOT NULL CHECK (extension NOT GLOB '*[^.0-9a-z]*'),
    size_bytes INTEGER NOT NULL CHECK (size_bytes >= 0),
    created_at TEXT NOT NULL
) STRICT;

CREATE TABLE slice (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    loaf INTEGER NOT NULL REFERENCES loaf,
    photo INTEGER NOT NULL REFERENCES photo,
    photo_name TEXT NOT NULL CHECK (photo_name <> ''),
    index_in_photo INTEGER NOT NULL CHECK (index_in_photo >= 1),
    place TEXT,
    mass_g REAL CHECK (mass_g >= 0),
    since_oven_h REAL CHECK (since_oven_h >= 0),
    created_at TEXT NOT NULL,
    UNIQUE (loaf, photo, index_in_photo)
) STRICT;
CREATE INDEX slice_photo ON slice (photo);

CREATE TABLE slice_thickness (
    slice INTEGER NOT NULL REFERENCES slice,
    position INTEGER NOT NULL CHECK (position >= 1),
    thickness_mm REAL NOT NULL CHECK (thickness_mm > 0),
    PRIMARY KEY (slice, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE reading (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    slice INTEGER NOT NULL REFERENCES slice,
    analysis_version TEXT NOT NULL CHECK (analysis_version <> ''),
    made_at TEXT NOT NULL,
    scale_source TEXT NOT NULL,
    taken TEXT,
    document TEXT NOT NULL
) STRICT;
CREATE INDEX reading_slice ON reading (slice);

CREATE TABLE reading_value (
    reading INTEGER NOT NULL REFERENCES reading,
    key TEXT NOT NULL,
    value REAL NOT NULL,
    low REAL NOT NULL,
    high REAL NOT NULL,
    loaf_low REAL,
    loaf_high REAL,
    PRIMARY KEY (reading, key)
) STRICT, WITHOUT ROWID;
CREATE INDEX reading_value_key ON reading_value (key, value);

CREATE TABLE reading_warning (
    reading INTEGER NOT NULL REFERENCES reading,
    position INTEGER NOT NULL CHECK (position >= 1),
    code TEXT NOT NULL CHECK (code <> ''),
    PRIMARY KEY (reading, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE reading_cells (
    reading INTEGER PRIMARY KEY REFERENCES reading,
    diameters BLOB NOT NULL CHECK (length(diameters) % 8 = 0)
) STRICT;

CREATE TABLE reading_picture (
    reading INTEGER NOT NULL REFERENCES reading,
    kind TEXT NOT NULL CHECK (kind IN ('slice', 'overlay')),
    media_type TEXT NOT NULL,
    mm_per_pixel REAL CHECK (mm_per_pixel > 0),
    width_px INTEGER NOT NULL CHECK (width_px > 0),
    height_px INTEGER NOT NULL CHECK (height_px > 0),
    bytes BLOB NOT NULL,
    PRIMARY KEY (reading, kind)
) STRICT;
)sql";

// A target's print is ruled once and then known. A slice's place was any text; the words for it are
// held by the program from here on, and older entries stay as they were written.
constexpr const char* print_checks_and_cut_direction = R"sql(
CREATE TABLE print_check (
    kitchen INTEGER NOT NULL REFERENCES kitchen,
    target TEXT NOT NULL CHECK (target IN ('a4', 'letter', 'strip')),
    line_mm REAL NOT NULL CHECK (line_mm BETWEEN 50 AND 150),
    ruled_at TEXT NOT NULL,
    PRIMARY KEY (kitchen, target)
) STRICT, WITHOUT ROWID;

ALTER TABLE slice ADD COLUMN cut_direction TEXT
    CHECK (cut_direction IN ('crosswise', 'lengthwise'));
)sql";

// `units` promised ounces and inches too, and no command set it.
constexpr const char* scale_of_temperatures = R"sql(
ALTER TABLE kitchen ADD COLUMN temperatures TEXT CHECK (temperatures IN ('C', 'F'));
UPDATE kitchen SET temperatures = 'F' WHERE units = 'us';
ALTER TABLE kitchen DROP COLUMN units;
)sql";

// Along its outline a slice is cut out of its picture: "12.5,3 13,4", in pixels of the picture. A
// page of many takes the small one.
constexpr const char* cut_out_pictures = R"sql(
ALTER TABLE reading_picture ADD COLUMN outline_px TEXT CHECK (outline_px <> '');
ALTER TABLE reading_picture ADD COLUMN balanced_on_paper INTEGER
    CHECK (balanced_on_paper IN (0, 1));
ALTER TABLE reading_picture ADD COLUMN small_bytes BLOB CHECK (length(small_bytes) > 0);
)sql";

constexpr std::array steps_so_far{
    first_version,   print_checks_and_cut_direction, kitchen_step,    trial_step,
    safe_step,       scale_of_temperatures,          loaf_proof_step, weighed_step,
    cut_out_pictures};

int pragma(const SQLite::Database& db, const std::string& name) {
    SQLite::Statement statement(db, "PRAGMA " + name);
    return statement.executeStep() ? statement.getColumn(0).getInt() : 0;
}

void make_kitchen(Store& store) {
    execute(store.db,
            "INSERT INTO kitchen (uid, name, created_at) "
            "SELECT ?, ?, ? WHERE NOT EXISTS (SELECT 1 FROM kitchen)",
            store.new_uid(), "home", store.now());
}

}  // namespace

std::span<const char* const> migrations() {
    return steps_so_far;
}

int current_schema_version() {
    return static_cast<int>(steps_so_far.size());
}

int schema_version(const SQLite::Database& db) {
    return pragma(db, "user_version");
}

bool is_journal(const SQLite::Database& db) {
    const int id = pragma(db, "application_id");
    if (id != 0) return id == application_id;
    SQLite::Statement tables(db, "SELECT count(*) FROM sqlite_schema");
    return tables.executeStep() && tables.getColumn(0).getInt() == 0;
}

void migrate(Store& store, std::span<const char* const> steps) {
    const int target = static_cast<int>(steps.size());
    if (schema_version(store.db) >= target) return;
    SQLite::Transaction transaction(store.db, SQLite::TransactionBehavior::IMMEDIATE);
    // Asked again under the write lock: another program may have done it meanwhile.
    const int from = schema_version(store.db);
    for (int step = from; step < target; ++step)
        store.db.exec(steps[static_cast<std::size_t>(step)]);
    if (from < target) {
        store.db.exec("PRAGMA user_version = " + std::to_string(target));
        store.db.exec("PRAGMA application_id = " + std::to_string(application_id));
        make_kitchen(store);
        // They are noted in terms of the older tables.
        forget_changes(store.db);
    }
    transaction.commit();
}

}  // namespace loafmark::journal
