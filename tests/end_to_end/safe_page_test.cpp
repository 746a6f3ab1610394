// Runs the commands of docs/safe.md as they stand, so that the page stays true.
#include "catch.h"
#include "page_commands.h"
#include "process.h"

namespace loafmark::end_to_end {

TEST_CASE("every command of the page on safety works as it stands") {
    const auto commands = commands_of(LOAFMARK_SOURCE_DIR "/docs/safe.md");
    CHECK(commands.size() >= 20);
    const Kitchen kitchen;
    std::string all;
    for (const auto& command : commands)
        all += kitchen.done(command);
    INFO(all);
    CHECK(all.find("The journal is whole") != std::string::npos);
    CHECK(all.find("Nothing new: all of it is here already.") != std::string::npos);
}

}  // namespace loafmark::end_to_end
