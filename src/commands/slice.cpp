#include "commands/slice.h"

#include <ostream>

#include "arithmetic/quantities.h"
#include "commands/messages.h"
#include "commands/options.h"
#include "commands/print_check.h"
#include "commands/progress.h"
#include "commands/reading_text.h"
#include "commands/slice_homes.h"
#include "commands/text.h"

namespace loafmark::commands {
namespace {

// What the kitchen does usually, for what was not said; lines that say so, or that the loaf was cut
// sooner than usual.
std::string fill_in_habits(SliceAddOptions& options, const journal::KitchenFacts& habits) {
    std::string taken;
    if (options.analysis.thickness.empty() && habits.slice_thickness) {
        options.analysis.usual_thickness = habits.slice_thickness;
        taken = to_text(*habits.slice_thickness) + " thick where it lies on a mat";
    }
    std::optional<Hours>& since_oven = options.facts.since_oven;
    std::string text;
    if (since_oven && habits.cut_after && *since_oven < *habits.cut_after)
        text = "Cut " + hours_text(*since_oven) + " after the oven, sooner than your kitchen's " +
               hours_text(*habits.cut_after) + ": compare it with care.\n";
    if (!since_oven && habits.cut_after) {
        since_oven = habits.cut_after;
        taken += (taken.empty() ? "cut " : ", cut ") + hours_text(*since_oven) + " after the oven";
    }
    if (!taken.empty())
        text += "As usual in your kitchen: " + taken +
                ". Was it otherwise? Say --thickness and --since-oven.\n";
    return text;
}

// Files photos as they are measured, and says so.
class Filing {
  public:
    Filing(const SliceAddOptions& options, const SliceHomes& homes, journal::Journal& journal,
           const Context& context)
        : options_(options),
          homes_(homes),
          journal_(journal),
          context_(context),
          facts_(options.facts),
          progress_(context.err, context.err_is_terminal, "measuring", homes.photos.size()) {
        facts_.thickness = options.analysis.thickness;
    }

    void take(std::size_t index, const analysis::Measurement& measurement) {
        try {
            const std::string& photo = homes_.photos[index];
            check_slice_count(photo, measurement.reading, homes_);
            std::vector<journal::NewSlice> slices;
            for (std::size_t i = 0; i < homes_.loaves.size(); ++i)
                slices.push_back(slice_of(measurement, i, homes_.loaves[i], facts_));
            const auto filed = journal_.file_photo(photo, slices);
            progress_.wipe();
            say(photo, filed, measurement.reading);
            keep_print_check_of(measurement.reading);
            progress_.step();
        } catch (const std::exception&) {
            fail(std::current_exception());
        }
    }

    void fail(std::exception_ptr error) {
        progress_.wipe();
        context_.err << stderr_line("error", message_of(error), colour_on_err(context_));
        outcome_ = Outcome::incomplete;
        progress_.step();
    }

    [[nodiscard]] Outcome outcome() const { return outcome_; }

  private:
    void say(const std::string& photo, const std::vector<journal::SliceEntry>& filed,
             const PhotoReading& reading) const {
        context_.out << "Filed " << photo << " as slice";
        for (const journal::SliceEntry& entry : filed)
            context_.out << (&entry == &filed.front() ? " " : ", ") << entry.slice.id.value;
        context_.out << ".\n" << photo_text(reading) << std::flush;
    }

    // What was said of the print of the target in the photo holds for later photos too.
    void keep_print_check_of(const PhotoReading& reading) {
        const std::optional<TargetKind> target = reading.scale.target;
        const std::optional<Millimetres> line = options_.analysis.print_check;
        if (!target || !line) return;
        const journal::PrintChecks kept = journal_.print_checks();
        const auto known = kept.find(*target);
        if (known == kept.end() || known->second.line != *line)
            context_.out << keep_print_check(journal_, *target, *line) << std::flush;
    }

    const SliceAddOptions& options_;
    const SliceHomes& homes_;
    journal::Journal& journal_;
    const Context& context_;
    SliceFacts facts_;
    Progress progress_;
    Outcome outcome_ = Outcome::done;
};

}  // namespace

Outcome run(const SliceAddOptions& options, journal::Journal& journal, const Context& context) {
    return run(options, journal, context, analysis::measure_photo);
}

Outcome run(const SliceAddOptions& said, journal::Journal& journal, const Context& context,
            const MeasurePhoto& measure) {
    SliceAddOptions options = said;
    const SliceHomes homes = slice_homes(options, journal, context.today);
    const std::string habits = fill_in_habits(options, journal.kitchen().facts);
    auto wanted = with_kept_print_checks(with_kept_pictures(options.analysis), journal);
    wanted.since_oven = options.facts.since_oven;
    reading_option("the options:", [&] { return wanted.check(), true; });
    context.out << habits;
    Filing filing(options, homes, journal, context);
    std::vector<PhotoJob> jobs;
    for (const std::string& photo : homes.photos)
        jobs.push_back({photo, wanted});
    measure_photos(
        jobs, measure,
        [&](std::size_t i, const analysis::Measurement& measured) { filing.take(i, measured); },
        [&](std::size_t, std::exception_ptr error) { filing.fail(error); });
    return filing.outcome();
}

}  // namespace loafmark::commands
