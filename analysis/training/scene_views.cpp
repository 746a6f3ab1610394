// Renders training scenes, one file a photo, until all are made or the time is up.
//
//     scene_views DIR FIRST_SEED COUNT PROCESSES SECONDS
//
// A file, little-endian: int32 width, height, whether hands or such are there, number of slices;
// for each slice int32 number of points and float32 x, y of its cut face's outline, pixels; the
// photo, 8-bit RGB; the share of each pixel that bread covers, 8-bit.
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "phantoms/random.h"
#include "phantoms/render.h"
#include "scene.h"
#include "scene_recipe.h"

namespace {

using namespace loafmark;
using namespace loafmark::phantoms;
using loafmark::training::SceneRecipe;
using loafmark::training::Shot;
namespace fs = std::filesystem;

void put(std::ofstream& file, std::int32_t v) {
    file.write(reinterpret_cast<const char*>(&v), sizeof v);
}

double pixels_per_mm(const Shot& shot, const std::vector<PlanePoint>& outline) {
    const Homography h = photo_from_slice(shot.recipe.camera, shot.recipe.slices[0].pose);
    PlanePoint middle;
    for (const PlanePoint& p : outline)
        middle = {middle.x + p.x / static_cast<double>(outline.size()),
                  middle.y + p.y / static_cast<double>(outline.size())};
    const PhotoPoint a = project(h, middle), b = project(h, {middle.x + 1, middle.y});
    return std::hypot(b.x - a.x, b.y - a.y);
}

void write_shot(const Shot& shot, const std::vector<SliceBody>& bodies, const fs::path& to) {
    const auto& [left, top, width, height] = shot.window;
    const Scene scene(shot.recipe, bodies);
    PixelCamera camera = pixel_camera(shot.recipe.camera);
    camera.centre_x -= static_cast<float>(left), camera.centre_y -= static_cast<float>(top);
    const Radiance light = render(scene.view(), camera, width, height, shot.recipe.samples,
                                  hash32(shot.recipe.seed, 606), 1);
    Development how = shot.recipe.development;
    how.illuminant = seen_white(shot.recipe.light);
    const auto photo = develop(light, how, pixels_per_mm(shot, bodies[0].outline), 1);
    const fs::path part = to.string() + ".part";
    {
        std::ofstream file(part, std::ios::binary);
        put(file, width), put(file, height), put(file, shot.recipe.things.empty() ? 0 : 1);
        put(file, static_cast<std::int32_t>(bodies.size()));
        for (std::size_t i = 0; i < bodies.size(); ++i) {
            const Homography h = photo_from_slice(shot.recipe.camera, shot.recipe.slices[i].pose);
            put(file, static_cast<std::int32_t>(bodies[i].outline.size()));
            for (const PlanePoint& p : bodies[i].outline) {
                const auto q = project(h, p);
                const float xy[2] = {static_cast<float>(q.x - left), static_cast<float>(q.y - top)};
                file.write(reinterpret_cast<const char*>(xy), sizeof xy);
            }
        }
        file.write(reinterpret_cast<const char*>(photo.rgb.data()),
                   static_cast<std::streamsize>(photo.rgb.size()));
        std::string bread;
        for (const float share : light.bread)
            bread.push_back(static_cast<char>(std::lround(255 * share)));
        file.write(bread.data(), static_cast<std::streamsize>(bread.size()));
    }
    fs::rename(part, to);
}

void make_scene(std::uint32_t seed, const fs::path& folder) {
    const SceneRecipe scene = loafmark::training::random_scene(seed);
    std::vector<SliceBody> bodies;
    for (const SliceRecipe& slice : scene.made_once.slices)
        bodies.push_back(slice_body(scene.made_once, slice, 1));
    for (std::size_t i = 0; i < scene.shots.size(); ++i)
        write_shot(scene.shots[i], bodies,
                   folder / (std::to_string(seed) + "-" + std::to_string(i) + ".scene"));
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 6) {
        std::fputs("scene_views DIR FIRST_SEED COUNT PROCESSES SECONDS\n", stderr);
        return 2;
    }
    const fs::path folder = argv[1];
    const auto first = static_cast<std::uint32_t>(std::atoll(argv[2]));
    const int count = std::atoi(argv[3]), processes = std::atoi(argv[4]);
    const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(std::atoi(argv[5]));
    fs::create_directories(folder);
    for (int worker = 0; worker < processes; ++worker) {
        if (fork() != 0) continue;
        for (int i = worker; i < count && std::chrono::steady_clock::now() < until;
             i += processes) {
            try {
                make_scene(first + static_cast<std::uint32_t>(i), folder);
            } catch (const std::exception& wrong) {
                std::fprintf(stderr, "scene %d: %s\n", i, wrong.what());
            }
        }
        std::_Exit(0);
    }
    while (wait(nullptr) > 0) {
    }
    return 0;
}
