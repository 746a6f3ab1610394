#include "journal/filter.h"

#include <SQLiteCpp/Database.h>

#include "catch.h"
#include "example_journal.h"
#include "journal/bakes.h"
#include "journal/database.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {

std::vector<std::int64_t> numbers(const std::vector<BakeEntry>& entries) {
    std::vector<std::int64_t> ids;
    for (const BakeEntry& entry : entries)
        ids.push_back(entry.bake.id.value);
    return ids;
}

using Numbers = std::vector<std::int64_t>;

// Three bakes: 1 white at 66 %, 2 rye at 74 %, 3 white at 80 %; entered out of their dates' order.
struct Three {
    ExampleJournal example;
    Flour emmer = example.journal.add_flour(new_flour("Emmer", "emmer"));
    FormulaVersion stiff = plain_formula(example.journal, "Stiff", example.white, 0.66);
    FormulaVersion rye = plain_formula(example.journal, "Rye", example.rye, 0.74);
    FormulaVersion slack = plain_formula(example.journal, "Slack", example.white, 0.8);
    BakeEntry first = add(stiff, {2026, 3, 2}, 22, 0.30);
    BakeEntry second = add(rye, {2026, 3, 1}, 24, 0.20);
    BakeEntry third = add(slack, {2026, 3, 9}, 26, 0.45);

    BakeEntry add(const FormulaVersion& formula, Date date, double dough_celsius, double openness) {
        NewBake draft = new_bake(formula, date);
        draft.dough_temperature = Celsius(dough_celsius);
        draft.loaves = {{.tin = {}, .free_form = {}, .dough_mass = Grams(900), .baked_mass = {}}};
        if (formula.name == "Rye") draft.notes = "DENSE crumb";
        const BakeEntry bake = example.journal.add_bake(draft);
        NewSlice slice = new_slice(bake.loaves[0].loaf.id, new_reading(openness));
        slice.thickness = {Millimetres(14), Millimetres(16)};
        (void)example.journal.file_photo(example.photo("p.jpg", formula.name), {slice});
        return bake;
    }
    Numbers find(const Filter& filter) { return numbers(example.journal.find(filter)); }
    Numbers where(const std::string& condition) {
        Filter filter;
        filter.where = {parse_condition(condition)};
        return find(filter);
    }
};

}  // namespace

TEST_CASE("an empty filter finds all, by date, then number") {
    Three three;
    (void)three.add(three.slack, {2026, 3, 1}, 25, 0.5);
    CHECK(three.find({}) == Numbers{2, 4, 1, 3});
    CHECK(ExampleJournal().journal.find().empty());
}

TEST_CASE("bakes are found by flour, grain, formula and date") {
    Three three;
    Filter filter;
    filter.flour = three.example.white.id;
    CHECK(three.find(filter) == Numbers{1, 3});
    filter.since = Date{2026, 3, 2};
    filter.until = Date{2026, 3, 8};
    CHECK(three.find(filter) == Numbers{1});
    filter.since = Date{2026, 3, 3};
    CHECK(three.find(filter).empty());
    filter = {};
    filter.grain = "RYE";
    CHECK(three.find(filter) == Numbers{2});
    filter = {};
    filter.formula = three.slack.formula;
    CHECK(three.find(filter) == Numbers{3});
    filter = {};
    filter.flour = three.emmer.id;
    CHECK(three.find(filter).empty());
}

TEST_CASE("the flour of a starter counts when bakes are found by flour") {
    Three three;
    const FormulaVersion mixed = three.example.journal.add_formula(
        "Emmer with rye starter",
        {{flour_line(three.emmer, 0.9), water_line(0.6), starter_line(three.example.rye, 0.2)},
         {}});
    (void)three.add(mixed, {2026, 4, 1}, 25, 0.1);
    Filter filter;
    filter.grain = "rye";
    CHECK(three.find(filter) == Numbers{2, 4});
}

