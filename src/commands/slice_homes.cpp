#include "commands/slice_homes.h"

#include <filesystem>

#include "commands/failure.h"
#include "commands/named.h"
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

// With --slices no bake need stand before the photos: a first word that is a file is one of them.
std::vector<std::string> photos_of(const SliceAddOptions& options) {
    std::vector<std::string> photos = options.photos;
    std::error_code unseen;
    if (!options.bakes_of_slices.empty() &&
        (photos.empty() || std::filesystem::is_regular_file(options.bake, unseen)))
        photos.insert(photos.begin(), options.bake);
    if (photos.empty())
        throw UsageError("PHOTO is required", "loafmark slice add --help shows how it is written");
    return photos;
}

// Two slices beside or above each other get two words.
std::string side(double share, const char* low, const char* middle, const char* high) {
    if (share < 0.45) return low;
    return share < 0.55 ? middle : high;
}

}  // namespace

SliceHomes slice_homes(const SliceAddOptions& options, const journal::Journal& journal,
                       Date today) {
    SliceHomes homes{photos_of(options), {}, !options.bakes_of_slices.empty()};
    const std::vector<std::string> bakes =
        homes.named_one_by_one ? options.bakes_of_slices : std::vector{options.bake};
    for (const std::string& bake : bakes)
        homes.loaves.push_back(loaf_of(bake, options.loaf, journal, today));
    if (options.facts.mass && (homes.photos.size() > 1 || homes.loaves.size() > 1))
        throw UsageError(
            "--mass is that of one slice, and " +
                (homes.photos.size() > 1 ? std::to_string(homes.photos.size()) + " photos are given"
                                         : "--slices names " + std::to_string(homes.loaves.size())),
            "add them one by one");
    return homes;
}

PhotoPoint middle_of(const std::vector<PhotoPoint>& outline) {
    PhotoPoint middle;
    for (const PhotoPoint& p : outline) {
        middle.x += p.x / static_cast<double>(outline.size());
        middle.y += p.y / static_cast<double>(outline.size());
    }
    return middle;
}

std::string places_in_photo(const PhotoReading& reading) {
    if (!reading.size_px) return "";
    const auto [width, height] = *reading.size_px;
    std::string text;
    for (std::size_t i = 0; i < reading.slices.size(); ++i) {
        const PhotoPoint middle = middle_of(reading.slices[i].outline);
        const std::string row = side(middle.y / height, "top ", "", "bottom ");
        const std::string column = side(middle.x / width, "left", "middle", "right");
        text += (i > 0 ? ", " : "") + std::to_string(i + 1) + " " + row + column;
    }
    return text;
}

void check_slice_count(const std::string& photo, const PhotoReading& reading,
                       const SliceHomes& homes) {
    const std::size_t seen = reading.slices.size(), named = homes.loaves.size();
    if (seen == 0) throw Failure("no slice seen in " + photo, no_slice_remedy);
    if (seen == named) return;
    const std::string places = places_in_photo(reading);
    const std::string shown = photo + " shows " + counted(seen, "slice", "slices") +
                              (places.empty() ? "" : " (" + places + ")");
    if (!homes.named_one_by_one)
        throw Failure(shown + ", and one bake is named",
                      "name the bake of each, left to right, top to bottom, with --slices "
                      "BAKE,BAKE");
    throw Failure(shown + ", and --slices names " + std::to_string(named),
                  "name one bake a slice, left to right, top to bottom; take away what is no "
                  "slice, or photograph again a slice that was not seen");
}

}  // namespace loafmark::commands
