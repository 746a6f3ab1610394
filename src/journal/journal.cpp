#include "journal/journal.h"

#include <cmath>

#include "arithmetic/numbers.h"
#include "journal/bags.h"
#include "journal/bakes.h"
#include "journal/database.h"
#include "journal/find_by_name.h"
#include "journal/flours.h"
#include "journal/formulas.h"
#include "journal/journal_impl.h"
#include "journal/kitchens.h"
#include "journal/print_checks.h"
#include "journal/readings.h"
#include "journal/slices.h"
#include "journal/store.h"
#include "journal/tastings.h"
#include "journal/trials.h"

namespace loafmark::journal {

Journal Journal::open(const std::filesystem::path& folder, Environment environment) {
    make_folders(folder);
    return Journal(std::make_unique<Impl>(folder, std::move(environment), Impl::Access::write));
}

Journal Journal::open_for_reading(const std::filesystem::path& folder, Environment environment) {
    std::error_code unseen;
    if (std::filesystem::exists(folder, unseen) && !std::filesystem::is_directory(folder, unseen))
        throw Error(folder.string() + " is not a folder");
    if (!exists(folder)) throw Error("there is no journal in " + folder.string());
    auto impl = std::make_unique<Impl>(folder, environment, Impl::Access::read);
    if (!impl->up_to_date()) {
        impl.reset();
        (void)open(folder, environment);
        impl = std::make_unique<Impl>(folder, std::move(environment), Impl::Access::read);
    }
    return Journal(std::move(impl));
}

bool Journal::exists(const std::filesystem::path& folder) {
    std::error_code unseen;
    return std::filesystem::is_regular_file(folder / database_name, unseen);
}

Journal::Journal(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Journal::Journal(Journal&&) noexcept = default;
Journal& Journal::operator=(Journal&&) noexcept = default;
Journal::~Journal() = default;

const std::filesystem::path& Journal::folder() const {
    return impl_->folder();
}

Flour Journal::add_flour(const NewFlour& flour) {
    return impl_->write([&](Store& store) { return journal::add_flour(store, flour); });
}
std::vector<Flour> Journal::flours() const {
    return impl_->read(all_flours);
}
Flour Journal::flour(FlourId id) const {
    return impl_->read([&](const Store& store) { return flour_of(store, id); });
}
Flour Journal::flour(std::string_view name) const {
    return find_by_name(flours(), name, "flour", [](const Flour& flour) { return flour.name; });
}
Bag Journal::add_bag(const NewBag& bag) {
    return impl_->write([&](Store& store) { return journal::add_bag(store, bag); });
}
Flour Journal::change_flour(FlourId id, const FlourChange& change) {
    return impl_->write([&](Store& store) { return journal::change_flour(store, id, change); });
}
Bag Journal::change_bag(BagId id, const BagFacts& change) {
    return impl_->write([&](Store& store) { return journal::change_bag(store, id, change); });
}
Bag Journal::bag(BagId id) const {
    return impl_->read([&](const Store& store) { return bag_of(store, id); });
}
std::vector<Bag> Journal::bags(FlourId flour) const {
    return impl_->read([&](const Store& store) { return bags_of(store, flour); });
}

FormulaVersion Journal::add_formula(std::string_view name, const NewFormulaVersion& version) {
    return impl_->write([&](Store& store) { return journal::add_formula(store, name, version); });
}
FormulaVersion Journal::add_formula_version(FormulaId formula, const NewFormulaVersion& version) {
    return impl_->write(
        [&](Store& store) { return journal::add_formula_version(store, formula, version); });
}
std::vector<FormulaVersion> Journal::formulas() const {
    return impl_->read(newest_versions);
}
std::vector<FormulaVersion> Journal::formula_versions(FormulaId formula) const {
    return impl_->read([&](const Store& store) { return versions_of(store, formula); });
}
FormulaVersion Journal::formula(FormulaVersionId id) const {
    return impl_->read([&](const Store& store) { return formula_version(store, id); });
}
FormulaVersion Journal::formula(std::string_view name) const {
    return find_by_name(formulas(), name, "formula",
                        [](const FormulaVersion& formula) { return formula.name; });
}

BakeEntry Journal::add_bake(const NewBake& bake) {
    return impl_->write(
        [&](Store& store) { return bake_entry(store, journal::add_bake(store, bake)); });
}
std::vector<BakeEntry> Journal::add_bakes(const std::vector<NewBake>& bakes) {
    return impl_->write([&](Store& store) {
        std::vector<BakeEntry> added;
        for (const NewBake& bake : bakes)
            added.push_back(bake_entry(store, journal::add_bake(store, bake)));
        return added;
    });
}
BakeEntry Journal::change_bake(BakeId id, const BakeChange& change) {
    return impl_->write([&](Store& store) {
        journal::change_bake(store, id, change);
        return bake_entry(store, id);
    });
}
BakeEntry Journal::change_loaf(BakeId id, int number, const LoafChange& change) {
    return impl_->write([&](Store& store) {
        journal::change_loaf(store, id, number, change);
        return bake_entry(store, id);
    });
}
BakeEntry Journal::add_step(BakeId id, const BakeStep& step) {
    return impl_->write([&](Store& store) {
        journal::add_step(store, id, step);
        return bake_entry(store, id);
    });
}
Kitchen Journal::kitchen() const {
    return impl_->read(the_kitchen);
}
Kitchen Journal::change_kitchen(const KitchenChange& change) {
    return impl_->write([&](Store& store) { return journal::change_kitchen(store, change); });
}
Trial Journal::add_trial(const NewTrial& trial) {
    return impl_->write([&](Store& store) { return journal::add_trial(store, trial); });
}
Trial Journal::add_to_trial(TrialId trial, const std::vector<TrialBake>& bakes) {
    return impl_->write([&](Store& store) { return journal::add_to_trial(store, trial, bakes); });
}
std::vector<Trial> Journal::trials() const {
    return impl_->read(all_trials);
}
Trial Journal::trial(std::string_view name) const {
    if (const auto number = parse_number(name); number && *number == std::floor(*number))
        return impl_->read([&](const Store& store) {
            return trial_of(store, TrialId{static_cast<std::int64_t>(*number)});
        });
    return find_by_name(trials(), name, "trial", [](const Trial& trial) { return trial.name; });
}

std::vector<Tasting> Journal::add_tastings(const std::vector<NewTasting>& tastings) {
    return impl_->write([&](Store& store) { return journal::add_tastings(store, tastings); });
}
Sitting Journal::add_sitting(const NewSitting& sitting) {
    return impl_->write([&](Store& store) { return journal::add_sitting(store, sitting); });
}
Tasting Journal::score_serving(TastingId tasting, const TasteScores& scores) {
    return impl_->write(
        [&](Store& store) { return journal::score_serving(store, tasting, scores); });
}
Sitting Journal::sitting(SittingId id) const {
    return impl_->read([&](const Store& store) { return sitting_of(store, id); });
}
std::vector<Tasting> Journal::tastings() const {
    return impl_->read(all_tastings);
}

BakeEntry Journal::bake(BakeId id) const {
    return impl_->read([&](const Store& store) { return bake_entry(store, id); });
}
BakeId Journal::find_bake(std::string_view text, Date today) const {
    return impl_->read([&](const Store& store) { return journal::find_bake(store, text, today); });
}
std::vector<BakeEntry> Journal::find(const Filter& filter) const {
    return impl_->read(
        [&](const Store& store) { return bake_entries(store, matching_bakes(store, filter)); });
}

MeasuredBakes Journal::measured(const Filter& filter, Measure measure,
                                std::span<const std::string_view> poor_warnings) const {
    return impl_->read(
        [&](const Store& store) { return measured_bakes(store, filter, measure, poor_warnings); });
}

void Journal::keep_print_check(TargetKind target, Millimetres line) {
    impl_->write([&](Store& store) {
        journal::keep_print_check(store, target, line);
        return true;
    });
}
bool Journal::forget_print_check(TargetKind target) {
    return impl_->write([&](Store& store) { return journal::forget_print_check(store, target); });
}
PrintChecks Journal::print_checks() const {
    return impl_->read(all_print_checks);
}

std::vector<SliceEntry> Journal::file_photo(const std::filesystem::path& photo,
                                            const std::vector<NewSlice>& slices) {
    return impl_->file_photo(photo, slices);
}
SliceEntry Journal::slice(SliceId id) const {
    return impl_->read([&](const Store& store) { return slice_entry(store, id); });
}
std::filesystem::path Journal::photo_file(SliceId id) const {
    return impl_->photo_file(slice(id).slice.photo_hash);
}
Reading Journal::add_reading(SliceId slice, const NewReading& reading) {
    return impl_->write([&](Store& store) {
        check_slice_exists(store, slice);
        return journal::readings(store, {journal::add_reading(store, slice, reading)}).front();
    });
}
std::vector<Reading> Journal::readings(SliceId slice) const {
    return impl_->read([&](const Store& store) {
        check_slice_exists(store, slice);
        auto found = journal::readings(store, readings_of(store, slice));
        return std::vector<Reading>(found.rbegin(), found.rend());
    });
}
std::map<PictureKind, ReadingPicture> Journal::pictures(ReadingId reading, PictureSize size) const {
    return impl_->read([&](const Store& store) { return pictures_of(store, reading, size); });
}
std::string Journal::document(ReadingId reading) const {
    return impl_->read([&](const Store& store) { return document_of(store, reading); });
}

}  // namespace loafmark::journal
