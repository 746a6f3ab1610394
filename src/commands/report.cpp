#include "commands/report.h"

#include <ostream>

#include "analysis/measure.h"
#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/options.h"
#include "commands/text.h"
#include "reports/report_page.h"

namespace loafmark::commands {
namespace {

// With more slices than these a page takes the small pictures.
constexpr std::size_t most_full_pictures = 150;
// What passes for a small picture.
constexpr std::size_t small_enough = 25'000;
constexpr int wide_enough_px = 300;

std::optional<journal::ReadingPicture> picture_of(
    const std::map<journal::PictureKind, journal::ReadingPicture>& pictures,
    journal::PictureKind kind) {
    const auto found = pictures.find(kind);
    return found == pictures.end() ? std::nullopt : std::optional(found->second);
}

// Of readings of early versions, which have no small picture.
journal::ReadingPicture made_small(journal::ReadingPicture picture) {
    if (picture.bytes.size() <= small_enough || picture.media_type != "image/jpeg") return picture;
    int by = 2;
    while (by < 8 && picture.width_px / by > wide_enough_px)
        by *= 2;
    picture.bytes = analysis::encode_jpeg(analysis::picture_of_jpeg(picture.bytes, by), 70);
    return picture;
}

std::map<journal::SliceId, reports::SlicePictures> pictures_of(
    const std::vector<journal::BakeEntry>& bakes, const journal::Journal& journal) {
    std::size_t slices = 0;
    for (const journal::BakeEntry& bake : bakes)
        for (const journal::LoafEntry& loaf : bake.loaves)
            slices += loaf.slices.size();
    const bool many = slices > most_full_pictures;
    std::map<journal::SliceId, reports::SlicePictures> pictures;
    for (const journal::BakeEntry& bake : bakes)
        for (const journal::LoafEntry& loaf : bake.loaves)
            for (const journal::SliceEntry& slice : loaf.slices) {
                if (!slice.reading) continue;
                auto kept = journal.pictures(slice.reading->id, many ? journal::PictureSize::small
                                                                     : journal::PictureSize::full);
                if (many)
                    for (auto& [kind, picture] : kept)
                        picture = made_small(std::move(picture));
                pictures[slice.slice.id] = {picture_of(kept, journal::PictureKind::slice),
                                            picture_of(kept, journal::PictureKind::overlay)};
            }
    return pictures;
}

}  // namespace

CLI::App& add_report(CLI::App& parent, ReportOptions& options) {
    CLI::App& app = add_command(
        parent, "report", "the journal as one page",
        "Writes the journal, or the bakes that the options leave, as one HTML page: a shelf with "
        "all\n"
        "slices cut out on one base line at one scale, five questions answered against your own\n"
        "bakes, the crumb map whose marks lead to their bakes, trends, trials and every reading. "
        "It\n"
        "runs no script, fetches nothing, prints, and can be passed on as it is.");
    app.footer(
        "Examples:\n"
        "  loafmark report -o journal.html\n"
        "  loafmark report -o emmer.html --flour emmer --title 'Emmer this spring'");
    add_value(app, "-o,--output", options.output, plain_text, "FILE.html", "the file to write")
        ->required();
    add_value(app, "--title", options.title, plain_text, "TEXT", "what stands above it");
    add_filter_options(app, options.filter);
    return app;
}

Outcome run(const ReportOptions& options, const journal::Journal& journal, const Context& context) {
    reports::ReportInput input;
    input.bakes = journal.find(filter_of(options.filter, journal, context));
    for (const journal::Dropped& dropped : journal.bin())
        if (dropped.table == "bake") ++input.bakes_in_bin;
    input.pictures = pictures_of(input.bakes, journal);
    input.trials = journal.trials();
    input.tastings = journal.tastings();
    if (!words_of(options.filter).empty()) input.all_bakes = journal.find();
    input.title = options.title;
    input.made_at = context.now_local();
    input.made_with = "Loafmark " LOAFMARK_VERSION;
    input.chosen_by = words_of(options.filter);
    write_file(options.output, reports::report_page(input));
    context.out << "Wrote " << options.output << " ("
                << counted(input.bakes.size(), "bake", "bakes") << ").\n";
    return Outcome::done;
}

}  // namespace loafmark::commands
