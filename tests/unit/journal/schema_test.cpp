#include "journal/schema.h"

#include <SQLiteCpp/Statement.h>

#include <array>
#include <vector>

#include "catch.h"
#include "example_journal.h"
#include "journal/database.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {
constexpr std::chrono::milliseconds no_wait{0};

std::string text_of(SQLite::Database& db, const char* query) {
    return db.execAndGet(query).getString();
}
}  // namespace

TEST_CASE("a fresh file is brought to the current version, with one kitchen") {
    TemporaryFolder folder;
    const Environment environment = fixed_environment();
    SQLite::Database db = open_to_write(folder / "loafmark.db", no_wait);
    Store store(db, environment);
    CHECK(schema_version(db) == 0);
    CHECK(is_journal(db));
    migrate(store);
    CHECK(schema_version(db) == current_schema_version());
    CHECK(is_journal(db));
    CHECK(text_of(db, "SELECT name || ' ' || created_at FROM kitchen") ==
          "home 2026-03-01T18:20:00Z");
    const std::string before = text_of(db, "SELECT group_concat(sql, ';') FROM sqlite_schema");
    migrate(store);
    CHECK(text_of(db, "SELECT group_concat(sql, ';') FROM sqlite_schema") == before);
    CHECK(db.execAndGet("SELECT count(*) FROM kitchen").getInt() == 1);
    CHECK(text_of(db, "PRAGMA integrity_check") == "ok");
}

TEST_CASE("later steps run on an older file and keep what it holds") {
    ExampleJournal example;
    const Environment environment = fixed_environment();
    SQLite::Database db = open_to_write(example.path / "loafmark.db", no_wait);
    Store store(db, environment);
    std::vector<const char*> steps(migrations().begin(), migrations().end());
    steps.push_back("ALTER TABLE flour ADD COLUMN origin TEXT");
    migrate(store, steps);
    CHECK(schema_version(db) == current_schema_version() + 1);
    CHECK(text_of(db, "SELECT name || ' ' || (origin IS NULL) FROM flour WHERE id = 1") ==
          "Strong white 1");
    CHECK(db.execAndGet("SELECT count(*) FROM kitchen").getInt() == 1);
}

TEST_CASE("a step that fails leaves the older version whole") {
    ExampleJournal example;
    const Environment environment = fixed_environment();
    SQLite::Database db = open_to_write(example.path / "loafmark.db", no_wait);
    Store store(db, environment);
    std::vector<const char*> steps(migrations().begin(), migrations().end());
    steps.push_back("CREATE TABLE half (id INTEGER) STRICT; SELECT nonsense");
    CHECK_THROWS_AS(migrate(store, steps), SQLite::Exception);
    CHECK(schema_version(db) == current_schema_version());
    CHECK_FALSE(db.tableExists("half"));
}

TEST_CASE(
    "a journal of version 1 gains print checks and the cut, and keeps its slices as they were") {
    TemporaryFolder folder;
    const Environment environment = fixed_environment();
    {
        SQLite::Database db = open_to_write(folder / "loafmark.db", no_wait);
        Store store(db, environment);
        migrate(store, migrations().first(1));
        CHECK(schema_version(db) == 1);
        db.exec(R"sql(
            INSERT INTO formula VALUES (1, 'f', 'Plain', 'plain', 'now');
            INSERT INTO formula_version VALUES (1, 'v', 1, 1, NULL, 'now');
            INSERT INTO bake_day VALUES (1, 'd', 1, '2026-03-01', NULL, 'now');
            INSERT INTO bake VALUES (1, 'b', 1, 1, 'Old', NULL, NULL, NULL, NULL, 'now');
            INSERT INTO loaf VALUES (1, 'l', 1, 1, NULL, NULL, NULL, NULL, 'now');
            INSERT INTO photo VALUES (1, printf('%064d', 7), '.jpg', 3, 'now');
            INSERT INTO slice VALUES (1, 's', 1, 1, 'a.jpg', 1, 'near the heel', NULL, 4, 'now');
        )sql");
    }
    Journal journal = Journal::open(folder.path(), environment);
    const Slice slice = journal.slice(SliceId{1}).slice;
    CHECK(slice.place == "near the heel");
    CHECK_FALSE(slice.cut);
    CHECK(slice.since_oven == Hours(4));
    CHECK(journal.print_checks().empty());
    journal.keep_print_check(TargetKind::a4_mat, Millimetres(98.7));
    CHECK(journal.print_checks().size() == 1);
}

TEST_CASE("a journal of version 5 that reads US units reads Fahrenheit") {
    TemporaryFolder folder;
    const Environment environment = fixed_environment();
    {
        SQLite::Database db = open_to_write(folder / "loafmark.db", no_wait);
        Store store(db, environment);
        migrate(store, migrations().first(5));
        db.exec("UPDATE kitchen SET units = 'us', scale_step_g = 5");
    }
    const Journal journal = Journal::open(folder.path(), environment);
    CHECK(journal.kitchen().facts.temperatures == "F");
    CHECK(journal.kitchen().facts.scale_step == Grams(5));
}

