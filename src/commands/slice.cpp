#include "commands/slice.h"

#include <ostream>

#include "commands/messages.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/progress.h"
#include "commands/reading_text.h"
#include "commands/remedies.h"
#include "commands/text.h"

namespace loafmark::commands {
namespace {

journal::LoafId loaf_of(const std::string& bake_text, int number, const journal::Journal& journal,
                        Date today) {
    const journal::BakeEntry bake = named_bake(journal, bake_text, today);
    for (const journal::LoafEntry& loaf : bake.loaves)
        if (loaf.loaf.number == number) return loaf.loaf.id;
    throw UsageError("bake " + std::to_string(bake.bake.id.value) + " (" + bake.bake.title +
                         ") has no loaf " + std::to_string(number),
                     "it has " + std::to_string(bake.loaves.size()));
}

// Where the slices of a photo belong, found before anything is measured.
struct Homes {
    journal::LoafId single;                // of a photo's only slice
    std::vector<journal::LoafId> several;  // of the slices of a photo that shows several
};

Homes homes_of(const SliceAddOptions& options, const journal::Journal& journal, Date today) {
    Homes homes{loaf_of(options.bake, options.loaf, journal, today), {}};
    for (const std::string& bake : options.bakes_of_slices)
        homes.several.push_back(loaf_of(bake, options.loaf, journal, today));
    return homes;
}

std::vector<journal::LoafId> loaves_for(const std::string& photo, std::size_t slices,
                                        const Homes& homes, const SliceFacts& facts) {
    if (slices == 0) throw Failure("no slice seen in " + photo, no_slice_remedy);
    if (slices == 1) return {homes.single};
    const std::string count = std::to_string(slices);
    if (homes.several.size() != slices)
        throw Failure(
            photo + " shows " + count + " slices, and " +
                (homes.several.empty() ? "one bake is named"
                                       : "--slices names " + std::to_string(homes.several.size())),
            "name the bake of each, left to right, top to bottom, with --slices "
            "BAKE,BAKE");
    if (facts.mass)
        throw Failure(photo + " shows " + count + " slices, and --mass is that of one",
                      "leave --mass out, or photograph them one by one");
    return homes.several;
}

// Files photos as they are measured, and says so.
class Filing {
  public:
    Filing(const SliceAddOptions& options, Homes homes, journal::Journal& journal,
           const Context& context)
        : options_(options),
          homes_(std::move(homes)),
          journal_(journal),
          context_(context),
          facts_(options.facts),
          progress_(context.err, context.err_is_terminal, "measuring", options.photos.size()) {
        facts_.thickness = options.analysis.thickness;
    }

    void take(std::size_t index, const analysis::Measurement& measurement) {
        try {
            const std::string& photo = options_.photos[index];
            const std::size_t count = measurement.reading.slices.size();
            const auto loaves = loaves_for(photo, count, homes_, facts_);
            std::vector<journal::NewSlice> slices;
            for (std::size_t i = 0; i < count; ++i)
                slices.push_back(slice_of(measurement, i, loaves[i], facts_));
            const auto filed = journal_.file_photo(photo, slices);
            progress_.wipe();
            say(photo, filed, measurement.reading);
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

    const SliceAddOptions& options_;
    Homes homes_;
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

Outcome run(const SliceAddOptions& options, journal::Journal& journal, const Context& context,
            const MeasurePhoto& measure) {
    if (options.facts.mass && options.photos.size() > 1)
        throw UsageError("--mass is that of one slice, and " +
                             std::to_string(options.photos.size()) + " photos are given",
                         "add them one by one");
    const auto wanted = with_kept_pictures(options.analysis);
    reading_option("the options:", [&] { return wanted.check(), true; });
    Filing filing(options, homes_of(options, journal, context.today), journal, context);
    std::vector<PhotoJob> jobs;
    for (const std::string& photo : options.photos)
        jobs.push_back({photo, wanted});
    measure_photos(
        jobs, measure,
        [&](std::size_t i, const analysis::Measurement& measured) { filing.take(i, measured); },
        [&](std::size_t, std::exception_ptr error) { filing.fail(error); });
    return filing.outcome();
}

}  // namespace loafmark::commands
