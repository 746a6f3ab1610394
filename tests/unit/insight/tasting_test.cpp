#include "insight/tasting.h"

#include <map>
#include <set>
#include <stdexcept>

#include "catch.h"

using namespace loafmark;
using namespace loafmark::insight;
using journal::BakeId;

namespace {

journal::Tasting said(std::int64_t bake, const std::string& taster, double soft_firm,
                      std::optional<std::int64_t> sitting = {}, bool scored = true) {
    journal::Tasting tasting;
    tasting.bake = {bake};
    tasting.taster = taster;
    tasting.date = {2026, 3, 1};
    if (scored) tasting.scores.lines["soft-firm"] = soft_firm;
    if (sitting) tasting.sitting = journal::SittingId{*sitting};
    tasting.scored = scored;
    return tasting;
}

}  // namespace

TEST_CASE("orders are Williams's: balanced in place, and in what goes before") {
    // The first row of ten treatments as Sailer's R package crossdes prints williams(10): 1 2 10 3
    // 9 4 8 5 7 6 (its help page).
    CHECK(williams_orders(10).front() == std::vector<int>{0, 1, 9, 2, 8, 3, 7, 4, 6, 5});
    for (const int n : {2, 3, 4, 5, 6, 7, 10}) {
        INFO("slices " << n);
        const auto orders = williams_orders(n);
        CHECK(static_cast<int>(orders.size()) == (n % 2 == 0 ? n : 2 * n));
        std::map<std::pair<int, int>, int> at_place;
        std::map<std::pair<int, int>, int> after;
        for (const auto& order : orders)
            for (int i = 0; i < n; ++i) {
                ++at_place[{order[static_cast<std::size_t>(i)], i}];
                if (i > 0)
                    ++after[{order[static_cast<std::size_t>(i - 1)],
                             order[static_cast<std::size_t>(i)]}];
            }
        const int times = n % 2 == 0 ? 1 : 2;
        CHECK(static_cast<int>(at_place.size()) == n * n);
        CHECK(static_cast<int>(after.size()) == n * (n - 1));
        for (const auto& [what, count] : at_place)
            CHECK(count == times);
        for (const auto& [what, count] : after)
            CHECK(count == times);
    }
    CHECK_THROWS_AS(williams_orders(1), std::invalid_argument);
}

TEST_CASE("a sitting gives each taster every bread, one twice, under codes of their own") {
    const std::vector<BakeId> bakes{{4}, {7}, {9}};
    const std::vector<std::string> tasters{"Ada", "Ben", "Cleo"};
    const auto list = servings(bakes, tasters, 11);
    REQUIRE(list.size() == 12);
    std::set<int> codes;
    std::map<std::string, std::multiset<std::int64_t>> had;
    for (const journal::Serving& serving : list) {
        CHECK(serving.code >= 100);
        CHECK(serving.code <= 999);
        codes.insert(serving.code);
        had[serving.taster].insert(serving.bake.value);
    }
    CHECK(codes.size() == 12);
    for (const std::string& taster : tasters) {
        CHECK(had[taster].size() == 4);
        CHECK(std::set(had[taster].begin(), had[taster].end()).size() == 3);
        CHECK(had[taster] == had["Ada"]);  // the same bread twice for all
    }
    const auto again = servings(bakes, tasters, 11);
    const auto other = servings(bakes, tasters, 12);
    bool same = true;
    for (std::size_t i = 0; i < list.size(); ++i) {
        CHECK(list[i].code == again[i].code);
        same = same && list[i].code == other[i].code;
    }
    CHECK_FALSE(same);
    CHECK_THROWS_AS(servings({}, tasters, 1), std::invalid_argument);
    CHECK_THROWS_AS(servings(bakes, std::vector<std::string>(200, "A"), 1), std::invalid_argument);
}

TEST_CASE("a taster's own scatter comes from bread served twice, and judges what differs") {
    std::vector<journal::Tasting> tastings;
    // Pairs 3,4; 5,5; 2,4: squares 0.5 + 0 + 2 = 2.5 on 3 degrees, SD 0.9129.
    for (const auto& [sitting, a, b] : {std::tuple{1, 3.0, 4.0}, {2, 5.0, 5.0}, {3, 2.0, 4.0}}) {
        tastings.push_back(said(1, "Ada", a, sitting));
        tastings.push_back(said(1, "Ada", b, sitting));
    }
    tastings.push_back(said(2, "Ada", 9, 1));
    const auto summary = summary_of(tastings, {{{1}}, {{2}}});
    REQUIRE(summary.tasters.size() == 1);
    REQUIRE(summary.tasters[0].repeatability);
    CHECK(std::abs(summary.tasters[0].repeatability->sd - 0.9128709) < 1e-6);
    CHECK(summary.tasters[0].repeatability->degrees_of_freedom == 3);
    REQUIRE(summary.against_first.size() == 1);
    const TasteDifference& d = summary.against_first[0].at(0);
    CHECK(std::abs(d.value - (9 - 23.0 / 6)) < 1e-9);
    // t(0.975, 3) = 3.182446 (any table): 3.182446 x sqrt(2) x 0.9128709.
    REQUIRE(d.limit);
    CHECK(std::abs(*d.limit - 4.108519) < 1e-5);
    CHECK(d.sentence.find("more firm by 5.2 of 10 (1 taster): more than") == 0);
    tastings.back().scores.lines["soft-firm"] = 6;
    CHECK(
        summary_of(tastings, {{{1}}, {{2}}}).against_first[0][0].sentence.find("not told apart") !=
        std::string::npos);
}

TEST_CASE("without bread served twice it is not known whether tasters can tell") {
    const std::vector<journal::Tasting> tastings{said(1, "Ada", 3), said(2, "Ada", 7)};
    const auto summary = summary_of(tastings, {{{1}}, {{2}}});
    CHECK_FALSE(summary.tasters.at(0).repeatability);
    CHECK_FALSE(summary.against_first[0][0].limit);
    CHECK(summary.against_first[0][0].sentence.find("serve a loaf twice") != std::string::npos);
}

TEST_CASE("nothing is told of a sitting that is not over") {
    const std::vector<journal::Tasting> tastings{said(1, "Ada", 3, 1), said(2, "Ada", 0, 1, false),
                                                 said(1, "Ben", 6)};
    const auto summary = summary_of(tastings, {{{1}}, {{2}}});
    CHECK(summary.hidden == 2);
    REQUIRE(summary.bakes[0].lines.size() == 1);
    CHECK(summary.bakes[0].lines[0].value == 6);
    CHECK(summary.bakes[0].tasters == std::vector<std::string>{"Ben"});
    CHECK(summary.bakes[1].lines.empty());
}

TEST_CASE("a variant's bakes are one, and a taster who had two of them weighs no more") {
    const std::vector<journal::Tasting> tastings{said(1, "Ada", 2), said(3, "Ada", 4),
                                                 said(1, "Ben", 9)};
    const auto summary = summary_of(tastings, {{{1}, {3}}});
    CHECK(summary.bakes[0].lines[0].value == 6);
    CHECK(summary.bakes[0].lines[0].tastings == 2);
}
