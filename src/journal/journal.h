// A baker's journal: a folder with a database, loafmark.db, and the photos. Values go in and come
// out; nothing here prints. docs/database.md describes what lies in the folder.
//
// Every operation that writes is one transaction: it is done wholly, or an exception says why not
// and nothing of it was done, also if the program is killed midway. Several programs may have one
// journal open; one writes at a time and the others wait for it. A Journal is used by one thread at
// a time.
//
// Unless said otherwise, functions throw Error when the journal cannot be read or written, and
// NotFound when an id or name leads to nothing.
#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <iosfwd>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "journal/drafts.h"
#include "journal/error.h"
#include "journal/filter.h"
#include "journal/measured.h"
#include "journal/merged.h"
#include "journal/records.h"
#include "journal/trial_drafts.h"
#include "journal/trial_records.h"

namespace loafmark::journal {

// What the journal takes from the world outside, so that tests can give it theirs.
struct Environment {
    std::function<std::string()> now_utc;  // 2026-03-01T18:20:00Z; empty: the system's clock
    std::function<std::uint64_t()> random_number;  // 64 random bits, for uids; empty: the system's
    std::chrono::milliseconds wait_for_others{10'000};  // then Error: somebody else is writing
};

// What can be dropped into the bin.
enum class Droppable { flour, bag, formula, bake, slice };

struct StoredPhotoName {
    std::string hash;
    std::string extension;
};

struct Emptied {
    int gone = 0;
    std::vector<Dropped> kept;  // what others that stay refer to: a flour of old bakes
};

class Journal {
  public:
    // Opens the journal for reading and writing. Makes the folder and an empty journal where there
    // is none, brings a journal of an older version up to date, and clears away what a filing that
    // was broken off has left. Error: not a folder, cannot be written, a newer program's journal.
    [[nodiscard]] static Journal open(const std::filesystem::path& folder, Environment = {});

    // Opens the journal for reading only: what writes throws Error. Works where the folder cannot
    // be written. Error: there is no journal; it is a newer program's; it is an older program's and
    // cannot be brought up to date where it lies.
    [[nodiscard]] static Journal open_for_reading(const std::filesystem::path& folder,
                                                  Environment = {});

    // Whether the folder holds a journal.
    [[nodiscard]] static bool exists(const std::filesystem::path& folder);

    Journal(Journal&&) noexcept;
    Journal& operator=(Journal&&) noexcept;
    ~Journal();

    [[nodiscard]] const std::filesystem::path& folder() const;

    // ---- Flours and bags ----

    // Error: the name is empty or taken; a protein content outside 0 to 1.
    Flour add_flour(const NewFlour& flour);
    // By name.
    [[nodiscard]] std::vector<Flour> flours() const;
    [[nodiscard]] Flour flour(FlourId id) const;
    // The flour of that name, whatever the case, or the only one whose name contains it. NotFound
    // lists those that fit, or near names.
    [[nodiscard]] Flour flour(std::string_view name) const;

    // Error: as with add_flour().
    Flour change_flour(FlourId id, const FlourChange& change);

    // Error: a mass below zero, a day that the calendar has not.
    Bag add_bag(const NewBag& bag);
    // `left`, where given, is what the bag holds now, whatever bakes drew.
    Bag change_bag(BagId id, const BagFacts& change);
    [[nodiscard]] Bag bag(BagId id) const;
    // Of one flour, in the order they were added.
    [[nodiscard]] std::vector<Bag> bags(FlourId flour) const;

    // ---- Formulas ----

    // A formula's first version. Error: the name is empty or taken; see NewFormulaVersion.
    FormulaVersion add_formula(std::string_view name, const NewFormulaVersion& version);
    // Its next version; those before stay as they are.
    FormulaVersion add_formula_version(FormulaId formula, const NewFormulaVersion& version);
    // The newest version of each, by name.
    [[nodiscard]] std::vector<FormulaVersion> formulas() const;
    // All versions of one, oldest first.
    [[nodiscard]] std::vector<FormulaVersion> formula_versions(FormulaId formula) const;
    [[nodiscard]] FormulaVersion formula(FormulaVersionId id) const;
    // The newest version of the formula of that name; names are found as with flour().
    [[nodiscard]] FormulaVersion formula(std::string_view name) const;

    // ---- Bakes ----

    // Error: neither amounts nor a dough mass; a mass below zero; handling that is none of
    // handling_words; a bag of another flour; a room temperature other than the bake day has.
    BakeEntry add_bake(const NewBake& bake);
    // All of them or none.
    std::vector<BakeEntry> add_bakes(const std::vector<NewBake>& bakes);
    [[nodiscard]] BakeEntry bake(BakeId id) const;
    // Error: as with add_bake().
    BakeEntry change_bake(BakeId id, const BakeChange& change);
    // The loaf of that number. NotFound: the bake has fewer.
    BakeEntry change_loaf(BakeId id, int number, const LoafChange& change);
    // Adds a step behind the others. Error: none of step_words.
    BakeEntry add_step(BakeId id, const BakeStep& step);

    // The bake that `text` means: `last` (the one entered last), `last-2` (two before it), a
    // number, a date as parse_date() reads it, or part of a title, whatever the case (a whole title
    // goes before parts). NotFound: none, with near titles; or several, listed as "12: 2026-03-01
    // Title".
    [[nodiscard]] BakeId find_bake(std::string_view text, Date today) const;

    // In the order asked for, else by date, then number. Bakes set aside are among them; those in
    // the bin are not. NotFound: no such measure or field in
    // `filter.where`.
    [[nodiscard]] std::vector<BakeEntry> find(const Filter& filter = {}) const;

