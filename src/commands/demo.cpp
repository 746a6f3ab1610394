#include "commands/demo.h"

#include <array>
#include <ostream>

#include "commands/demo_filing.h"
#include "commands/demo_plan.h"
#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/messages.h"
#include "commands/options.h"
#include "commands/progress.h"
#include "commands/remedies.h"
#include "commands/report.h"
#include "commands/trend.h"
#include "journal/journal.h"

namespace loafmark::commands {
namespace {

namespace fs = std::filesystem;

// Lies in the folder as long as the demo is not finished.
constexpr const char* unfinished_mark = "demo-not-finished";
constexpr std::array shown_trends = {Measure::loaf_height, Measure::openness, Measure::coarseness};

// Makes the folder ready, or refuses it.
void claim(const fs::path& folder, const Context& context) {
    std::error_code error;
    if (fs::exists(folder / unfinished_mark, error)) {
        context.out << "Going on with the demo in " << folder.string()
                    << ", which was broken off.\n";
        return;
    }
    if (fs::exists(folder, error) && !fs::is_directory(folder, error))
        throw Failure(folder.string() + " is a file", "name a new or empty folder");
    if (fs::exists(folder, error) && !fs::is_empty(folder, error))
        throw Failure("the folder " + folder.string() + " is not empty",
                      "name a new or empty folder");
    make_folder(folder);
    write_file(folder / unfinished_mark, std::string_view("loafmark demo is at work here\n"));
}

Outcome measure_and_file(const std::vector<DemoPhoto>& photos, journal::Journal& journal,
                         const Context& context, const MeasurePhoto& measure) {
    Progress progress(context.err, context.err_is_terminal, "measuring", photos.size());
    Outcome outcome = Outcome::done;
    const auto fail = [&](std::exception_ptr error) {
        progress.wipe();
        context.err << stderr_line("error", message_of(error), colour_on_err(context));
        outcome = Outcome::incomplete;
        progress.step();
    };
    const auto file = [&](std::size_t index, const analysis::Measurement& measurement) {
        const DemoPhoto& photo = photos[index];
        try {
            if (measurement.reading.slices.empty())
                throw Failure("no slice seen in " + photo.job.photo.string(), no_slice_remedy);
            journal.file_photo(photo.job.photo,
                               {slice_of(measurement, 0, photo.loaf, photo.facts)});
            progress.step();
        } catch (const std::exception&) {
            fail(std::current_exception());
        }
    };
    std::vector<PhotoJob> jobs;
    for (const DemoPhoto& photo : photos)
        jobs.push_back(photo.job);
    measure_photos(jobs, measure, file,
                   [&](std::size_t, std::exception_ptr error) { fail(error); });
    return outcome;
}

void print_trends(const journal::Journal& journal, const Context& context) {
    for (const Measure measure : shown_trends) {
        TrendOptions options;
        options.measure = measure;
        context.out << "\n";
        (void)run(options, journal, context);
    }
}

}  // namespace

CLI::App& add_demo(CLI::App& parent, DemoOptions& options) {
    CLI::App& app = add_command(
        parent, "demo", "makes a journal from the sample images",
        "Makes a journal of sample bakes in a new folder, measures their photos, prints the "
        "trends\n"
        "and writes the report. The photos are rendered, not baked: they show what the program "
        "does,\n"
        "not what flours do. Remove the folder when you have seen enough.");
    app.footer(
        "Examples:\n"
        "  loafmark demo my-demo\n"
        "  loafmark --journal my-demo find --hydration 70..");
    add_value(app, "DIR", options.folder, plain_text, "", "a new or empty folder")->required();
    add_value(app, "--samples", options.samples, plain_text, "DIR",
              "the folder of the sample images and bakes.json");
    return app;
}

fs::path samples_folder(const std::optional<std::string>& option, const fs::path& program) {
    std::vector<fs::path> places;
    if (option) {
        places.emplace_back(*option);
    } else {
        if (!program.empty()) {
            places.push_back(program.parent_path() / "sample-images");
            places.push_back(program.parent_path().parent_path() / "share" / "loafmark" /
                             "sample-images");
        }
        places.emplace_back(LOAFMARK_SAMPLE_DIR);
    }
    std::string looked;
    for (const fs::path& place : places) {
        std::error_code error;
        if (fs::is_regular_file(place / "bakes.json", error)) return place;
        looked += (looked.empty() ? "" : ", ") + place.string();
    }
    throw Failure("no sample bakes found (no bakes.json in " + looked + ")",
                  "name the folder of the sample images with --samples DIR");
}

Outcome run(const DemoOptions& options, const Context& context) {
    return run(options, context, analysis::measure_photo);
}

Outcome run(const DemoOptions& options, const Context& context, const MeasurePhoto& measure) {
    const fs::path samples = samples_folder(options.samples, context.program);
    const DemoPlan plan = read_demo_plan(samples / "bakes.json");
    const fs::path folder = options.folder;
    claim(folder, context);
    auto journal = journal::Journal::open(folder);
    // The sample photos show a mat that is as long as it should be.
    journal.keep_print_check(TargetKind::a4_mat, Millimetres(100));
    const Outcome outcome =
        measure_and_file(file_demo_bakes(plan, samples, journal), journal, context, measure);
    file_demo_trial(plan, journal);
    if (!plan.scenario.empty()) context.out << plan.scenario << "\n";
    print_trends(journal, context);
    ReportOptions report;
    report.output = (folder / "report.html").string();
    report.title = "Loafmark demo";
    context.out << "\n";
    (void)run(report, journal, context);
    context.out << "The journal is in " << folder.string() << ": loafmark --journal "
                << folder.string() << " find\n";
    if (outcome == Outcome::done) {
        std::error_code ignored;
        fs::remove(folder / unfinished_mark, ignored);
    }
    return outcome;
}

}  // namespace loafmark::commands
