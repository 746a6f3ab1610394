#include "journal/weighed.h"

#include <numbers>

#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {

Estimate plus_minus(double value, double half) {
    return {value, value - half, value + half, {}, {}};
}

// A slice of 100 cm2, 15 mm thick, 45 g: 0.3 g/cm3.
SliceEntry slice() {
    SliceEntry entry;
    entry.slice.mass = Grams(45);
    entry.slice.thickness = {Millimetres(15)};
    Reading& reading = entry.reading.emplace();
    reading.values[Measure::cross_section_area] = plus_minus(10000, 100);
    reading.values[Measure::crumb_area] = plus_minus(8000, 100);
    reading.values[Measure::openness] = plus_minus(0.4, 0.02);
    reading.values[Measure::loaf_height] = plus_minus(98, 1);
    return entry;
}

double value(const MeasureValues& values, Measure measure) {
    return values.at(measure).value;
}

}  // namespace

TEST_CASE("density is mass over area times thickness, and its interval knows scales and ruler") {
    LoafEntry loaf;
    loaf.slices = {slice()};
    weigh(loaf);
    const Estimate& density = loaf.slices[0].weighed.at(Measure::slice_density);
    CHECK(density.value == Approx(0.3));
    // A ruler's 0.3 mm in 15 is 2 %, as a standard error; area and mass add little.
    CHECK(density.high - density.value == Approx(1.96 * 0.3 * 0.0218).epsilon(0.02));
    CHECK_FALSE(loaf.slices[0].weighed.contains(Measure::crumb_density));
}

TEST_CASE("crumb alone is weighed whole or by plugs, and leaves a share of fine pores") {
    LoafEntry loaf;
    loaf.slices = {slice(), slice()};
    loaf.slices[0].slice.crumb = CrumbSample{Grams(30), std::nullopt, 0};
    loaf.slices[1].slice.crumb = CrumbSample{Grams(11.25), Millimetres(30), 4};
    weigh(loaf);
    CHECK(value(loaf.slices[0].weighed, Measure::crumb_density) == Approx(30.0 / (80 * 1.5)));
    const double plugs_cm3 = 4 * std::numbers::pi / 4 * 9 * 1.5;
    CHECK(value(loaf.slices[1].weighed, Measure::crumb_density) == Approx(11.25 / plugs_cm3));
    const Estimate& fine = loaf.slices[0].weighed.at(Measure::fine_pore_share);
    CHECK(fine.value == Approx(1 - 0.25 / 1.28 - 0.4));
    CHECK(fine.low < 1 - 0.25 / 1.2 - 0.4);
    CHECK(fine.high > 1 - 0.25 / 1.3 - 0.4);
}

TEST_CASE("a loaf's own: volume over mass, bake loss, rise, spring, dough in its tin") {
    LoafEntry loaf;
    loaf.slices = {slice()};
    loaf.loaf.dough_mass = Grams(900);
    loaf.loaf.baked_mass = Grams(792);
    loaf.loaf.facts.volume = Millilitres(2970);
    loaf.loaf.facts.dough_height = Millimetres(40);
    loaf.loaf.facts.proof_height = Millimetres(84);
    weigh(loaf, {.tin_volume = Millilitres(1800)});
    CHECK(value(loaf.weighed, Measure::specific_volume) == Approx(3.75));
    CHECK(value(loaf.weighed, Measure::loaf_density) == Approx(792.0 / 2970));
    CHECK(value(loaf.weighed, Measure::bake_loss_percent) == Approx(12));
    CHECK(value(loaf.weighed, Measure::proof_rise) == Approx(2.1));
    CHECK(value(loaf.weighed, Measure::oven_spring) == Approx(14));
    CHECK(value(loaf.weighed, Measure::dough_per_tin_volume) == Approx(0.5));
}

TEST_CASE("worked examples: specific volume by seed displacement, bake loss, porosity") {
    // AACC Approved Method 10-05.01 defines specific volume as volume by seed displacement over
    // mass; 5000 mL less 2150 mL of seed left is 2850 mL. Bake loss: closed form. Porosity of
    // gas-free crumb: 1 - 0.26 / 1.28 (range of wall densities after Scanlon and Zghal 2001, from
    // memory).
    LoafEntry loaf;
    loaf.slices = {slice()};
    loaf.slices[0].slice.crumb = CrumbSample{Grams(0.26 * 80 * 1.5), std::nullopt, 0};
    loaf.loaf.dough_mass = Grams(900);
    loaf.loaf.baked_mass = Grams(783);
    loaf.loaf.facts.volume = Millilitres(2850);
    weigh(loaf);
    CHECK(value(loaf.weighed, Measure::bake_loss_percent) == Approx(13));
    CHECK(value(loaf.weighed, Measure::specific_volume) == Approx(2850.0 / 783));
    CHECK(value(loaf.slices[0].weighed, Measure::fine_pore_share) + 0.4 == Approx(0.796875));
}

