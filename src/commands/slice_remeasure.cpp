// loafmark slice remeasure.
#include <map>
#include <ostream>
#include <set>

#include "commands/messages.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/progress.h"
#include "commands/slice.h"

namespace loafmark::commands {
namespace {

using SlicesOfPhoto = std::map<std::string, std::vector<journal::SliceEntry>>;  // by hash

SlicesOfPhoto slices_wanted(const SliceRemeasureOptions& options, const journal::Journal& journal,
                            const Context& context) {
    const std::vector<journal::BakeEntry> bakes =
        options.all ? journal.find()
                    : std::vector{named_bake(journal, *options.bake, context.today)};
    SlicesOfPhoto slices;
    for (const journal::BakeEntry& bake : bakes)
        for (const journal::LoafEntry& loaf : bake.loaves)
            for (const journal::SliceEntry& entry : loaf.slices)
                slices[entry.slice.photo_hash].push_back(entry);
    return slices;
}

// A known length is not kept in the journal: without it the new reading would have no scale.
void refuse_to_lose_scale(const journal::SliceEntry& entry,
                          const analysis::MeasureOptions& options) {
    if (entry.reading && entry.reading->scale_source == source_name(ScaleSource::known_length) &&
        !options.loaf_width)
        throw Failure("slice " + std::to_string(entry.slice.id.value) +
                          " has its scale from a known length, which is not kept",
                      "measure it again with --loaf-width");
}

class Remeasuring {
  public:
    Remeasuring(journal::Journal& journal, const Context& context, std::size_t photos)
        : journal_(journal),
          context_(context),
          progress_(context.err, context.err_is_terminal, "measuring", photos) {}

    void take(const std::vector<journal::SliceEntry>& entries,
              const analysis::Measurement& measurement) {
        for (const journal::SliceEntry& entry : entries)
            try {
                add_reading(entry, measurement);
            } catch (const std::exception&) {
                complain(std::current_exception());
            }
        progress_.step();
    }

    void fail(std::exception_ptr error) {
        complain(error);
        progress_.step();
    }

    [[nodiscard]] Outcome finish() {
        progress_.wipe();
        context_.out << "Measured " << done_ << (done_ == 1 ? " slice" : " slices") << " again.\n";
        return outcome_;
    }

  private:
    void add_reading(const journal::SliceEntry& entry, const analysis::Measurement& measurement) {
        const auto index = static_cast<std::size_t>(entry.slice.index_in_photo - 1);
        const std::size_t seen = measurement.reading.slices.size();
        if (index >= seen)
            throw Failure("slice " + std::to_string(entry.slice.id.value) + " is number " +
                              std::to_string(index + 1) + " in " + entry.slice.photo_name +
                              ", where " + std::to_string(seen) + " are seen now",
                          "its old readings stay");
        journal_.add_reading(entry.slice.id, reading_of(measurement, index));
        ++done_;
    }

    void complain(std::exception_ptr error) {
        progress_.wipe();
        context_.err << stderr_line("error", message_of(error), colour_on_err(context_));
        outcome_ = Outcome::incomplete;
    }

    journal::Journal& journal_;
    const Context& context_;
    Progress progress_;
    std::size_t done_ = 0;
    Outcome outcome_ = Outcome::done;
};

}  // namespace

Outcome run(const SliceRemeasureOptions& options, journal::Journal& journal,
            const Context& context) {
    return run(options, journal, context, analysis::measure_photo);
}

Outcome run(const SliceRemeasureOptions& options, journal::Journal& journal, const Context& context,
            const MeasurePhoto& measure) {
    if (options.bake.has_value() == options.all)
        throw UsageError("which slices?", "name a bake, or say --all");
    const SlicesOfPhoto slices = slices_wanted(options, journal, context);
    Remeasuring remeasuring(journal, context, slices.size());
    std::vector<PhotoJob> jobs;
    std::vector<const std::vector<journal::SliceEntry>*> entries_of_job;
    for (const auto& [hash, entries] : slices) {
        try {
            for (const journal::SliceEntry& entry : entries)
                refuse_to_lose_scale(entry, options.analysis);
            PhotoJob job{journal.photo_file(entries.front().slice.id),
                         with_kept_pictures(options.analysis)};
            job.options.thickness = entries.front().slice.thickness;
            jobs.push_back(job);
            entries_of_job.push_back(&entries);
        } catch (const std::exception&) {
            remeasuring.fail(std::current_exception());
        }
    }
    measure_photos(
        jobs, measure,
        [&](std::size_t i, analysis::Measurement measured) {
            remeasuring.take(*entries_of_job[i], measured);
        },
        [&](std::size_t, std::exception_ptr error) { remeasuring.fail(error); });
    return remeasuring.finish();
}

}  // namespace loafmark::commands
