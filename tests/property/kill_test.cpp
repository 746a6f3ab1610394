// A process killed at random moments while it writes: the journal is then as before or as after,
// and whole. The child does its work and nothing else, so that the kills fall into the writing.
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <random>
#include <sstream>
#include <thread>

#include "catch.h"
#include "journal/journal.h"

using namespace loafmark;
using namespace loafmark::journal;
using std::chrono::microseconds;

namespace {

constexpr unsigned seed = 20260301;

struct Folder {
    std::filesystem::path path = std::filesystem::temp_directory_path() /
                                 ("loafmark-kill-" + std::to_string(std::random_device{}()));
    Folder() { std::filesystem::create_directories(path); }
    ~Folder() { std::filesystem::remove_all(path); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::filesystem::path operator/(const std::string& name) const { return path / name; }
};

std::string exported(const Journal& journal) {
    std::ostringstream json;
    (void)journal.export_to(json, std::nullopt);
    return json.str();
}

// What the journal tells, without when; opened as the next command would open it.
std::string state_of(const std::filesystem::path& folder) {
    Journal journal = Journal::open(folder);
    for (const Finding& finding : journal.mend()) {
        INFO(finding.what);
        REQUIRE((finding.harmless || finding.mended));
    }
    for (const Finding& finding : journal.check()) {
        INFO(finding.what);
        REQUIRE(finding.harmless);
    }
    std::string state = exported(journal);
    const std::size_t at = state.find("\"exported_at\"");
    return state.erase(at, state.find('\n', at) - at);
}

void fill(const std::filesystem::path& folder, int bakes) {
    Journal journal = Journal::open(folder);
    NewFlour flour;
    flour.name = "White";
    const Flour white = journal.add_flour(flour);
    NewBag bag;
    bag.flour = white.id;
    bag.bought_mass = Grams(25000);
    (void)journal.add_bag(bag);
    const FormulaVersion plain = journal.add_formula(
        "Plain",
        {{{IngredientKind::flour, "White", white.id, Fraction(1), Fraction(0), Fraction(1),
           "dough"},
          {IngredientKind::water, "Water", {}, Fraction(0.68), Fraction(1), Fraction(0), "dough"}},
         {}});
    for (int i = 0; i < bakes; ++i) {
        NewBake bake;
        bake.date = {2026, 3, 1 + i};
        bake.formula_version = plain.id;
        bake.dough_mass = Grams(900);
        (void)journal.add_bake(bake);
    }
}

// Runs the work in a child. `kill_after` none: to its end. How long it took, and whether it ended
// by itself.
struct Run {
    microseconds took{0};
    bool ended = false;
};
Run run(const std::function<void()>& work, std::optional<microseconds> kill_after) {
    const auto begin = std::chrono::steady_clock::now();
    const ::pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        int code = 0;
        try {
            work();
        } catch (...) {
            code = 1;
        }
        ::_exit(code);
    }
    if (kill_after) {
        std::this_thread::sleep_for(*kill_after);
        ::kill(child, SIGKILL);
    }
    int status = 0;
    while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
    }
    REQUIRE((!WIFEXITED(status) || WEXITSTATUS(status) == 0));
    return {std::chrono::duration_cast<microseconds>(std::chrono::steady_clock::now() - begin),
            WIFEXITED(status)};
}

struct Tally {
    int before = 0;
    int after = 0;
    int in_the_midst = 0;  // killed before the work had ended
};

