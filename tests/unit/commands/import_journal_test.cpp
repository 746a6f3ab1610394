#include "commands/import_journal.h"

#include <sstream>

#include "catch.h"
#include "fakes.h"

namespace loafmark::commands {

TEST_CASE("photos that an import did not find come with a second one, as it says") {
    journal::ExampleJournal theirs;
    (void)theirs.bake_with_slice({2026, 3, 1}, 0.31);
    std::ostringstream json;
    (void)theirs.journal.export_to(json, theirs.folder / "copies");
    journal::write_text(theirs.folder / "theirs.json", json.str());

    journal::TemporaryFolder folder;
    journal::Journal mine =
        journal::Journal::open(folder / "journal", journal::fixed_environment());
    ImportOptions options;
    options.document = theirs.folder / "theirs.json";
    FakeWorld world;
    CHECK(run(options, mine, world.context()) == Outcome::done);
    const std::string beside = (theirs.folder / "theirs-photos").string();
    const std::string told = world.out.str();
    INFO(told);
    CHECK(told.find("1 photo was not in " + beside +
                    ": their bakes are here without them. To bring them, export with --photos DIR "
                    "and import again with --photos DIR.\n") != std::string::npos);

    options.photos = theirs.folder / "copies";
    CHECK(run(options, mine, world.context()) == Outcome::done);
    CHECK(world.out.str().find("Photos: 1\n") != std::string::npos);
}

}  // namespace loafmark::commands
