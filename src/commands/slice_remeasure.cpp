// loafmark slice remeasure.
#include <map>
#include <nlohmann/json.hpp>
#include <ostream>
#include <set>

#include "commands/messages.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/print_check.h"
#include "commands/progress.h"
#include "commands/slice.h"
#include "commands/slice_homes.h"
#include "commands/text.h"

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

// The outline that a kept document tells, in photo pixels; empty where it tells none.
std::vector<PhotoPoint> outline_in(const std::string& document) {
    std::vector<PhotoPoint> outline;
    const auto json = nlohmann::json::parse(document, nullptr, false);
    if (!json.is_object() || !json.contains("outline")) return outline;
    for (const auto& point : json["outline"])
        outline.push_back({point.at(0).get<double>(), point.at(1).get<double>()});
    return outline;
}

// Even-odd rule.
bool lies_within(PhotoPoint p, const std::vector<PhotoPoint>& outline) {
    bool inside = false;
    for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
        const PhotoPoint &a = outline[i], &b = outline[j];
        if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
            inside = !inside;
    }
    return inside;
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
        context_.out << "Measured " << counted(done_, "slice", "slices") << " again.\n";
        return outcome_;
    }

  private:
    void add_reading(const journal::SliceEntry& entry, const analysis::Measurement& measurement) {
        const std::size_t index = same_slice(entry, measurement.reading);
        journal_.add_reading(entry.slice.id, reading_of(measurement, index));
        ++done_;
    }

    // Which slice of the new reading lies where the old reading saw this one: numbers shift where
    // another version sees a slice more, or one less. 0-based.
    std::size_t same_slice(const journal::SliceEntry& entry, const PhotoReading& reading) const {
        if (!entry.reading) return number_in_photo(entry, reading);
        const auto old = outline_in(journal_.document(entry.reading->id));
        if (old.empty()) return number_in_photo(entry, reading);
        for (std::size_t i = 0; i < reading.slices.size(); ++i)
            if (lies_within(middle_of(old), reading.slices[i].outline)) return i;
        throw not_seen(entry, reading);
    }

    static std::size_t number_in_photo(const journal::SliceEntry& entry,
                                       const PhotoReading& reading) {
        const auto index = static_cast<std::size_t>(entry.slice.index_in_photo - 1);
        if (index >= reading.slices.size()) throw not_seen(entry, reading);
        return index;
    }

    static Failure not_seen(const journal::SliceEntry& entry, const PhotoReading& reading) {
        const std::string places = places_in_photo(reading);
        return {
            "slice " + std::to_string(entry.slice.id.value) + ", number " +
                std::to_string(entry.slice.index_in_photo) + " in " + entry.slice.photo_name +
                ", is not seen where it was; seen now: " + std::to_string(reading.slices.size()) +
                (places.empty() ? "" : " (" + places + ")"),
            "its old readings stay"};
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
    auto wanted = with_kept_print_checks(with_kept_pictures(options.analysis), journal);
    wanted.usual_thickness = journal.kitchen().facts.slice_thickness;
    Remeasuring remeasuring(journal, context, slices.size());
    std::vector<PhotoJob> jobs;
    std::vector<const std::vector<journal::SliceEntry>*> entries_of_job;
    for (const auto& [hash, entries] : slices) {
        try {
            for (const journal::SliceEntry& entry : entries)
                refuse_to_lose_scale(entry, options.analysis);
            PhotoJob job{journal.photo_file(entries.front().slice.id), wanted};
            job.options.thickness = entries.front().slice.thickness;
            job.options.since_oven = entries.front().slice.since_oven;
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