TEST_CASE("the journal of a newer program is refused and left alone") {
    ExampleJournal example;
    {
        SQLite::Database db((example.path / "loafmark.db").string(), SQLite::OPEN_READWRITE);
        db.exec("PRAGMA user_version = 1000");
    }
    const std::string message =
        "the journal " + example.path.string() +
        " was written by a newer Loafmark (version 1000 of its database; this one knows up to " +
        std::to_string(current_schema_version()) + ")";
    CHECK(message_of([&] { (void)Journal::open(example.path); }) == message);
    CHECK(message_of([&] { (void)Journal::open_for_reading(example.path); }) == message);
    SQLite::Database db((example.path / "loafmark.db").string());
    CHECK(schema_version(db) == 1000);
}

TEST_CASE("another program's database is refused") {
    TemporaryFolder folder;
    {
        SQLite::Database db((folder / "loafmark.db").string(),
                            SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        db.exec("CREATE TABLE contacts (name TEXT)");
    }
    CHECK(message_of([&] { (void)Journal::open(folder.path()); }) ==
          (folder / "loafmark.db").string() + " is not a journal of Loafmark");
    TemporaryFolder other;
    write_text(other / "loafmark.db", "my notes about bread, " + std::string(5000, '.'));
    CHECK(message_of([&] { (void)Journal::open(other.path()); }).find("is damaged") !=
          std::string::npos);
}

TEST_CASE("every table is strict and every reference has an index") {
    ExampleJournal example;
    SQLite::Database db((example.path / "loafmark.db").string());
    SQLite::Statement loose(db,
                            "SELECT name FROM pragma_table_list WHERE schema = 'main' AND "
                            "type = 'table' AND NOT strict AND name NOT LIKE 'sqlite_%'");
    std::string names;
    while (loose.executeStep())
        names += loose.getColumn(0).getString() + " ";
    CHECK(names == "");
    // A reference without an index, primary keys counted, makes a search read the whole table.
    // There is one kitchen.
    SQLite::Statement bare(
        db,
        "SELECT t.name || '.' || f.\"from\" FROM pragma_table_list AS t, "
        "pragma_foreign_key_list(t.name) AS f WHERE t.schema = 'main' AND NOT EXISTS ("
        "SELECT 1 FROM pragma_index_list(t.name) AS i, pragma_index_info(i.name) AS c "
        "WHERE c.seqno = 0 AND c.name = f.\"from\") AND NOT EXISTS (SELECT 1 FROM "
        "pragma_table_info(t.name) AS c WHERE c.name = f.\"from\" AND c.pk = 1)");
    std::string unindexed;
    while (bare.executeStep())
        unindexed += bare.getColumn(0).getString() + " ";
    CHECK(unindexed == "bake_day.kitchen ");
}

TEST_CASE("equal seeds and clocks give equal journals, different seeds different uids") {
    const auto uids = [](std::uint64_t seed) {
        TemporaryFolder folder;
        Environment environment = fixed_environment();
        environment.random_number = [engine = std::mt19937_64(seed)]() mutable { return engine(); };
        Journal journal = Journal::open(folder.path(), environment);
        (void)journal.add_flour(new_flour("Emmer"));
        SQLite::Database db((folder / "loafmark.db").string());
        return text_of(db, "SELECT kitchen.uid || ' ' || flour.uid FROM kitchen, flour");
    };
    CHECK(uids(1) == uids(1));
    CHECK(uids(1) != uids(2));
    // RFC 4122, section 4.1: version 4 in the 13th digit, variant 10 in the 17th.
    const std::string uid = uids(1).substr(0, 36);
    CHECK(uid[14] == '4');
    CHECK(std::string("89ab").find(uid[19]) != std::string::npos);
    CHECK(uids(1).substr(37) != uid);
}

TEST_CASE("a journal of version 2 keeps what its bags hold, whatever was drawn on them") {
    TemporaryFolder folder;
    const Environment environment = fixed_environment();
    {
        SQLite::Database db = open_to_write(folder / "loafmark.db", no_wait);
        Store store(db, environment);
        migrate(store, migrations().first(2));
        db.exec(R"sql(
            INSERT INTO flour VALUES (1, 'w', 'White', 'white', NULL, NULL, NULL, NULL, NULL, NULL,
                                      'now');
            INSERT INTO bag VALUES (1, 'g', 1, NULL, NULL, NULL, NULL, 5000, 3000, NULL, NULL,
                                    'now');
            INSERT INTO formula VALUES (1, 'f', 'Plain', 'plain', 'now');
            INSERT INTO formula_version VALUES (1, 'v', 1, 1, NULL, 'now');
            INSERT INTO bake_day VALUES (1, 'd', 1, '2026-03-01', NULL, 'now');
            INSERT INTO bake VALUES (1, 'b', 1, 1, 'Old', NULL, NULL, NULL, NULL, 'now');
            INSERT INTO mixed_amount VALUES (1, 1, 'flour', 'White', 1, 1, 500, 0, 1);
            INSERT INTO loaf VALUES (1, 'l', 1, 1, NULL, NULL, NULL, NULL, 'now');
        )sql");
    }
    const Journal journal = Journal::open(folder.path(), environment);
    CHECK(journal.bag(BagId{1}).left == Grams(3000));
    CHECK(journal.bake(BakeId{1}).bake.facts == BakeFacts{});
    CHECK(journal.kitchen().tins.empty());
}
