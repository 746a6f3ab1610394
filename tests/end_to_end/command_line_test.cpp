#include "catch.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

void check_refused(const std::vector<std::string>& arguments, const std::string& message) {
    const Kitchen kitchen;
    const Finished finished = kitchen.run(arguments);
    CHECK(finished.err == "loafmark: error: " + message + "\n");
    CHECK(finished.out.empty());
    CHECK(finished.exit_code == 2);
    CHECK_FALSE(std::filesystem::exists(kitchen / "journal"));
}

}  // namespace

TEST_CASE("version and help go to stdout and end with 0") {
    const Kitchen kitchen;
    CHECK(kitchen.done({"--version"}).starts_with("loafmark 0."));
    CHECK(kitchen.done({"--help"}).find("Exit codes:") != std::string::npos);
}

TEST_CASE("every command's help says what it is for and shows examples that name it") {
    const auto [words, verb] = GENERATE(
        table<std::vector<std::string>, std::string>({{{"target"}, "target"},
                                                      {{"measure"}, "measure"},
                                                      {{"flour"}, "flour"},
                                                      {{"flour", "add"}, "flour add"},
                                                      {{"flour", "list"}, "flour list"},
                                                      {{"flour", "show"}, "flour show"},
                                                      {{"formula"}, "formula"},
                                                      {{"formula", "add"}, "formula add"},
                                                      {{"formula", "list"}, "formula list"},
                                                      {{"formula", "show"}, "formula show"},
                                                      {{"formula", "scale"}, "formula scale"},
                                                      {{"bake"}, "bake"},
                                                      {{"bake", "add"}, "bake add"},
                                                      {{"bake", "list"}, "bake list"},
                                                      {{"bake", "show"}, "bake show"},
                                                      {{"slice"}, "slice"},
                                                      {{"slice", "add"}, "slice add"},
                                                      {{"slice", "show"}, "slice show"},
                                                      {{"slice", "remeasure"}, "slice remeasure"},
                                                      {{"find"}, "find"},
                                                      {{"trend"}, "trend"},
                                                      {{"report"}, "report"},
                                                      {{"demo"}, "demo"}}));
    const Kitchen kitchen;
    std::vector<std::string> arguments = words;
    arguments.push_back("--help");
    const std::string help = kitchen.done(arguments);
    INFO(help);
    CHECK(help.find("Usage: loafmark " + verb) != std::string::npos);
    CHECK(help.find("Examples:\n  loafmark " + verb) != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(kitchen / "journal"));
}

TEST_CASE("a wrong command line is refused with 2, one message and nothing touched") {
    check_refused({}, "a command is missing behind 'loafmark'; loafmark --help lists them");
    check_refused({"flour"},
                  "a command is missing behind 'loafmark flour'; loafmark flour --help lists them");
    check_refused({"mesure", "a.jpg"},
                  "unknown command 'mesure'; did you mean 'measure'? (loafmark --help lists them)");
    check_refused({"measure", "a.jpg", "--jsn"},
                  "unknown option '--jsn'; did you mean '--json'? (loafmark measure --help lists "
                  "them)");
    check_refused({"flour", "list", "everything"},
                  "'everything' is one word too many; put names of several words in quotes "
                  "(loafmark flour list --help)");
    check_refused({"measure"},
                  "PHOTO is required; loafmark measure --help shows how it is written");
    check_refused({"measure", "a.jpg", "--thickness", "15"},
                  "--thickness '15' is not a length; write it as 15mm");
    check_refused({"measure", "a.jpg", "--base", "1,2,3"},
                  "--base '1,2,3' is no base; write auto, bottom or two points in pixels such as "
                  "120,1890,2200,1875");
    check_refused({"target", "--paper", "a5", "-o", "mat.pdf"},
                  "--paper 'a5' is no target; write a4, letter or strip");
    check_refused({"target", "--paper", "a4", "-o", "mat.png"},
                  "--output 'mat.png' is neither PDF nor SVG; write a name such as mat.pdf");
    check_refused({"trend", "opennes"},
                  "MEASURE 'opennes' is no measure; did you mean 'openness'?");
    check_refused({"find", "--where", "openness"},
                  "--where 'openness' is not a condition; write it like 'openness 0.3..'");
    check_refused({"find", "--hydration", "7O..80"},
                  "--hydration '7O..80' is not a range; write it like 66..74, 66.. or ..74");
    check_refused({"find", "--hidration", "66..74"},
                  "unknown option '--hidration'; did you mean '--hydration'? (loafmark find --help "
                  "lists them)");
}

TEST_CASE("the journal's folder is --journal, else LOAFMARK_JOURNAL, else below XDG_DATA_HOME") {
    const Kitchen kitchen;
    kitchen.done({"--journal", "first", "flour", "list"});
    CHECK(std::filesystem::exists(kitchen / "first/loafmark.db"));
    kitchen.done({"flour", "list", "--journal", "second"});
    CHECK(std::filesystem::exists(kitchen / "second/loafmark.db"));
    CHECK_FALSE(std::filesystem::exists(kitchen / "journal"));
    kitchen.done({"flour", "list"});
    CHECK(std::filesystem::exists(kitchen / "journal/loafmark.db"));
    Kitchen other;
    other.unset_journal();
    other.set("XDG_DATA_HOME=" + (other / "data").string());
    other.done({"flour", "list"});
    CHECK(std::filesystem::exists(other / "data/loafmark/loafmark.db"));
    Kitchen homeless;
    homeless.unset_journal();
    const Finished finished = homeless.run({"flour", "list"});
    CHECK(finished.exit_code == 2);
    CHECK(finished.err ==
          "loafmark: error: no folder for the journal: HOME is not set; name one with --journal "
          "DIR\n");
}

TEST_CASE("a target is written as PDF and as SVG, whole or not at all") {
    const Kitchen kitchen;
    CHECK(kitchen.done({"target", "--paper", "a4", "-o", "mat.pdf"}) ==
          "Wrote mat.pdf. Print it at 100 % and rule its 100 mm line once.\n");
    CHECK(kitchen.read("mat.pdf").starts_with("%PDF"));
    kitchen.done({"target", "--paper", "strip", "-o", "strip.svg"});
    CHECK(kitchen.read("strip.svg").find("<svg") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(kitchen / "journal"));  // wants none
    check_refused({"target", "-o", "mat.pdf"},
                  "which target?; name it with --paper a4, letter or strip");
    check_refused({"target", "--paper", "strip"},
                  "what about the strip?; write it with -o mat.pdf, or keep what its 100 mm line "
                  "measures with --print-check 98.7mm");
    check_refused({"target", "--paper", "a4", "--print-check", "9.87mm"},
                  "--print-check '9.87mm' is no print of a 100 mm line; rule it and write 98.7mm");
    const Finished finished = kitchen.run({"target", "--paper", "a4", "-o", "no/such/mat.pdf"});
    CHECK(finished.exit_code == 1);
    CHECK(finished.err ==
          "loafmark: error: cannot write no/such/mat.pdf (No such file or directory); choose a "
          "folder that exists and may be written to\n");
}

}  // namespace loafmark::end_to_end
