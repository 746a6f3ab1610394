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

// Water = 3 x dough - flour - room - friction holds on either scale: 3 x 77 - 70 - 70 - 9 = 82 F.
TEST_CASE(
    "a kitchen that reads Fahrenheit sees no Celsius at the bench, and its files no Fahrenheit") {
    const Kitchen kitchen;
    add_country(kitchen);
    kitchen.done({"kitchen", "set", "--temperatures", "F"});
    const std::string sheet =
        kitchen.done({"formula", "sheet", "country", "--dough", "900g", "--dough-temperature",
                      "77F", "--room", "70F", "--friction", "9F"});
    CHECK(holds(sheet, "Water at 82 °F for a dough of 77 °F (mixing taken as 9 °F)"));
    CHECK_FALSE(holds(sheet, "°C"));
    kitchen.done({"bake", "add", "--formula", "country", "--dough", "900g", "--room", "70F",
                  "--dough-temperature", "77F", "--core", "205F", "--step", "bake=45min@446F"});
    const std::string shown = kitchen.done({"bake", "show", "last"});
    for (const char* fact : {"70 °F", "77 °F", "205 °F", "446 °F"})
        CHECK(holds(shown, fact));
    CHECK_FALSE(holds(shown, "°C"));
    kitchen.done({"export", "-o", "all.json"});
    const auto exported = nlohmann::json::parse(kitchen.read("all.json"));
    CHECK(exported["bake"][0]["dough_temperature_c"].get<double>() == Approx(25));
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
    refused({"bake", "add"}, "no formula is named");
    refused({"bake", "add", "--formula", "country"}, "say how much dough or how much flour");
    refused({"kitchen", "set"}, "nothing is told of the kitchen");
    CHECK(found(kitchen).empty());
}

}  // namespace loafmark::end_to_end