TEST_CASE("bakes are found by hydration, ends included despite rounding") {
    Three three;
    Filter filter;
    filter.hydration = parse_percentage_range("66..74");
    CHECK(three.find(filter) == Numbers{2, 1});
    filter.hydration = parse_percentage_range("66.01..");
    CHECK(three.find(filter) == Numbers{2, 3});
    filter.hydration = parse_percentage_range("..66");
    CHECK(three.find(filter) == Numbers{1});
    CHECK(three.where("hydration_percent 80..80") == Numbers{3});
}

TEST_CASE("bakes are found by text whatever the case") {
    Three three;
    Filter filter;
    filter.text = "dense CRUMB";
    CHECK(three.find(filter) == Numbers{2});
    filter.text = "slack";
    CHECK(three.find(filter) == Numbers{3});
    filter.text = "100%_";
    CHECK(three.find(filter).empty());
}

TEST_CASE("bakes are found by any measure or field within a range") {
    Three three;
    CHECK(three.where("openness 0.3..") == Numbers{1, 3});
    CHECK(three.where("openness ..0.25") == Numbers{2});
    CHECK(three.where("loaf_height 98..99") == Numbers{2, 1, 3});
    CHECK(three.where("coarseness 0..").empty());
    CHECK(three.where("dough_temperature 23..25") == Numbers{2});
    CHECK(three.where("room_temperature 0..").empty());
    CHECK(three.where("dough_mass 900..900") == Numbers{2, 1, 3});
    CHECK(three.where("slice_thickness 15..15") == Numbers{2, 1, 3});
    CHECK(three.where("prefermented_flour_percent ..0") == Numbers{2, 1, 3});
    CHECK(three.where("salt_percent 1..").empty());
    for (const Field& field : fields()) {
        INFO(field.key);
        CHECK_NOTHROW(three.where(std::string(field.key).append(" 0..")));
        CHECK_FALSE(field.name.empty());
        const bool plain =
            field.key == "folds" || field.key == "proof_rise" || field.key == "fine_pore_share";
        CHECK((field.words || plain) == field.unit.empty());
    }
}

TEST_CASE("conditions on slices must hold together for one slice") {
    Three three;
    const LoafId loaf = three.example.journal.bake(three.first.bake.id).loaves[0].loaf.id;
    NewReading other = new_reading(0.7);
    other.values[Measure::loaf_height].value = 50;
    (void)three.example.journal.file_photo(three.example.photo("q.jpg", "other"),
                                           {new_slice(loaf, other)});
    Filter filter;
    filter.where = {parse_condition("openness 0.6.."), parse_condition("loaf_height 90..")};
    CHECK(three.find(filter).empty());
    filter.where = {parse_condition("openness 0.6.."), parse_condition("loaf_height ..60")};
    CHECK(three.find(filter) == Numbers{1});
}

TEST_CASE("only the newest reading of a slice counts") {
    Three three;
    const SliceId slice =
        three.example.journal.bake(three.second.bake.id).loaves[0].slices[0].slice.id;
    (void)three.example.journal.add_reading(slice, new_reading(0.4));
    CHECK(three.where("openness 0.3..") == Numbers{2, 1, 3});
    CHECK(three.where("openness ..0.25").empty());
}

TEST_CASE("bakes of a trial are found") {
    Three three;
    NewTrial draft;
    draft.name = "How wet";
    draft.variants = {"66 %", "80 %"};
    draft.factor = "water";
    const Trial trial = three.example.journal.add_trial(draft);
    Filter filter;
    filter.trial = trial.id;
    CHECK(three.find(filter).empty());
    (void)three.example.journal.add_to_trial(trial.id,
                                             {{three.first.bake.id, 0}, {three.third.bake.id, 1}});
    CHECK(three.find(filter) == Numbers{1, 3});
    filter.where = {parse_condition("openness 0.4..")};
    CHECK(three.find(filter) == Numbers{3});
}

