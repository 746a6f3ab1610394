// The program killed at random moments while it writes: the journal is then as before or as after,
// and whole.
#include <algorithm>
#include <random>

#include "catch.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

using std::chrono::microseconds;

// What the journal holds, as `export` writes it, without when.
std::string state_of(const Kitchen& kitchen) {
    (void)kitchen.done({"export", "-o", "state.json"});
    std::string state = kitchen.read("state.json");
    const std::size_t at = state.find("\"exported_at\"");
    return state.erase(at, state.find('\n', at) - at);
}

void fill(const Kitchen& kitchen) {
    (void)kitchen.done({"flour", "add", "White", "--grain", "wheat"});
    (void)kitchen.done({"bag", "add", "White", "--mass", "25kg"});
    (void)kitchen.done({"formula", "add", "Plain", "--flour", "White=100%", "--water", "68%",
                        "--salt", "2%", "--yeast", "1%"});
    for (int i = 1; i <= 5; ++i)
        (void)kitchen.done({"bake", "add", "--formula", "Plain", "--dough", "900g", "--date",
                            "2026-03-0" + std::to_string(i)});
}

// Runs it once to the end in a copy to learn how long it takes, then again and again, killed
// somewhere within. `back()` makes the state before again where the kill came too late.
struct Tally {
    int before = 0;
    int after = 0;
};

class Killer {
  public:
    explicit Killer(unsigned seed) : random_(seed) {}

    // The moment is drawn evenly from the command's own time, start and end included.
    void kill_once(const Kitchen& kitchen, const std::vector<std::string>& command,
                   microseconds takes) {
        std::uniform_int_distribution<long> moment(0, takes.count() * 11 / 10);
        (void)kitchen.run_and_kill(command, microseconds(moment(random_)));
    }

  private:
    std::mt19937 random_;
};

// The middle of five runs, each taken back by `back`.
template <class Back>
microseconds time_of(const Kitchen& kitchen, const std::vector<std::string>& command, Back back) {
    std::vector<microseconds> took;
    for (int i = 0; i < 5; ++i) {
        const Finished finished = kitchen.run(command);
        REQUIRE(finished.exit_code == 0);
        took.push_back(finished.took);
        back();
    }
    std::ranges::sort(took);
    return took[2];
}

void check_whole(const Kitchen& kitchen) {
    const Finished check = kitchen.run({"check", "--mend"});
    INFO(check.out << check.err);
    REQUIRE(check.exit_code == 0);
}

constexpr unsigned seed = 20260301;

}  // namespace

TEST_CASE("killed 80 times while a bake is added, the journal has it wholly or not at all") {
    const Kitchen kitchen;
    fill(kitchen);
    const std::vector<std::string> add{"bake",    "add",        "--formula", "Plain",
                                       "--dough", "1.8kg",      "--loaves",  "2",
                                       "--date",  "2026-04-01", "--room",    "21C"};
    const auto undo = [&] { (void)kitchen.done({"undo"}); };
    const microseconds takes = time_of(kitchen, add, undo);
    const std::string before = state_of(kitchen);
    Killer killer(seed);
    Tally tally;
    for (int i = 0; i < 80; ++i) {
        killer.kill_once(kitchen, add, takes);
        check_whole(kitchen);
        if (state_of(kitchen) == before) {
            ++tally.before;
            continue;
        }
        ++tally.after;
        // Taken back, what is left is what was before: nothing half-done came along.
        undo();
        REQUIRE(state_of(kitchen) == before);
    }
    CHECK(tally.before > 0);
    CHECK(tally.after > 0);
}

TEST_CASE("killed 60 times while a journal is imported, all of it came in or nothing") {
    const Kitchen other;
    fill(other);
    (void)other.done({"export", "-o", "other.json"});
    const Kitchen kitchen;
    (void)kitchen.done({"flour", "add", "Rye", "--grain", "rye"});
    kitchen.write("other.json", other.read("other.json"));
    const std::vector<std::string> import{"import", "other.json"};
    const auto undo = [&] { (void)kitchen.done({"undo"}); };
    const microseconds takes = time_of(kitchen, import, undo);
    const std::string before = state_of(kitchen);
    Killer killer(seed + 1);
    Tally tally;
    for (int i = 0; i < 60; ++i) {
        killer.kill_once(kitchen, import, takes);
        check_whole(kitchen);
        if (state_of(kitchen) == before) {
            ++tally.before;
            continue;
        }
        ++tally.after;
        const Finished again = kitchen.run(import);
        REQUIRE(again.out == "Nothing new: all of it is here already.\n");
        undo();
        REQUIRE(state_of(kitchen) == before);
    }
    CHECK(tally.before > 0);
    CHECK(tally.after > 0);
}

TEST_CASE(
    "killed 60 times while a backup is restored, the journal is the old or the restored one") {
    const Kitchen kitchen;
    fill(kitchen);
    (void)kitchen.done({"backup", "then.tar"});
    const std::string then = state_of(kitchen);
    (void)kitchen.done({"flour", "add", "Rye"});
    (void)kitchen.done({"backup", "now.tar"});
    const std::string now = state_of(kitchen);
    const std::vector<std::string> restore{"restore", "then.tar"};
    const auto back = [&] { (void)kitchen.done({"restore", "now.tar"}); };
    const microseconds takes = time_of(kitchen, restore, back);
    Killer killer(seed + 2);
    Tally tally;
    for (int i = 0; i < 60; ++i) {
        killer.kill_once(kitchen, restore, takes);
        check_whole(kitchen);
        const std::string state = state_of(kitchen);
        REQUIRE((state == now || state == then));
        ++(state == now ? tally.before : tally.after);
        if (state == then) back();
    }
    CHECK(tally.before > 0);
    CHECK(tally.after > 0);
    // What each restore put aside is whole too.
    for (const auto& kept : std::filesystem::directory_iterator(kitchen / "journal/kept")) {
        if (kept.path().extension() != ".db") continue;
        (void)kitchen.done({"--journal", "look", "restore", kept.path().string()});
        std::filesystem::remove_all(kitchen / "look/kept");
    }
}

}  // namespace loafmark::end_to_end
