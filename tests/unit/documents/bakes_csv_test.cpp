#include "documents/bakes_csv.h"

#include <algorithm>
#include <map>
#include <sstream>

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::documents;

namespace {

std::vector<std::string> fields_of(const std::string& row) {
    std::vector<std::string> fields{""};
    for (const char c : row)
        if (c == ',')
            fields.emplace_back();
        else if (c != '\r')
            fields.back() += c;
    return fields;
}

// The rows below the headings, by heading; of texts without commas.
std::vector<std::map<std::string, std::string>> rows_of(const std::string& csv) {
    std::istringstream lines(csv);
    std::string line;
    std::getline(lines, line);
    const auto headings = fields_of(line);
    std::vector<std::map<std::string, std::string>> rows;
    while (std::getline(lines, line)) {
        const auto fields = fields_of(line);
        REQUIRE(fields.size() == headings.size());
        for (std::size_t i = rows.emplace_back().size(); i < fields.size(); ++i)
            rows.back()[headings[i]] = fields[i];
        REQUIRE(rows.back().size() == headings.size());
    }
    return rows;
}

}  // namespace

TEST_CASE("a loaf's row holds its length and what was weighed of it") {
    journal::BakeEntry bake = made_up::bake(7, {2026, 3, 1}, "rye", 1, 70, 0.25);
    bake.loaves.push_back(bake.loaves[0]);
    bake.loaves[1].loaf.number = 2;
    journal::LoafEntry& first = bake.loaves[0];
    first.loaf.facts.volume = Millilitres(2600);
    first.loaf.facts.length = Millimetres(250);
    first.loaf.facts.proof_height = Millimetres(80);
    first.weighed = {{Measure::specific_volume, made_up::about(3.25)},
                     {Measure::bake_loss_percent, made_up::about(11.5)},
                     {Measure::proof_height, made_up::about(80)}};
    const auto rows = rows_of(bakes_csv({bake}));
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].at("loaf") == "1");
    CHECK(rows[0].at("volume_ml") == "2600");
    CHECK(rows[0].at("length_mm") == "250");
    CHECK(rows[0].at("proof_height_mm") == "80");
    CHECK(rows[0].at("specific_volume") == "3.25");
    CHECK(rows[0].at("bake_loss_percent") == "11.5");
    CHECK(rows[0].at("oven_spring").empty());
    CHECK(rows[1].at("length_mm").empty());
    CHECK(rows[1].at("specific_volume").empty());
}

TEST_CASE("what is weighed of a slice, or stands there as it was ruled, has no column of its own") {
    const auto rows = rows_of(bakes_csv({made_up::bake(7, {2026, 3, 1}, "rye", 1, 70, 0.25)}));
    REQUIRE(rows.size() == 1);
    for (const char* column : {"loaf_density", "specific_volume", "bake_loss_percent", "proof_rise",
                               "oven_spring", "dough_per_tin_volume"})
        CHECK(rows[0].contains(column));
    for (const char* column : {"slice_density", "crumb_density", "fine_pore_share", "proof_height"})
        CHECK_FALSE(rows[0].contains(column));
}