// A page is found by listing what fits where that is few, and by looking at one bake after the
// other where it is many; a find of all bakes is done by lists.
TEST_CASE("whichever way a page is found, it is the same page") {
    Three three;
    Journal& journal = three.example.journal;
    const LoafId loaf = journal.bake(three.first.bake.id).loaves[0].loaf.id;
    NewReading other = new_reading(0.7);
    other.values[Measure::loaf_height].value = 50;
    (void)journal.file_photo(three.example.photo("q.jpg", "other"), {new_slice(loaf, other)});
    const FormulaVersion mixed = journal.add_formula(
        "Mixed",
        {{flour_line(three.emmer, 0.7), flour_line(three.example.rye, 0.3), water_line(0.7)}, {}});
    (void)three.add(mixed, {2026, 3, 5}, 25, 0.35);
    NewTrial draft;
    draft.name = "Which";
    draft.variants = {"one", "other"};
    const Trial trial = journal.add_trial(draft);
    (void)journal.add_to_trial(trial.id, {{three.first.bake.id, 0}, {three.third.bake.id, 1}});

    std::vector<Filter> filters(7);
    filters[0].flour = three.example.rye.id;
    filters[1].grain = "emmer";
    filters[2].shares = {{three.example.rye.id, {Fraction(0.2), Fraction(0.5)}}};
    filters[3].trial = trial.id;
    for (const auto& conditions : std::vector<std::vector<const char*>>{
             {"openness 0.3.."},
             {"openness 0.6..", "loaf_height 90.."},
             {"loaf_height ..60", "openness 0.6.."},
             {"slice_thickness 15..", "openness 0.3.."},
             {"dough_mass 900..", "openness 0.3..", "loaf_height 90..", "dough_temperature 24.."},
             {"dough_mass ..10"},
             {"place middle"}}) {
        Filter& filter = filters.emplace_back();
        for (const char* condition : conditions)
            filter.where.push_back(parse_condition(condition));
    }
    filters[4].flour = three.example.white.id;
    filters[4].where = {parse_condition("openness 0.4..")};
    filters[5].trial = trial.id;
    filters[5].flour = three.example.white.id;
    filters[5].since = Date{2026, 3, 3};

    const Environment environment = fixed_environment();
    SQLite::Database db = open_to_read(three.example.path / database_name, std::chrono::seconds(1));
    const Store store(db, environment);
    for (std::size_t i = 0; i < filters.size(); ++i) {
        INFO("filter " << i);
        for (const std::optional<Order>& order :
             {std::optional<Order>(), std::optional(Order{"date", true}),
              std::optional(Order{"openness", true})}) {
            Filter filter = filters[i];
            filter.order = order;
            const auto all = matching_bakes(store, filter);
            filter.limit = 100;
            CHECK(matching_bakes(store, filter, 100) == all);
            CHECK(matching_bakes(store, filter, 0) == all);
            CHECK(matching_bakes(store, filter, 1) == all);
        }
    }
}

TEST_CASE("an unknown measure or field is told with near names") {
    Three three;
    const auto near_miss = [&] { (void)three.where("opennes 0.3.."); };
    CHECK(message_of(near_miss) == "there is no measure or field 'opennes'");
    const auto suggestions = suggestions_of(near_miss);
    REQUIRE_FALSE(suggestions.empty());
    CHECK(suggestions[0] == "openness");
}

TEST_CASE("a condition is a key and a range") {
    const Condition condition = parse_condition(" cell_diameter.area.d50  2..3.5 ");
    CHECK(condition.key == "cell_diameter.area.d50");
    CHECK(condition.range == Range{2, 3.5});
    CHECK_THROWS_AS(parse_condition("openness"), QuantityError);
    CHECK_THROWS_AS(parse_condition("openness 0.3"), QuantityError);
    CHECK_THROWS_AS(parse_condition(""), QuantityError);
}
