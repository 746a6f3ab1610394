// Bags, the bench sheet, adjusting, blends, and what is refused there.
#include <nlohmann/json.hpp>

#include "catch.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

void set_up(const Kitchen& kitchen) {
    kitchen.done({"flour", "add", "White", "--grain", "wheat", "--grade", "white", "--protein",
                  "12%", "--protein-basis", "mill_14_percent_moisture"});
    kitchen.done({"flour", "add", "Rye", "--grain", "rye", "--grade", "wholemeal", "--protein",
                  "15%", "--protein-basis", "mill_14_percent_moisture"});
    kitchen.done({"formula", "add", "Plain", "--flour", "White=100%", "--water", "65%", "--salt",
                  "2%", "--yeast", "1%"});
}

void check_fails(const Kitchen& kitchen, const std::vector<std::string>& arguments, int exit_code,
                 const std::string& message) {
    const Finished finished = kitchen.run(arguments);
    CHECK(finished.err == "loafmark: error: " + message + "\n");
    CHECK(finished.out.empty());
    CHECK(finished.exit_code == exit_code);
}

double left_of(const Kitchen& kitchen, std::size_t bag) {
    const auto bags = nlohmann::json::parse(kitchen.done({"bag", "list", "--all", "--json"}));
    return bags["bags"][bag]["left_grams"].get<double>();
}

}  // namespace

TEST_CASE("stock falls with each bake, is corrected by weighing, and below nothing it is said") {
    const Kitchen kitchen;
    set_up(kitchen);
    CHECK(kitchen.done({"bag", "add", "white", "--mass", "1kg"}) ==
          "Added bag 1 of 'White', 1000 g.\n");
    kitchen.done({"bake", "add", "--formula", "plain", "--flour", "600g"});
    CHECK(left_of(kitchen, 0) == Approx(400));
    const Finished over = kitchen.run({"bake", "add", "--formula", "plain", "--flour", "600g"});
    CHECK(over.exit_code == 0);
    CHECK(over.err ==
          "Bag 1 of 'White' would hold -200 g now. Weigh it: loafmark bag edit 1 --left 0g, or add "
          "the new bag: loafmark bag add 'White'\n");
    kitchen.done({"bag", "edit", "1", "--left", "350g"});
    CHECK(left_of(kitchen, 0) == Approx(350));
    check_fails(kitchen, {"bag", "edit", "7", "--left", "1kg"}, 1,
                "there is no bag 7; loafmark bag list --all shows all");
}

TEST_CASE("the bench sheet tells what the bowl weighs after each addition") {
    const Kitchen kitchen;
    set_up(kitchen);
    const std::string sheet = kitchen.done({"formula", "sheet", "plain", "--flour", "500g"});
    INFO(sheet);
    CHECK(sheet.find("dough  White  500 g                500 g\n"
                     "dough  water  325 g                825 g\n"
                     "dough  yeast    5 g                830 g\n"
                     "dough  salt    10 g                840 g\n") != std::string::npos);
    CHECK(sheet.find("do not eat or taste") != std::string::npos);
    CHECK(sheet.find("Contains gluten (wheat): unsafe in coeliac disease.") != std::string::npos);
}

TEST_CASE("water for a dough temperature: ice below the tap, a warning above 40 C") {
    const Kitchen kitchen;
    set_up(kitchen);
    const auto sheet = [&](const char* dough, const char* room, const char* friction) {
        return kitchen.done({"formula", "sheet", "plain", "--flour", "1kg", "--dough-temperature",
                             dough, "--room", room, "--friction", friction, "--tap", "18C"});
    };
    // 3 x 24 - 22 - 22 - 22 = 6 C; of 650 g from a tap of 18 C, 650 x 12 / 98 are ice.
    CHECK(sheet("24C", "22C", "22K").find("Water at 6 °C") != std::string::npos);
    CHECK(sheet("24C", "22C", "22K").find("79.6 g of ice") == std::string::npos);
    CHECK(sheet("24C", "22C", "22K").find("That is 80 g of ice and 570 g of tap water.") !=
          std::string::npos);
    CHECK(sheet("28C", "16C", "4K").find("Above 40 °C water harms yeast") != std::string::npos);
}

