#include "commands/photo_files.h"

#include <iomanip>
#include <limits>
#include <map>
#include <sstream>

#include "commands/failure.h"
#include "commands/files.h"

namespace loafmark::commands {
namespace {

std::string stem_of_slice(const std::filesystem::path& photo, std::size_t index) {
    return photo.stem().string() + "-" + std::to_string(index + 1);
}

// {"mm_per_pixel": 0.1, "photo_from_frame": [[...], [...], [...]]}
std::string frame_document(const analysis::SliceMaps& maps) {
    std::ostringstream text;
    text.imbue(std::locale::classic());
    text << std::setprecision(std::numeric_limits<double>::max_digits10);
    text << "{\"schema\": 1, \"mm_per_pixel\": ";
    if (maps.mm_per_pixel)
        text << maps.mm_per_pixel->count();
    else
        text << "null";
    text << ", \"photo_from_frame\": [";
    for (std::size_t row = 0; row < 3; ++row) {
        const auto& values = maps.photo_from_frame[row];
        text << (row > 0 ? ", " : "") << '[' << values[0] << ", " << values[1] << ", " << values[2]
             << ']';
    }
    text << "]}\n";
    return text.str();
}

}  // namespace

void refuse_equal_stems(const std::vector<std::string>& photos) {
    std::map<std::string, std::string> photo_of_stem;
    for (const std::string& photo : photos) {
        const std::string stem = std::filesystem::path(photo).stem().string();
        const auto [known, is_new] = photo_of_stem.emplace(stem, photo);
        if (!is_new)
            throw UsageError("the files of " + known->second + " and " + photo +
                                 " would have one name (" + stem + "-1...)",
                             "measure them in two calls with two folders, or rename one");
    }
}

std::vector<std::string> write_overlays(const std::filesystem::path& folder,
                                        const std::filesystem::path& photo,
                                        const std::vector<Picture>& overlays) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < overlays.size(); ++i) {
        names.push_back(stem_of_slice(photo, i) + ".overlay.jpg");
        write_file(folder / names.back(), analysis::encode_jpeg(overlays[i]));
    }
    return names;
}

std::vector<documents::LabelMapNames> write_label_maps(
    const std::filesystem::path& folder, const std::filesystem::path& photo,
    const std::vector<analysis::SliceMaps>& maps) {
    std::vector<documents::LabelMapNames> names;
    for (std::size_t i = 0; i < maps.size(); ++i) {
        const std::string stem = stem_of_slice(photo, i);
        names.push_back({.cells = stem + ".cells.png",
                         .slice = stem + ".slice.png",
                         .crumb = stem + ".crumb.png",
                         .frame = stem + ".frame.json"});
        write_file(folder / names.back().cells, analysis::encode_png(maps[i].cells));
        write_file(folder / names.back().slice, analysis::encode_png(maps[i].slice));
        write_file(folder / names.back().crumb, analysis::encode_png(maps[i].crumb));
        write_file(folder / names.back().frame, frame_document(maps[i]));
    }
    return names;
}

}  // namespace loafmark::commands
