// What the program asks on a terminal.
#include <csignal>
#include <nlohmann/json.hpp>

#include "catch.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

void add_country(const Kitchen& kitchen) {
    kitchen.done({"flour", "add", "Strong white", "--grain", "wheat"});
    kitchen.done({"formula", "add", "Country", "--flour", "Strong white=100%", "--water", "66%",
                  "--salt", "2%", "--yeast", "1%"});
}

nlohmann::json found(const Kitchen& kitchen) {
    return nlohmann::json::parse(kitchen.done({"find", "--json"}))["bakes"];
}

}  // namespace

TEST_CASE("on a terminal a kitchen and a bake are asked for line by line") {
    const Kitchen kitchen;
    add_country(kitchen);
    const Finished added = kitchen.run_at_terminal(
        {"bake", "add"},
        "yes\nF\n1\nfresh yeast\n15\n4\nsmall tin=1800\n\nAda\n\n"  // the kitchen
        "\n9OO\n900\n\nsmall tin\n77\ntacky\nslowly\n820\n");
    INFO(added.out);
    CHECK(added.exit_code == 0);
    CHECK(holds(added.out, "'9OO' is not a mass; write it as 900g"));
    CHECK(holds(added.out, "Added bake 1: "));
    REQUIRE(found(kitchen).size() == 1);
    const std::string shown = kitchen.done({"bake", "show", "last"});
    for (const char* fact : {"77 °F", "tacky", "fresh yeast", "small tin", "820 g", "dent slowly"})
        CHECK(holds(shown, fact));
    const std::string csv = kitchen.done({"find", "--where", "dough_temperature 25..25", "--csv"});
    CHECK(holds(csv, "Country"));  // kept in Celsius
    const auto known = nlohmann::json::parse(kitchen.done({"kitchen", "show", "--json"}));
    CHECK(known["tins"][0]["volume_ml"] == 1800);
    CHECK(known["temperatures"] == "F");
}

TEST_CASE("Ctrl-D and Ctrl-C leave nothing half added") {
    const Kitchen kitchen;
    add_country(kitchen);
    const Finished ended = kitchen.run_at_terminal({"bake", "add"}, "no\n\n900\n\n\x04");
    INFO(ended.out);
    CHECK(ended.exit_code == 1);
    CHECK(holds(ended.out, "the answers end here; the bake was not added"));
    const Finished broken = kitchen.run_at_terminal({"bake", "add"}, "no\n\n900\n\n\x03");
    CHECK(broken.exit_code == 128 + SIGINT);
    CHECK(found(kitchen).empty());
    CHECK(kitchen.done({"undo", "--list"}).find("bake") == std::string::npos);
    kitchen.done({"check"});
}

TEST_CASE("without a terminal nothing is asked, and what is missing is said") {
    const Kitchen kitchen;
    add_country(kitchen);
    const auto refused = [&](const std::vector<std::string>& arguments, const std::string& what) {
        const Finished finished = kitchen.run(arguments);
        CHECK(finished.exit_code == 2);
        CHECK(finished.out.empty());
        CHECK(holds(finished.err, what));
    };
    refused({"bake", "add"}, "which formula was baked?");
    refused({"bake", "add", "--formula", "country"}, "say how much dough or how much flour");
    refused({"kitchen", "set"}, "nothing is told of the kitchen");
    CHECK(found(kitchen).empty());
}

}  // namespace loafmark::end_to_end