TEST_CASE("adjusting tells what to add, changes nothing, and counts it when it is done") {
    const Kitchen kitchen;
    set_up(kitchen);
    kitchen.done({"bake", "add", "--formula", "plain", "--flour", "500g"});
    CHECK(kitchen.done({"bake", "adjust", "last", "--to", "68%"}) ==
          "Bake 1 is at 65 %: add 15 g of water for 68 %. When it is in, say the same with "
          "--done.\n");
    CHECK(kitchen.done({"bake", "adjust", "last", "--to", "65%"}) ==
          "Bake 1 is at 65 %: nothing to add.\n");
    CHECK(kitchen.done({"bake", "adjust", "last", "--to", "68%", "--done"}) ==
          "Added 15 g of water to bake 1: hydration as mixed 68 %.\n");
    CHECK(kitchen.done({"bake", "adjust", "last", "--to", "62.96296296%"}) ==
          "Bake 1 is at 68 %: add 40 g of White for 63 %. When it is in, say the same with "
          "--done.\n");
    check_fails(kitchen, {"bake", "adjust", "last", "--to", "720%"}, 2,
                "that makes a hydration of 720 %, which few doughs have; put the amounts right or, "
                "if it is meant, add --sure");
}

TEST_CASE("a bake like another takes what it had, but for what is said otherwise") {
    const Kitchen kitchen;
    set_up(kitchen);
    kitchen.done({"bake", "add", "--formula", "plain", "--flour", "500g", "--tin", "small tin",
                  "--mixed-by", "hand", "--handling", "slack"});
    CHECK(kitchen.done({"bake", "add", "--like", "last", "--flour", "rye", "--with", "water=400g"})
              .find("Plain with Rye, hydration as mixed 80 %") != std::string::npos);
    const std::string shown = kitchen.done({"bake", "show", "last"});
    INFO(shown);
    CHECK(shown.find("small tin") != std::string::npos);
    CHECK(shown.find("hand") != std::string::npos);
    CHECK(shown.find("slack") == std::string::npos);
    const auto found = nlohmann::json::parse(kitchen.done({"bake", "show", "last", "--json"}));
    CHECK(found["bakes"][0]["flours"][0]["name"] == "Rye");
}

TEST_CASE("steps and loaves are noted later; impossible times and cores are refused") {
    const Kitchen kitchen;
    set_up(kitchen);
    kitchen.done({"bake", "add", "--formula", "plain", "--dough", "900g", "--date", "2026-03-01",
                  "--step", "bulk=3h"});
    CHECK(kitchen.done({"bake", "mark", "last", "shaped", "--at", "9:05"}) ==
          "Bake 1: shape, 2026-03-01 09:05.\n");
    kitchen.done({"bake", "edit", "last", "--baked", "783g", "--core", "205F", "--volume", "3.2l",
                  "--dough-height", "50mm", "--proof-height", "90mm"});
    const std::string shown = kitchen.done({"bake", "show", "last"});
    INFO(shown);
    CHECK(shown.find("bake loss 13 %") != std::string::npos);
    CHECK(shown.find("specific volume 4.09 mL/g") != std::string::npos);
    CHECK(shown.find("proof rise x1.8") != std::string::npos);
    CHECK(shown.find("core 96.1 °C") != std::string::npos);
    CHECK(shown.find("bulk fermentation") != std::string::npos);
    check_fails(kitchen, {"bake", "mark", "last", "bake", "--at", "25:00"}, 2,
                "--at '25:00' is no time of day; write it like 18:20, from 00:00 to 23:59");
    check_fails(kitchen, {"bake", "edit", "last", "--core", "205C"}, 2,
                "--core '205C' cannot be: no core passes 100 C, since it holds water; did you mean "
                "205F?");
    check_fails(kitchen, {"bake", "edit", "last", "--loaf", "3", "--baked", "780g"}, 1,
                "bake 1 has no loaf 3; it has 1");
}

TEST_CASE("no blend gains strength by rye, and what cannot be is answered with the reason") {
    const Kitchen kitchen;
    set_up(kitchen);
    kitchen.done({"bag", "add", "white", "--mass", "1.2kg"});
    const std::string blend =
        kitchen.done({"blend", "white", "--with", "rye", "--need", "1kg", "--strength", "9%"});
    INFO(blend);
    CHECK(blend.find("White   75 %  750 g") != std::string::npos);
    CHECK(blend.find("Protein of all flours together: 12.8 %") != std::string::npos);
    check_fails(kitchen, {"blend", "white", "--with", "rye", "--need", "1kg", "--strength", "13%"},
                1,
                "no such blend: the strongest blend within stock and limits reaches 12 %, and 13 % "
                "is wished; wish for less, allow more, or count the bags again (loafmark bag "
                "list)");
    check_fails(kitchen,
                {"blend", "white", "--with", "rye", "--need", "1.5kg", "--most", "rye=10%"}, 1,
                "no such blend: stock and limits allow 1350 g of the 1500 g needed (White 1200 g, "
                "Rye 150 g); wish for less, allow more, or count the bags again (loafmark bag "
                "list)");
}

