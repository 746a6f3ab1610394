// Runs the commands of docs/kitchen.md as they stand, so that the page stays true.
#include "catch.h"
#include "page_commands.h"
#include "process.h"

namespace loafmark::end_to_end {
TEST_CASE("every command of the page on the kitchen works as it stands") {
    const auto commands = commands_of(LOAFMARK_SOURCE_DIR "/docs/kitchen.md");
    CHECK(commands.size() == 30);
    const Kitchen kitchen;
    std::string all;
    for (const auto& command : commands)
        all += kitchen.done(command);
    INFO(all);
    // 77 % as it was adjusted to, the salt's turn in the bowl, the learnt friction, the blend.
    CHECK(all.find("hydration as mixed 77 %") != std::string::npos);
    CHECK(all.find("the bowl now weighs") != std::string::npos);
    CHECK(all.find("mixing adds 5 K by your 1 bake") != std::string::npos);
    CHECK(all.find("Strength 10 %") != std::string::npos);
}

}  // namespace loafmark::end_to_end
