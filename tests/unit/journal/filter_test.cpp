#include "journal/filter.h"

#include "catch.h"
#include "example_journal.h"

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
        CHECK((field.words || field.key == "folds") == field.unit.empty());
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