TEST_CASE("an old notebook is read by a mapping of its columns, all of it or none") {
    const Kitchen kitchen;
    set_up(kitchen);
    kitchen.write("notebook.csv",
                  "Tag;Teig (g);Rezept;Wetter;Notiz\r\n"
                  "2026-03-01;900;Plain;Regen;\"erster Versuch; \xF0\x9F\x8D\x9E\"\r\n"
                  "2026-03-02;950,5;Plain;Sonne;\r\n");
    std::vector<std::string> read{"bake",           "read",     "notebook.csv",     "--column",
                                  "Tag=date",       "--column", "Teig (g)=dough:g", "--column",
                                  "Rezept=formula", "--column", "Notiz=note"};
    check_fails(kitchen, read, 1,
                "notebook.csv, the column 'wetter' is nothing that is known of a bake; say what it "
                "means with --column 'wetter=note', or that it is to be passed over with --column "
                "'wetter='");
    read.insert(read.end(), {"--column", "Wetter="});
    CHECK(kitchen.done(read) == "Added 2 bakes.\n");
    CHECK(kitchen.done({"bake", "show", "1 March 2026"}).find("erster Versuch; \xF0\x9F\x8D\x9E") !=
          std::string::npos);
    check_fails(
        kitchen, read, 1,
        "notebook.csv, line 2 seems to be bake 1 already; nothing was added; take it out of "
        "the file, or say --again");
}

TEST_CASE("a file of which one bake cannot be is not read at all, and the place is told") {
    const Kitchen kitchen;
    set_up(kitchen);
    kitchen.write("bakes.json", R"({"bakes": [
        {"formula": "plain", "date": "2026-03-01", "dough": "900g", "with": ["water=340g"]},
        {"formula": "plain", "date": "2026-03-02", "dough": 900}]})");
    check_fails(kitchen, {"bake", "read", "bakes.json"}, 1,
                "bakes.json, bake 2: --dough '900' is not a mass; write it as 900g");
    CHECK(kitchen.done({"bake", "list"}).starts_with("No bakes yet"));
    kitchen.write("bakes.json",
                  R"([{"formula": "plain", "date": "2026-03-01", "dough": "900g",
                       "with": ["water=340g", "salt=9g"], "loaves": "2", "baked": ["380g", "382g"]}])");
    CHECK(kitchen.done({"bake", "read", "bakes.json", "--dry-run"}) ==
          "1 bake could be added; nothing was.\n");
    CHECK(kitchen.done({"bake", "read", "bakes.json"}) == "Added 1 bake.\n");
    CHECK(kitchen.done({"bake", "show", "last"}).find("382 g") != std::string::npos);
}

TEST_CASE("versions are compared, and a tin's dough follows its volume") {
    const Kitchen kitchen;
    set_up(kitchen);
    kitchen.done({"formula", "add", "Plain", "--new-version", "--flour", "White=100%", "--water",
                  "68%", "--salt", "2%", "--other", "milk=10%"});
    CHECK(kitchen.done({"formula", "diff", "plain"}) ==
          "Plain        version 1  version 2   change\n"
          "water             65 %       68 %     +3 %\n"
          "milk                 -       10 %      new\n"
          "yeast              1 %          -     gone\n"
          "= hydration       65 %     76.8 %  +11.8 %\n"
          "= dough          168 %      180 %    +12 %\n");
    kitchen.done({"kitchen", "set", "--tin", "small tin=1.8l"});
    CHECK(kitchen.done({"formula", "scale", "plain", "--tin", "SMALL tin"})
              .find("0.5 g of dough per ml (common practice, no source)") != std::string::npos);
    check_fails(kitchen, {"formula", "scale", "plain", "--tin", "big"}, 1,
                "the kitchen has no tin 'big'; tell of it: loafmark kitchen set --tin 'big=1.8l'");
}

}  // namespace loafmark::end_to_end
