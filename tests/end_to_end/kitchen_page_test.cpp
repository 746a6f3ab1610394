// Runs the commands of docs/kitchen.md and docs/ten-days.md as they stand, so that the pages stay
// true.
#include <filesystem>

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

TEST_CASE("every command of the page on ten days works as it stands") {
    const auto commands = commands_of(LOAFMARK_SOURCE_DIR "/docs/ten-days.md");
    CHECK(commands.size() == 65);
    const Kitchen kitchen;
    for (const char* photo : {"trial-wheat-1.jpg", "trial-spelt-1.jpg", "trial-khorasan-1.jpg",
                              "trial-wheat-3.jpg", "trial-spelt-2.jpg", "trial-khorasan-2.jpg"})
        std::filesystem::copy_file(
            std::filesystem::path(LOAFMARK_SOURCE_DIR "/sample-images") / photo, kitchen / photo);
    std::string all;
    for (const auto& command : commands)
        all += kitchen.done(command);
    INFO(all);
    CHECK(all.find("hydration as mixed 66 %") != std::string::npos);
    CHECK(all.find("Flour, against your bags:") != std::string::npos);
    CHECK(all.find("Sitting 1 is over. Which was which:") != std::string::npos);
    CHECK(all.find("Spelt white: fair: 2 bakes on 2 days, each beside the control.") !=
          std::string::npos);
    CHECK(all.find("discard the whole loaf") != std::string::npos);
    CHECK(kitchen.read("key.txt").find("Khorasan, first day") != std::string::npos);
    CHECK(all.find("The journal is whole") != std::string::npos);
    CHECK(kitchen.done({"find", "--since", "2026-03-14"}).find("Wheat, new bag") !=
          std::string::npos);
    const std::string page = kitchen.read("ten-days.html");
    CHECK(page.find("Two new flours") != std::string::npos);
    CHECK(page.find("good with cheese") != std::string::npos);
    const std::string sheet = kitchen.read("flours.html");
    CHECK(sheet.find("white spelt") != std::string::npos);
    CHECK(sheet.find("Spelt white") == std::string::npos);  // kinds, never names
}

}  // namespace loafmark::end_to_end
