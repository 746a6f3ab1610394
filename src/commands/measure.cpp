#include "commands/measure.h"

#include <ostream>

#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/messages.h"
#include "commands/options.h"
#include "commands/photo_files.h"
#include "commands/progress.h"
#include "commands/reading_text.h"
#include "commands/remedies.h"
#include "documents/photo_document.h"

namespace loafmark::commands {

CLI::App& add_measure(CLI::App& parent, MeasureOptions& options) {
    CLI::App& app = add_command(
        parent, "measure", "measures photos of sliced loaves",
        "Measures the cut face of sliced loaves in photos: how tall, how open, how coarse, how "
        "even.\n"
        "Needs no journal and stores nothing. A printed target in the photo gives its scale; "
        "without\n"
        "one, what needs no scale is measured all the same.");
    app.footer(
        "Examples:\n"
        "  loafmark measure slice.jpg --thickness 15mm\n"
        "  loafmark measure monday.jpg tuesday.jpg --json > readings.json\n"
        "  loafmark measure slice.jpg --loaf-width 118mm --overlay pictures");
    app.add_option("PHOTO", options.photos, "JPEG, PNG or HEIC files")->required()->type_name("");
    add_thickness_option(app, options.analysis);
    add_photo_options(app, options.analysis);
    const std::string group = "Results";
    app.add_flag("--json", options.json, "one JSON document instead of tables")->group(group);
    add_value(app, "--overlay", options.overlay_folder, plain_text, "DIR",
              "write what was seen, drawn into the photo: STEM-n.overlay.jpg")
        ->group(group);
    add_value(app, "--label-map", options.label_map_folder, plain_text, "DIR",
              "write each slice's cells and outlines as PNG: STEM-n.cells.png...")
        ->group(group);
    return app;
}

namespace {

// Gathers what the photos give, in their order.
class Results {
  public:
    Results(const MeasureOptions& options, const Context& context, Progress& progress)
        : options_(options), context_(context), progress_(progress) {}

    void take(std::size_t index, const analysis::Measurement& measurement) {
        const std::filesystem::path photo = options_.photos[index];
        documents::MeasuredPhoto result{measurement.reading};
        if (options_.overlay_folder)
            write_overlays(*options_.overlay_folder, photo, measurement.overlays);
        if (options_.label_map_folder)
            result.label_maps =
                write_label_maps(*options_.label_map_folder, photo, measurement.maps);
        progress_.wipe();
        if (measurement.reading.slices.empty())
            complain_of_no_slice(photo);
        else if (!options_.json)
            print(measurement.reading);
        if (options_.json) photos_.push_back(std::move(result));
        progress_.step();
    }

    void fail(std::exception_ptr error) {
        progress_.wipe();
        complain(message_of(error));
        progress_.step();
    }

    [[nodiscard]] Outcome finish() {
        progress_.wipe();
        if (options_.json)
            context_.out << documents::photo_document(
                photos_, [](WarningCode code) { return std::string(remedy_for(code)); });
        return outcome_;
    }

  private:
    void print(const PhotoReading& reading) {
        context_.out << (printed_any_ ? "\n" : "") << photo_text(reading) << std::flush;
        printed_any_ = true;
    }

    void complain(const std::string& message) {
        context_.err << stderr_line("error", message, colour_on_err(context_));
        outcome_ = Outcome::incomplete;
    }

    void complain_of_no_slice(const std::filesystem::path& photo) {
        complain("no slice seen in " + photo.string() + "; " + no_slice_remedy);
    }

    const MeasureOptions& options_;
    const Context& context_;
    Progress& progress_;
    std::vector<documents::MeasuredPhoto> photos_;
    bool printed_any_ = false;
    Outcome outcome_ = Outcome::done;
};

}  // namespace

Outcome run(const MeasureOptions& options, const Context& context) {
    return run(options, context, analysis::measure_photo);
}

Outcome run(const MeasureOptions& options, const Context& context, const MeasurePhoto& measure) {
    analysis::MeasureOptions wanted = options.analysis;
    wanted.overlay = options.overlay_folder.has_value();
    wanted.label_map = options.label_map_folder.has_value();
    reading_option("the options:", [&] { return wanted.check(), true; });
    if (wanted.overlay || wanted.label_map) refuse_equal_stems(options.photos);
    if (options.overlay_folder) make_folder(*options.overlay_folder);
    if (options.label_map_folder) make_folder(*options.label_map_folder);

    std::vector<PhotoJob> jobs;
    for (const std::string& photo : options.photos)
        jobs.push_back({photo, wanted});
    Progress progress(context.err, context.err_is_terminal, "measuring", jobs.size());
    Results results(options, context, progress);
    measure_photos(
        jobs, measure,
        [&](std::size_t i, const analysis::Measurement& measured) { results.take(i, measured); },
        [&](std::size_t, std::exception_ptr error) { results.fail(error); });
    return results.finish();
}

}  // namespace loafmark::commands