TEST_CASE("a loaf without a measured volume has its cut face times its length; ends do not count") {
    LoafEntry loaf;
    loaf.slices = {slice(), slice()};
    loaf.slices[1].slice.place = std::string(end_of_loaf);
    loaf.slices[1].reading->values[Measure::cross_section_area] = plus_minus(2000, 100);
    loaf.slices.push_back(slice());
    loaf.slices[2].slice.cut = "lengthwise";
    loaf.slices[2].reading->values[Measure::cross_section_area] = plus_minus(24000, 100);
    loaf.slices.push_back(slice());
    loaf.slices[3].reading->warnings = {"blurred"};
    loaf.slices[3].reading->values[Measure::cross_section_area] = plus_minus(5000, 100);
    loaf.loaf.baked_mass = Grams(600);
    loaf.loaf.facts.length = Millimetres(240);
    weigh(loaf);
    const Estimate& volume = loaf.weighed.at(Measure::specific_volume);
    CHECK(volume.value == Approx(4));
    CHECK(volume.low < 4 * (1 - 1.0 / 6));
    CHECK(volume.high < 4.1);
}

TEST_CASE("finer scales make a density surer; plugs want no photo; cut crumb is not all crumb") {
    LoafEntry loaf;
    loaf.slices = {slice(), slice()};
    loaf.slices[0].slice.crumb = CrumbSample{Grams(3), Millimetres(30), 1};
    loaf.slices[0].reading.reset();
    loaf.slices[1].slice.crumb = CrumbSample{Grams(30), std::nullopt, 0};
    loaf.slices[1].reading->values.erase(Measure::cross_section_area);
    LoafEntry fine = loaf;
    weigh(loaf);
    weigh(fine, {.scale_step = Grams(0.1)});
    const auto half_width = [](const LoafEntry& of) {
        const Estimate& crumb = of.slices[0].weighed.at(Measure::crumb_density);
        return crumb.high - crumb.value;
    };
    CHECK(half_width(fine) < 0.6 * half_width(loaf));
    CHECK_FALSE(loaf.slices[1].weighed.contains(Measure::crumb_density));
}

TEST_CASE("what was not weighed has no value") {
    LoafEntry loaf;
    loaf.slices = {slice()};
    loaf.slices[0].slice.thickness.clear();
    loaf.loaf.baked_mass = Grams(600);
    weigh(loaf);
    CHECK(loaf.weighed.empty());
    CHECK(loaf.slices[0].weighed.empty());
}

TEST_CASE("what is weighed is kept, given back, found and sorted by the same values") {
    ExampleJournal example;
    Journal& journal = example.journal;
    (void)journal.change_kitchen(with_tin("Small tin", Millilitres(1800)));
    NewBake draft = new_bake(example.formula, {2026, 3, 1});
    NewLoaf loaf;
    loaf.tin = "small TIN";
    loaf.dough_mass = Grams(900);
    loaf.baked_mass = Grams(792);
    loaf.facts.length = Millimetres(240);
    loaf.facts.dough_height = Millimetres(40);
    loaf.facts.proof_height = Millimetres(84);
    draft.loaves = {loaf};
    const BakeEntry added = journal.add_bake(draft);
    NewReading reading = new_reading(0.4);
    reading.values[Measure::cross_section_area] = plus_minus(10000, 100);
    NewSlice filed = new_slice(added.loaves[0].loaf.id, reading);
    filed.mass = Grams(45);
    filed.thickness = {Millimetres(15), Millimetres(16)};
    filed.crumb = CrumbSample{Grams(11.25), Millimetres(30), 4};
    (void)journal.file_photo(example.photo("p.jpg", "a photo"), {filed});
    (void)example.bake_with_slice({2026, 3, 2}, 0.5);

    const BakeEntry bake = journal.bake(added.bake.id);
    CHECK(bake.loaves[0].slices[0].slice.crumb == filed.crumb);
    MeasureValues known = bake.loaves[0].weighed;
    const MeasureValues& of_slice = bake.loaves[0].slices[0].weighed;
    known.insert(of_slice.begin(), of_slice.end());
    int kinds = 0;
    for (const MeasureInfo& info : measure_catalogue) {
        if (info.origin != MeasureOrigin::kitchen) continue;
        ++kinds;
        CAPTURE(info.key);
        REQUIRE(known.contains(info.id));
        Filter filter;
        const double at = value(known, info.id);
        filter.where = {{std::string(info.key), {at - 1e-6, at + 1e-6}, {}}};
        const auto found = journal.find(filter);
        REQUIRE(found.size() == 1);
        CHECK(found[0].bake.id == added.bake.id);
        filter.where.clear();
        filter.order = Order{std::string(info.key), true};
        CHECK(journal.find(filter).front().bake.id == added.bake.id);
    }
    CHECK(kinds == 10);
}

TEST_CASE("plugs of crumb want a number and a width") {
    ExampleJournal example;
    const BakeEntry bake = example.journal.add_bake(new_bake(example.formula, {2026, 3, 1}));
    NewSlice slice = new_slice(bake.loaves[0].loaf.id);
    slice.crumb = CrumbSample{Grams(10), Millimetres(30), 0};
    CHECK(message_of([&] {
              (void)example.journal.file_photo(example.photo("p.jpg", "x"), {slice});
          }).find("both their number and their diameter") != std::string::npos);
}