// `count` kills at moments drawn evenly from the time that the work takes. `other` is what the
// journal may be instead of `before`; empty: anything that `back` brings to `before`.
Tally kill_again_and_again(const std::filesystem::path& folder, int count, unsigned own_seed,
                           const std::function<void()>& work, const std::function<void()>& back,
                           const std::string& other) {
    const std::string before = state_of(folder);
    std::vector<microseconds> took;
    for (int i = 0; i < 5; ++i) {
        took.push_back(run(work, std::nullopt).took);
        back();
        REQUIRE(state_of(folder) == before);
    }
    std::ranges::sort(took);
    std::mt19937 random(own_seed);
    std::uniform_int_distribution<long> moment(0, took[2].count());
    Tally tally;
    for (int i = 0; i < count; ++i) {
        const Run one = run(work, microseconds(moment(random)));
        tally.in_the_midst += one.ended ? 0 : 1;
        const std::string state = state_of(folder);
        if (state == before) {
            ++tally.before;
            continue;
        }
        ++tally.after;
        if (!other.empty()) REQUIRE(state == other);
        // Taken back, what is left is what was before: nothing half-done came along.
        back();
        REQUIRE(state_of(folder) == before);
    }
    return tally;
}

void check(const Tally& tally, int count) {
    INFO(tally.before << " before, " << tally.after << " after, " << tally.in_the_midst
                      << " in the midst");
    CHECK(tally.before + tally.after == count);
    CHECK(tally.before > 0);
    CHECK(tally.in_the_midst > count / 4);
}

}  // namespace

TEST_CASE("killed 80 times while a bake with a photo is added, the journal has it or has it not") {
    const Folder folder;
    const auto place = folder / "journal";
    fill(place, 3);
    std::ofstream(folder / "slice.jpg") << std::string(300'000, 'p');
    const auto work = [&] {
        Journal journal = Journal::open(place);
        const BakeEntry like = journal.find()[0];
        NewBake bake;
        bake.date = {2026, 4, 1};
        bake.formula_version = like.bake.formula_version;
        bake.dough_mass = Grams(1800);
        bake.loaves.resize(2);
        const BakeEntry added = journal.add_bake(bake);
        NewSlice slice;
        slice.loaf = added.loaves[1].loaf.id;
        (void)journal.file_photo(folder / "slice.jpg", {slice});
    };
    // One change or two, as far as it came.
    const auto back = [&] {
        Journal journal = Journal::open(place);
        while (journal.find().size() > 3)
            (void)journal.undo();
    };
    check(kill_again_and_again(place, 80, seed, work, back, ""), 80);
}

TEST_CASE("killed 60 times while a journal is imported, all of it came in or nothing") {
    const Folder folder;
    fill(folder / "theirs", 20);
    const std::string theirs = exported(Journal::open(folder / "theirs"));
    const auto place = folder / "journal";
    NewFlour rye;
    rye.name = "Rye";
    (void)Journal::open(place).add_flour(rye);
    const auto work = [&] {
        Journal journal = Journal::open(place);
        if (!journal.merge(theirs, "nowhere", {}).done) throw Error("not merged");
    };
    const auto back = [&] {
        Journal journal = Journal::open(place);
        REQUIRE(journal.merge(theirs, "nowhere", {}).added.empty());
        (void)journal.undo();
    };
    check(kill_again_and_again(place, 60, seed + 1, work, back, ""), 60);
}

TEST_CASE(
    "killed 60 times while a backup is restored, the journal is the old or the restored one") {
    const Folder folder;
    const auto place = folder / "journal";
    fill(place, 20);
    (void)Journal::open(place).back_up(folder / "then.tar");
    const std::string then = state_of(place);
    NewFlour rye;
    rye.name = "Rye";
    (void)Journal::open(place).add_flour(rye);
    (void)Journal::open(place).back_up(folder / "now.tar");
    const auto work = [&] { (void)Journal::restore(place, folder / "then.tar"); };
    const auto back = [&] { (void)Journal::restore(place, folder / "now.tar"); };
    check(kill_again_and_again(place, 60, seed + 2, work, back, then), 60);
    // What each restore put aside is whole too.
    int kept = 0;
    for (const auto& entry : std::filesystem::directory_iterator(place / "kept")) {
        if (entry.path().extension() != ".db" || ++kept > 20) continue;
        const auto look = folder / ("look-" + std::to_string(kept));
        (void)Journal::restore(look, entry.path());
        (void)state_of(look);
    }
    CHECK(kept > 0);
}
