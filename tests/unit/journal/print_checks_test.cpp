#include <SQLiteCpp/Database.h>

#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

TEST_CASE("what a target's line measures is kept for that target until it is told anew") {
    ExampleJournal example;
    CHECK(example.journal.print_checks().empty());
    example.journal.keep_print_check(TargetKind::a4_mat, Millimetres(98.7));
    example.journal.keep_print_check(TargetKind::strip, Millimetres(100.5));
    example.journal.keep_print_check(TargetKind::a4_mat, Millimetres(99.1));
    const PrintChecks kept = Journal::open_for_reading(example.path).print_checks();
    REQUIRE(kept.size() == 2);
    CHECK(kept.at(TargetKind::a4_mat) == PrintCheck{Millimetres(99.1), "2026-03-01T18:20:00Z"});
    CHECK(kept.at(TargetKind::strip).line == Millimetres(100.5));
}

TEST_CASE("a print check can be forgotten, once") {
    ExampleJournal example;
    example.journal.keep_print_check(TargetKind::letter_mat, Millimetres(98.7));
    CHECK_FALSE(example.journal.forget_print_check(TargetKind::a4_mat));
    CHECK(example.journal.forget_print_check(TargetKind::letter_mat));
    CHECK_FALSE(example.journal.forget_print_check(TargetKind::letter_mat));
    CHECK(example.journal.print_checks().empty());
}

TEST_CASE("a line that no printer makes of 100 mm is refused") {
    ExampleJournal example;
    for (const double mm : {9.87, 151.0})
        CHECK(message_of([&] {
                  example.journal.keep_print_check(TargetKind::a4_mat, Millimetres(mm));
              }).starts_with("the printed 100 mm line measures between 50 and 150 mm, not "));
    CHECK(example.journal.print_checks().empty());
}
