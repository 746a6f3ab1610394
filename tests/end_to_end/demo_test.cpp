#include <nlohmann/json.hpp>

#include "catch.h"
#include "made_photo.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

// Sample bakes in samples/, in the form of sample-images/bakes.json.
void write_samples(const Kitchen& kitchen, int bakes) {
    std::filesystem::create_directory(kitchen / "samples");
    nlohmann::json list{{"schema", 1}, {"scenario", "Made up for a test."}};
    list["flours"] = {{{"name", "Emmer"}, {"grain", "emmer"}, {"protein_percent", 13.0}}};
    list["formulas"] = nlohmann::json::array();
    list["bakes"] = nlohmann::json::array();
    for (int i = 1; i <= bakes; ++i) {
        const std::string number = std::to_string(i);
        list["formulas"].push_back(
            {{"name", "Formula " + number},
             {"ingredients",
              {{{"kind", "flour"}, {"name", "Emmer"}, {"percent", 100}},
               {{"kind", "water"}, {"name", "water"}, {"percent", 64 + 4 * i}}}}});
        list["bakes"].push_back(
            {{"title", "Bake " + number},
             {"date", "2026-03-0" + number},
             {"formula", "Formula " + number},
             {"dough_g", 900},
             {"loaf", {{"shape", "tin"}, {"tin", "small"}, {"baked_g", 810}}},
             {"slice",
              {{"photo", number + ".jpg"}, {"thickness_mm", 15}, {"hours_since_oven", 6}}}});
        write_mat_photo(kitchen / ("samples/" + number + ".jpg"), 1, i);
    }
    kitchen.write("samples/bakes.json", list.dump());
}

std::size_t slices_in(const Kitchen& kitchen, const std::string& journal) {
    const auto found =
        nlohmann::json::parse(kitchen.done({"--journal", journal, "find", "--json"}));
    std::size_t slices = 0;
    for (const auto& bake : found["bakes"])
        slices += bake["slices"].size();
    return slices;
}

}  // namespace

TEST_CASE("the demo makes a journal and its report in a new folder, and touches no other") {
    const Kitchen kitchen;
    write_samples(kitchen, 2);
    const std::string text = kitchen.done({"demo", "my demo", "--samples", "samples"});
    INFO(text);
    CHECK(text.find("Wrote my demo/report.html (2 bakes).\n") != std::string::npos);
    CHECK(slices_in(kitchen, "my demo") == 2);
    CHECK(kitchen.read("my demo/report.html").find("Bake 2") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(kitchen / "journal"));
    const Finished again = kitchen.run({"demo", "my demo", "--samples", "samples"});
    CHECK(again.exit_code == 1);
    CHECK(again.err ==
          "loafmark: error: the folder my demo is not empty; name a new or empty folder\n");
}

TEST_CASE("a demo that was broken off is gone on with") {
    const Kitchen kitchen;
    write_samples(kitchen, 3);
    const std::vector<std::string> demo{"demo", "d", "--samples", "samples"};
    const Kitchen other;
    write_samples(other, 3);
    const auto took = other.run(demo).took;
    for (const double part : {0.05, 0.3, 0.6, 0.9})
        (void)kitchen.run_and_kill(
            demo,
            std::chrono::microseconds(static_cast<long>(part * static_cast<double>(took.count()))));
    if (std::filesystem::exists(kitchen / "d/demo-not-finished")) {
        const std::string text = kitchen.done(demo);
        CHECK(text.starts_with("Going on with the demo in d, which was broken off.\n"));
    }
    CHECK(slices_in(kitchen, "d") == 3);
    CHECK(std::filesystem::exists(kitchen / "d/report.html"));
    CHECK_FALSE(std::filesystem::exists(kitchen / "d/demo-not-finished"));
}

TEST_CASE("a folder without sample bakes, or with a broken list, is named") {
    const Kitchen kitchen;
    std::filesystem::create_directory(kitchen / "empty");
    const Finished none = kitchen.run({"demo", "d", "--samples", "empty"});
    CHECK(none.exit_code == 1);
    CHECK(none.err ==
          "loafmark: error: no sample bakes found (no bakes.json in empty); name the folder of the "
          "sample images with --samples DIR\n");
    kitchen.write("empty/bakes.json", R"({"schema": 2})");
    const Finished wrong = kitchen.run({"demo", "d", "--samples", "empty"});
    CHECK(wrong.exit_code == 1);
    CHECK(wrong.err ==
          "loafmark: error: not a list of sample bakes: empty/bakes.json (its schema is not 1); "
          "name the folder of the sample images with --samples DIR\n");
    CHECK_FALSE(std::filesystem::exists(kitchen / "d"));
}

}  // namespace loafmark::end_to_end
