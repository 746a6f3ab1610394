#include "commands/program.h"

#include "catch.h"
#include "commands/failure.h"
#include "commands/messages.h"
#include "fakes.h"

namespace loafmark::commands {
namespace {

std::string refusal(const std::vector<std::string>& words) {
    Program program;
    try {
        (void)program.parse(words);
    } catch (const UsageError& error) {
        return message_of(error);
    }
    return "accepted";
}

}  // namespace

TEST_CASE("command lines that are right are accepted without touching a file") {
    const auto words = GENERATE(values<std::vector<std::string>>(
        {{"measure", "missing.jpg", "--json"},
         {"--journal", "nowhere", "find", "--flour", "emmer", "--hydration", "66..74"},
         {"find", "--where", "openness 0.3..", "--where", "loaf_height ..90", "--csv"},
         {"slice", "add", "last", "a.jpg", "b.jpg", "--since-oven", "1h10m"},
         {"bake", "show", "report"},
         {"trend", "cell_diameter.area.d50", "--by", "date"},
         {"report", "-o", "page.html", "--journal", "nowhere"}}));
    CHECK(refusal(words) == "accepted");
    CHECK_FALSE(std::filesystem::exists("nowhere"));
}

TEST_CASE("help and version are texts to print") {
    Program program;
    const auto version = program.parse({"--version"});
    REQUIRE(version);
    CHECK(version->starts_with("loafmark "));
    Program again;
    const auto help = again.parse({"flour", "add", "--help"});
    REQUIRE(help);
    CHECK(help->find("Examples:") != std::string::npos);
}

TEST_CASE("near misses of commands and options are suggested") {
    CHECK(refusal({"fluor", "list"}) ==
          "unknown command 'fluor'; did you mean 'flour'? (loafmark --help lists them)");
    CHECK(refusal({"flour", "lst"}) ==
          "unknown command 'lst'; did you mean 'list'? (loafmark flour --help lists them)");
    CHECK(refusal({"find", "--hidration=66..74"}) ==
          "unknown option '--hidration'; did you mean '--hydration'? (loafmark find --help lists "
          "them)");
}

TEST_CASE("the journal's folder follows the option, then the environment") {
    FakeWorld world;
    const auto folder = [&](std::optional<std::string> option) {
        return journal_folder(option, world.context()).string();
    };
    CHECK_THROWS_AS(folder({}), UsageError);
    world.variables["HOME"] = "/home/b";
    CHECK(folder({}) == "/home/b/.local/share/loafmark");
    world.variables["XDG_DATA_HOME"] = "/data";
    CHECK(folder({}) == "/data/loafmark");
    world.variables["LOAFMARK_JOURNAL"] = "/journal";
    CHECK(folder({}) == "/journal");
    CHECK(folder("here") == "here");
}

}  // namespace loafmark::commands