    // One measure over the bakes that fit, for statistics over a whole journal: much quicker than
    // find(). Slices whose newest reading has one of these warnings are counted and left out.
    // NotFound likewise.
    [[nodiscard]] MeasuredBakes measured(const Filter& filter, Measure measure,
                                         std::span<const std::string_view> poor_warnings) const;

    // ---- The kitchen ----

    [[nodiscard]] Kitchen kitchen() const;
    // All of it or nothing. Error: see KitchenChange; NotFound: no such tin or taster to forget.
    Kitchen change_kitchen(const KitchenChange& change);

    // ---- Trials ----

    // Error: see NewTrial; a setting or factor that is none of setting_words.
    Trial add_trial(const NewTrial& trial);
    // A bake that belongs to it already gets the new variant. Error: no such variant.
    Trial add_to_trial(TrialId trial, const std::vector<TrialBake>& bakes);
    // In the order they were begun.
    [[nodiscard]] std::vector<Trial> trials() const;
    // By number or name; names are found as with flour().
    [[nodiscard]] Trial trial(std::string_view name) const;

    // ---- Tastings ----

    // All of them or none. Error: a score outside 0 to 10 or of no line, nothing said at all.
    std::vector<Tasting> add_tastings(const std::vector<NewTasting>& tastings);
    // A blind sitting: every slice has its code and its turn, and no scores yet.
    Sitting add_sitting(const NewSitting& sitting);
    // Error: it has scores already.
    Tasting score_serving(TastingId tasting, const TasteScores& scores);
    [[nodiscard]] Sitting sitting(SittingId id) const;
    // By date. Of a sitting that is not over, too: whoever shows them must not tell their bakes.
    [[nodiscard]] std::vector<Tasting> tastings() const;

    // ---- Print checks ----

    // That target's printed line of 100 mm measures so much; goes before what was kept. Error: not
    // within 50 to 150 mm.
    void keep_print_check(TargetKind target, Millimetres line);
    // Whether one was kept.
    bool forget_print_check(TargetKind target);
    [[nodiscard]] PrintChecks print_checks() const;

    // ---- Slices, photos, readings ----

    // Keeps a copy of the photo and files its slices, each with its reading where it has one. The
    // same photo, told by its content, is kept once. Error: the photo cannot be read; no slices; a
    // slice of this photo is filed under that loaf already.
    std::vector<SliceEntry> file_photo(const std::filesystem::path& photo,
                                       const std::vector<NewSlice>& slices);
    [[nodiscard]] SliceEntry slice(SliceId id) const;
    // The kept copy. Throws Error when the file is no longer there.
    [[nodiscard]] std::filesystem::path photo_file(SliceId id) const;

    // A further reading of a slice, now its newest.
    Reading add_reading(SliceId slice, const NewReading& reading);
    // Newest first.
    [[nodiscard]] std::vector<Reading> readings(SliceId slice) const;
    // `width_px`, `height_px` and `mm_per_pixel` are of the full picture whatever its size.
    [[nodiscard]] std::map<PictureKind, ReadingPicture> pictures(
        ReadingId reading, PictureSize size = PictureSize::full) const;
    // As NewReading's.
    [[nodiscard]] std::string document(ReadingId reading) const;

    // ---- Safety; docs/safe.md says what each means to a baker ----

    // Out of every list, sum and statistic, until it is taken out of the bin. Error: it is there
    // already (is not there).
    Dropped drop(Droppable kind, std::int64_t number);
    Dropped take_out(Droppable kind, std::int64_t number);
    // The last dropped first.
    [[nodiscard]] std::vector<Dropped> bin() const;
    // For good: what is in the bin, with what hangs on it, and photos that no slice shows any more.
    // Changes before cannot be taken back from then on.
    Emptied empty_bin();
    // Kept and shown, but left out of statistics; without a reason: counted again.
    BakeEntry set_aside(BakeId id, const std::optional<std::string>& reason);

    // The 20 last, newest first.
    [[nodiscard]] std::vector<Change> changes() const;
    // Takes back the newest change; makes again the one that was taken back last. Error: there is
    // none.
    Change undo();
    Change redo();

    // Every thing with its parts as one JSON document (docs/database.md), and the photos into
    // `photos`, a folder, where one is given. Error: a file cannot be written.
    ExportCounts export_to(std::ostream& json,
                           const std::optional<std::filesystem::path>& photos) const;
    // Takes in what another journal, or this one, wrote: wholly or not at all. Photos are looked
    // for in `photos`. Error: `text` is no such document; names the place. What the two journals
    // tell differently is listed, and unless `choices` say which to take, nothing is done.
    Merged merge(std::string_view text, const std::filesystem::path& photos,
                 const MergeChoices& choices);

    // Everything, photos too, into one file; others may go on using the journal. `file` must not
    // exist. Error: it cannot be written; a photo is missing or is not what it was.
    BackupCounts back_up(const std::filesystem::path& file) const;
    // Puts the journal in `folder` back to what the file holds: a backup, or a database that
    // restore() itself put aside. What stood there is put aside first, under kept/. Error: the file
    // is damaged or of a newer program; then nothing is done.
    static Restored restore(const std::filesystem::path& folder, const std::filesystem::path& file,
                            Environment = {});

    // What is wrong with the journal's files; mend() puts right what can be without loss.
    [[nodiscard]] std::vector<Finding> check() const;
    std::vector<Finding> mend();

  private:
    class Impl;
    explicit Journal(std::unique_ptr<Impl> impl);
    std::unique_ptr<Impl> impl_;
};

}  // namespace loafmark::journal
