#include "variants.h"

#include <fstream>
#include <stdexcept>

#include <nlohmann/json.hpp>

#include "photo_files.h"

namespace loafmark::phantoms {

namespace {

struct Pixel {
    int x;
    int y;
};

// Which pixel of the upright picture is stored at (x, y).
Pixel upright_pixel(int orientation, int x, int y, int width, int height) {
    switch (orientation) {
        case 2:
            return {width - 1 - x, y};
        case 3:
            return {width - 1 - x, height - 1 - y};
        case 4:
            return {x, height - 1 - y};
        case 5:
            return {y, x};
        case 6:
            return {width - 1 - y, x};
        case 7:
            return {width - 1 - y, height - 1 - x};
        case 8:
            return {y, height - 1 - x};
        default:
            return {x, y};
    }
}

class VariantWriter {
  public:
    VariantWriter(const std::string& stem, const std::filesystem::path& folder)
        : stem_(stem), folder_(folder) {}
    void add(const std::string& change, const std::string& ending, const Picture& picture,
             const PhantomRecipe& recipe, int orientation = 1) {
        const std::string name = stem_ + "." + ending + ".jpg";
        write_photo(picture, recipe, orientation, folder_ / name);
        list_.push_back({{"change", change}, {"photo", name}});
    }
    void finish(const PhantomRecipe& first) const {
        nlohmann::ordered_json document{{"photo", stem_ + ".jpg"},
                                        {"look", first.look},
                                        {"typed", nlohmann::ordered_json::object()},
                                        {"variants", list_}};
        if (first.slices[0].ruled_mm) document["typed"]["thickness_mm"] = *first.slices[0].ruled_mm;
        const std::filesystem::path path = folder_ / (stem_ + ".variants.json");
        std::ofstream file(path);
        file << document.dump(1) << '\n';
        if (!file.flush()) throw std::runtime_error("cannot write " + path.string());
    }

  private:
    std::string stem_;
    std::filesystem::path folder_;
    nlohmann::ordered_json list_ = nlohmann::ordered_json::array();
};

}  // namespace

Picture stored_as(const Picture& upright, int orientation) {
    const bool sideways = orientation >= 5;
    Picture stored{
        sideways ? upright.height : upright.width, sideways ? upright.width : upright.height, {}};
    stored.rgb.reserve(upright.rgb.size());
    for (int y = 0; y < stored.height; ++y)
        for (int x = 0; x < stored.width; ++x) {
            const Pixel p = upright_pixel(orientation, x, y, upright.width, upright.height);
            const auto at = (static_cast<std::size_t>(p.y) * upright.width + p.x) * 3;
            stored.rgb.insert(stored.rgb.end(),
                              {upright.rgb[at], upright.rgb[at + 1], upright.rgb[at + 2]});
        }
    return stored;
}

Picture halved(const Picture& picture) {
    Picture half{picture.width / 2, picture.height / 2, {}};
    half.rgb.reserve(picture.rgb.size() / 4);
    const std::size_t row = static_cast<std::size_t>(picture.width) * 3;
    for (int y = 0; y < half.height; ++y)
        for (int x = 0; x < half.width; ++x)
            for (int c = 0; c < 3; ++c) {
                const std::uint8_t* at = picture.rgb.data() +
                                         2 * static_cast<std::size_t>(y) * row +
                                         static_cast<std::size_t>(6 * x + c);
                half.rgb.push_back(
                    static_cast<std::uint8_t>((at[0] + at[3] + at[row] + at[row + 3] + 2) / 4));
            }
    return half;
}

void write_variants(const ChangedViews& views, const std::string& stem,
                    const std::filesystem::path& folder, int threads) {
    const PhantomRecipe& recipe = views.first;
    const Picture upright = make_phantom(recipe, threads).photo;
    write_photo(upright, recipe, 1, folder / (stem + ".jpg"));
    VariantWriter writer(stem, folder);
    writer.add("turned by 90 degrees", "turned-90", stored_as(upright, 8), recipe);
    writer.add("turned by 180 degrees", "turned-180", stored_as(upright, 3), recipe);
    writer.add("turned by 270 degrees", "turned-270", stored_as(upright, 6), recipe);
    for (int orientation = 2; orientation <= 8; ++orientation)
        writer.add("stored in EXIF orientation 2 to 8", "exif-" + std::to_string(orientation),
                   stored_as(upright, orientation), recipe, orientation);
    writer.add("half the resolution", "half", halved(upright), recipe);
    writer.add("slice mirrored, target not", "mirrored",
               make_phantom(views.mirrored, threads).photo, views.mirrored);
    writer.add("tilted by 20 degrees", "tilted", make_phantom(views.tilted, threads).photo,
               views.tilted);
    writer.finish(recipe);
}

}  // namespace loafmark::phantoms
