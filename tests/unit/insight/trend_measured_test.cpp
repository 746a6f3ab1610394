// The quick way to a trend over a whole journal gives what the thorough one gives.
#include <stdexcept>

#include "catch.h"
#include "insight/trend.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::insight;
using journal::BakeEntry;

namespace {

// What the journal would read of these bakes.
journal::MeasuredBakes measured(const std::vector<BakeEntry>& bakes, Measure measure) {
    journal::MeasuredBakes all;
    for (const BakeEntry& entry : bakes) {
        journal::MeasuredBake& bake = all.bakes.emplace_back();
        bake.id = entry.bake.id;
        bake.date = entry.bake.date;
        bake.title = entry.bake.title;
        bake.set_aside = entry.bake.set_aside.has_value();
        bake.hydration = entry.hydration;
        if (const auto* flour = main_flour(entry)) {
            bake.main_flour = flour->flour;
            bake.main_share = flour->share;
            all.flours[flour->flour] = flour->name;
        }
        bake.left_out = poor_readings(entry);
        bake.first = all.slices.size();
        for (const journal::LoafEntry& loaf : entry.loaves)
            for (const journal::SliceEntry& slice : loaf.slices) {
                if (is_poor(*slice.reading) || !slice.reading->values.contains(measure)) continue;
                all.slices.push_back({loaf.loaf.id, slice.reading->values.at(measure).value,
                                      slice.slice.place == journal::end_of_loaf,
                                      slice.reading->analysis_version == "classical 1" ? 0U : 1U});
            }
        bake.slices = all.slices.size() - bake.first;
    }
    all.analysis_versions = {"classical 1", "classical 2"};
    return all;
}

std::vector<BakeEntry> journal_of_all_sorts() {
    std::vector<BakeEntry> bakes;
    for (int i = 0; i < 6; ++i) {
        bakes.push_back(made_up::bake(i + 1, {2026, 3, i + 1}, "rye", 1, 60 + 3 * i,
                                      0.1 + 0.03 * i + (i % 2 ? 0.01 : 0)));
        bakes.push_back(made_up::bake(i + 11, {2026, 4, 9 - i}, "spelt", 2, 64 + 3 * i,
                                      0.4 - 0.02 * i + (i % 3 ? 0.01 : 0)));
    }
    // Two loaves, one cut twice, an end among the slices, a poor reading.
    journal::LoafEntry loaf = bakes[3].loaves[0];
    loaf.loaf.id = {77};
    loaf.slices = {made_up::slice(100, {{Measure::openness, made_up::about(0.2)}}),
                   made_up::slice(101, {{Measure::openness, made_up::about(0.3)}}),
                   made_up::slice(102, {{Measure::openness, made_up::about(0.01)}}),
                   made_up::slice(103, {{Measure::openness, made_up::about(0.9)}})};
    loaf.slices[2].slice.place = std::string(journal::end_of_loaf);
    loaf.slices[3].reading->warnings = {"blurred"};
    bakes[3].loaves.push_back(loaf);
    bakes[5].bake.set_aside = "burnt";
    bakes[6].hydration.reset();
    bakes[7].flours.clear();
    bakes[8].loaves.clear();
    bakes[9].flours = {made_up::flour(2, "spelt", 0.7), made_up::flour(1, "rye", 0.3)};
    bakes[10].loaves[0].slices[0].reading->analysis_version = "classical 2";
    return bakes;
}

void same(const Trend& quick, const Trend& thorough) {
    CHECK(quick.sentence == thorough.sentence);
    CHECK(quick.set_aside == thorough.set_aside);
    CHECK(quick.end_slices == thorough.end_slices);
    CHECK(quick.without_value == thorough.without_value);
    CHECK(quick.poor_readings == thorough.poor_readings);
    CHECK(quick.notes == thorough.notes);
    REQUIRE(quick.groups.size() == thorough.groups.size());
    for (std::size_t g = 0; g < quick.groups.size(); ++g) {
        CHECK(quick.groups[g].name == thorough.groups[g].name);
        REQUIRE(quick.groups[g].points.size() == thorough.groups[g].points.size());
        for (std::size_t i = 0; i < quick.groups[g].points.size(); ++i) {
            const TrendPoint& a = quick.groups[g].points[i];
            const TrendPoint& b = thorough.groups[g].points[i];
            CHECK(a.bake == b.bake);
            CHECK(a.title == b.title);
            CHECK(a.x == Approx(b.x));
            CHECK(a.y == Approx(b.y));
            CHECK(a.slices == b.slices);
        }
    }
}

}  // namespace

TEST_CASE("over water, date and share, ends or not, one flour or all, both ways agree") {
    const std::vector<BakeEntry> bakes = journal_of_all_sorts();
    for (const Against against : {Against::hydration, Against::date, Against::share})
        for (const EndSlices ends : {EndSlices::left_out, EndSlices::taken_in})
            for (const auto& flour :
                 {std::optional<journal::FlourId>{}, std::optional(journal::FlourId{2})}) {
                const TrendQuestion question{.against = against, .flour = flour, .ends = ends};
                same(measured_trend(measured(bakes, Measure::openness), question),
                     find_trend(bakes, question));
            }
    same(measured_trend(journal::MeasuredBakes{}, {}), find_trend(std::vector<BakeEntry>{}, {}));
}

TEST_CASE("what wants whole bakes is refused the quick way") {
    for (const Against against : {Against::protein, Against::proof, Against::room_temperature}) {
        CHECK_FALSE(wants_measured_only({.against = against}));
        CHECK_THROWS_AS(measured_trend(journal::MeasuredBakes{}, {.against = against}),
                        std::invalid_argument);
    }
    CHECK_FALSE(wants_measured_only({.split = Split::bag}));
    CHECK(wants_measured_only({}));
}
