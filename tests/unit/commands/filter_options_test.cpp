#include "commands/filter_options.h"

#include <algorithm>

#include "catch.h"
#include "commands/find.h"
#include "commands/report.h"
#include "commands/trend.h"
#include "fakes.h"

namespace loafmark::commands {
namespace {

// Three bakes with a slice each: white at 66 %, rye at 74 %, and white at 80 % from another bag.
struct ThreeBakes {
    journal::ExampleJournal example;

    ThreeBakes() {
        for (int i = 0; i < 2; ++i) {
            journal::NewBag bag;
            bag.flour = example.white.id;
            (void)example.journal.add_bag(bag);
        }
        add("Firm", example.white, 0.66, {2026, 2, 1}, 1, 0.30);
        add("Dark", example.rye, 0.74, {2026, 2, 8}, 0, 0.20);
        add("Slack", example.white, 0.80, {2026, 2, 15}, 2, 0.45);
        journal::NewTrial trial;
        trial.name = "How wet";
        trial.variants = {"66 %", "80 %"};
        trial.factor = "water";
        const auto begun = example.journal.add_trial(trial);
        (void)example.journal.add_to_trial(begun.id, {{journal::BakeId{3}, 1}});
    }
    void add(const std::string& name, const journal::Flour& flour, double water, Date date, int bag,
             double openness) {
        const auto formula = journal::plain_formula(example.journal, name, flour, water);
        journal::NewBake draft = journal::new_bake(formula, date);
        draft.facts.leaven = bag == 2 ? "starter" : "fresh yeast";
        const auto bake = example.journal.add_bake(draft);
        if (bag > 0) {
            journal::BakeChange change;
            change.mixed = bake.bake.mixed;
            change.mixed->at(0).bag = journal::BagId{bag};
            (void)example.journal.change_bake(bake.bake.id, change);
        }
        (void)example.journal.file_photo(
            example.photo(name + ".jpg", name),
            {journal::new_slice(bake.loaves[0].loaf.id, journal::new_reading(openness))});
    }
    // What the command prints.
    template <class Options>
    std::string told(const Options& options) {
        FakeWorld world;
        (void)run(options, example.journal, world.context());
        return world.out.str();
    }
    static long lines(const std::string& text) { return std::ranges::count(text, '\n'); }
};

}  // namespace

TEST_CASE("every filter leaves the same bakes to find, trend and report") {
    ThreeBakes three;
    std::vector<FilterOptions> filters(12);
    filters[0].flour = "strong";
    filters[1].grain = "rye";
    filters[2].formula = "slack";
    filters[3].hydration = parse_percentage_range("70..");
    filters[4].since = "2026-02-08";
    filters[5].until = "2026-02-08";
    filters[6].text = "DARK";
    filters[7].where = {journal::parse_condition("openness 0.3..")};
    filters[8].day = "2026-02-15";
    filters[9].leaven = "starter";
    filters[10].bag = 2;
    filters[11].trial = "wet";
    filters.emplace_back().shares = {{"rye", parse_percentage_range("50..")}};
    const std::vector<long> expected{2, 1, 1, 2, 2, 2, 1, 2, 1, 1, 1, 1, 1};
    for (std::size_t i = 0; i < filters.size(); ++i) {
        INFO("filter " << i << ": " << words_of(filters[i]));
        CHECK_FALSE(words_of(filters[i]).empty());
        FindOptions find;
        find.filter = filters[i];
        find.csv = true;
        CHECK(ThreeBakes::lines(three.told(find)) == expected[i] + 1);  // a heading
        find.limit = 2;
        CHECK(ThreeBakes::lines(three.told(find)) == expected[i] + 1);
        TrendOptions trend;
        trend.measure = Measure::openness;
        trend.filter = filters[i];
        trend.csv = true;
        CHECK(ThreeBakes::lines(three.told(trend)) == expected[i] + 1);
        ReportOptions report;
        report.filter = filters[i];
        report.output = (three.example.folder / "report.html").string();
        CHECK(three.told(report).find("(" + std::to_string(expected[i]) + " bake") !=
              std::string::npos);
    }
}

}  // namespace loafmark::commands
