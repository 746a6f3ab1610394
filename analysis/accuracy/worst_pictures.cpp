#include "worst_pictures.h"

#include <algorithm>
#include <fstream>
#include <numeric>
#include <stdexcept>

#include "crumb_figures.h"
#include "error_map.h"

namespace loafmark::accuracy {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_bytes = 120'000;
constexpr int longest_side = 720;

// Lower is worse.
double standing(const PhotoComparison& photo) {
    double least = 2;
    for (const SliceComparison& slice : photo.slices)
        for (std::size_t i = 0; i < figure_count; ++i) {
            const Outcome& outcome = slice.outcomes[i];
            if (outcome.asked && !outcome.error) return -1;
            if (figures[i].kind == FigureKind::score && !figures[i].of_crumb && outcome.error)
                least = std::min(least, *outcome.error);
        }
    return photo.all_found() ? least : -1;
}

std::vector<std::uint8_t> small_jpeg(const Picture& picture) {
    std::vector<std::uint8_t> bytes;
    for (int quality = 80; quality >= 40; quality -= 10) {
        bytes = analysis::encode_jpeg(picture, quality);
        if (bytes.size() < most_bytes) break;
    }
    return bytes;
}

void write(const fs::path& path, const std::vector<std::uint8_t>& bytes) {
    std::ofstream file(path, std::ios::binary);
    file.write(reinterpret_cast<const char*>(bytes.data()),
               static_cast<std::streamsize>(bytes.size()));
    if (!file.flush()) throw std::runtime_error("cannot write " + path.string());
}

}  // namespace

std::vector<std::size_t> worst_photos(const std::vector<PhotoComparison>& photos,
                                      std::size_t count) {
    std::vector<std::size_t> order(photos.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return standing(photos[a]) < standing(photos[b]);
    });
    order.resize(std::min(count, order.size()));
    return order;
}

std::vector<std::size_t> worst_crumbs(const std::vector<PhotoComparison>& photos,
                                      std::size_t count) {
    const auto f1 = static_cast<std::size_t>(
        std::find_if(figures.begin(), figures.end(),
                     [](const Figure& figure) {
                         return figure.of_crumb && figure.kind == FigureKind::score;
                     }) -
        figures.begin());
    std::vector<std::pair<double, std::size_t>> standing;
    for (std::size_t i = 0; i < photos.size(); ++i)
        for (const SliceComparison& slice : photos[i].slices)
            if (slice.outcomes[f1].asked && slice.outcomes[f1].error) {
                standing.emplace_back(*slice.outcomes[f1].error, i);
                break;
            }
    std::sort(standing.begin(), standing.end());
    std::vector<std::size_t> order;
    for (std::size_t k = 0; k < std::min(count, standing.size()); ++k)
        order.push_back(standing[k].second);
    return order;
}

std::vector<std::string> write_error_map(const Truth& truth, const fs::path& folder) {
    const analysis::Measurement measured =
        analysis::measure_photo(truth.photo, typed_options(truth));
    if (measured.maps.empty() || truth.slices.empty() || !truth.slices.front().cells) return {};
    const analysis::SliceMaps& maps = measured.maps.front();
    std::vector<std::uint16_t> found = maps.cells.labels;
    for (std::uint16_t& label : found)
        if (label && !measured.reading.slices.front().cells.at(label - 1u).counted) label = 0;
    const std::string name = truth.photo.stem().string() + "-errors.jpg";
    write(folder / name,
          small_jpeg(shrunk(error_map(maps, true_cells_in(truth.slices.front(), maps), found),
                            longest_side)));
    return {name};
}

Picture shrunk(const Picture& picture, int longest) {
    const int by = (std::max(picture.width, picture.height) + longest - 1) / longest;
    if (by <= 1) return picture;
    Picture small{picture.width / by, picture.height / by, {}};
    small.rgb.reserve(static_cast<std::size_t>(small.width) * small.height * 3);
    for (int y = 0; y < small.height; ++y)
        for (int x = 0; x < small.width; ++x)
            for (int c = 0; c < 3; ++c) {
                int sum = 0;
                for (int k = 0; k < by * by; ++k) {
                    const std::size_t row = static_cast<std::size_t>(y * by + k / by);
                    const std::size_t column = static_cast<std::size_t>(x * by + k % by);
                    sum += picture.rgb[(row * picture.width + column) * 3 + c];
                }
                small.rgb.push_back(static_cast<std::uint8_t>(sum / (by * by)));
            }
    return small;
}

std::vector<std::string> write_overlays(const Truth& truth, const fs::path& folder) {
    analysis::MeasureOptions options = typed_options(truth);
    options.overlay = true;
    options.label_map = false;
    const analysis::Measurement measured = analysis::measure_photo(truth.photo, options);
    std::vector<std::string> names;
    for (std::size_t i = 0; i < measured.overlays.size(); ++i) {
        const std::string number = measured.overlays.size() > 1 ? "-" + std::to_string(i + 1) : "";
        names.push_back(truth.photo.stem().string() + number + ".jpg");
        write(folder / names.back(), small_jpeg(shrunk(measured.overlays[i], longest_side)));
    }
    return names;
}

}  // namespace loafmark::accuracy
