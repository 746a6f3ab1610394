// Training views on a graphics card: the phantoms' own foam and light, node by node and pixel by
// pixel. The bubbles are packed and the photo is developed on the processor, by the phantoms' own
// code.
#include <cmath>
#include <cstdio>
#include <cstring>
#include <exception>

#include "brick.h"
#include "device_buffer.h"
#include "phantoms/pixel.h"
#include "phantoms/render.h"
#include "view_recipe.h"

namespace loafmark::training {

using namespace phantoms;

namespace {

constexpr double margin_mm = 3;  // of foam beyond the frame
constexpr double half_mm = frame_mm_per_pixel * (frame_pixels - 1) / 2 + margin_mm;
constexpr double most_pixels_per_mm = 14;  // finer photos are rendered at this
constexpr int threads_per_block = 128;
constexpr int most_swellings = 32;

struct Swellings {
    float mm[most_swellings];
    int count;
};

__device__ Vec3 node_place(const VoxelGrid& g, long n) {
    const long i = n % g.nx, j = n / g.nx % g.ny, k = n / g.nx / g.ny;
    return {g.x0 + static_cast<float>(i) * g.step, g.y0 + static_cast<float>(j) * g.step,
            g.z0 + static_cast<float>(k) * g.step};
}

__global__ void fill_level(FoamField foam, BubbleCubes cubes, VoxelGrid grid, std::int8_t* values) {
    const long n = blockIdx.x * static_cast<long>(blockDim.x) + threadIdx.x;
    if (n >= static_cast<long>(grid.nx) * grid.ny * grid.nz) return;
    const Vec3 place = node_place(grid, n), bent = place + bend(place, foam.rules);
    const TwoNearest two = two_nearest(foam, cubes, bent);
    values[n] = quantised(bread_level(foam, two, place, bent, foam.rules.swell_mm), grid.quantum);
}

__global__ void fill_face(FoamField foam, BubbleCubes cubes, VoxelGrid grid, std::int8_t* values) {
    const long n = blockIdx.x * static_cast<long>(blockDim.x) + threadIdx.x;
    if (n >= static_cast<long>(grid.nx) * grid.ny) return;
    const Vec3 place = node_place(grid, n);
    values[n] = quantised(face_level(foam, cubes, place.x, place.y), grid.quantum);
}

// open[s]: nodes of the crumb that are open at swelling s; open[count]: nodes of crumb.
__global__ void count_open(FoamField foam, BubbleCubes cubes, VoxelGrid grid, Swellings swellings,
                           unsigned* open) {
    const long n = blockIdx.x * static_cast<long>(blockDim.x) + threadIdx.x;
    if (n >= static_cast<long>(grid.nx) * grid.ny) return;
    const Vec3 place = node_place(grid, n);
    const PlaneSample here = plane_at(foam.fields, place.x, place.y);
    if (here.crumb_depth <= 0 || here.outline >= 0) return;
    atomicAdd(&open[swellings.count], 1U);
    const Vec3 bent = place + bend(place, foam.rules);
    const TwoNearest two = two_nearest(foam, cubes, bent);
    for (int s = 0; s < swellings.count; ++s)
        if (bread_level(foam, two, place, bent, swellings.mm[s]) > 0) atomicAdd(&open[s], 1U);
}

__global__ void render_view(SceneView scene, PixelCamera camera, int width, int height,
                            SampleCount samples, std::uint32_t seed, PixelValue* out) {
    const int n = blockIdx.x * blockDim.x + threadIdx.x;
    if (n >= width * height) return;
    out[n] = render_pixel(scene, camera, n % width, n / width, samples, seed);
}

unsigned blocks_for(long items) {
    return static_cast<unsigned>((items + threads_per_block - 1) / threads_per_block);
}

struct View {
    Picture photo;
    double pixels_per_mm = 0;
    Section section;  // over the foam's whole grid
};

class ViewRenderer {
  public:
    View make(const ViewRecipe& recipe) {
        const PlaneFieldGrid fields = view_fields(recipe.rim, half_mm);
        PlaneFields on_card = fields.view();
        on_card.nodes = fields_.upload(fields.nodes);
        const FittedBubbles fitted =
            fit_bubbles(recipe.foam, fields.view(), recipe.thickness_mm,
                        [&](const std::vector<Bubble>& bubbles, const WallRules& rules,
                            const std::vector<float>& swellings) {
                            load(bubbles, rules, on_card, swellings.back());
                            return openness_in_cut(swellings);
                        });
        load(fitted.bubbles, fitted.rules, on_card, std::max(0.0f, fitted.rules.swell_mm));
        const FoamVolume volume = fill(fields.view(), recipe.thickness_mm);
        View view;
        view.section = cut_section(volume, fields.view());
        view.pixels_per_mm = std::min(recipe.pixels_per_mm, most_pixels_per_mm);
        view.photo = photograph(recipe, on_card, volume, view.pixels_per_mm);
        return view;
    }

  private:
    void load(const std::vector<Bubble>& bubbles, const WallRules& rules, const PlaneFields& fields,
              float swell_mm) {
        const BubbleIndex index(bubbles, reach_beyond(rules) + swell_mm);
        cubes_ = index.view();
        cubes_.starts = starts_.upload(index.starts());
        cubes_.members = members_.upload(index.members());
        foam_ = {bubbles_.upload(bubbles), rules, fields};
    }

    std::vector<double> openness_in_cut(const std::vector<float>& tried) {
        Swellings swellings{};
        swellings.count = static_cast<int>(tried.size());
        std::memcpy(swellings.mm, tried.data(), tried.size() * sizeof(float));
        std::vector<unsigned> counts(tried.size() + 1, 0);
        unsigned* open = counts_.upload(counts);
        const VoxelGrid grid = grid_over(foam_.fields, 0.2f, 0, 0);
        count_open<<<blocks_for(static_cast<long>(grid.nx) * grid.ny), threads_per_block>>>(
            foam_, cubes_, grid, swellings, open);
        require(cudaGetLastError(), "counting openings");
        counts_.download(counts.data(), counts.size());
        std::vector<double> shares;
        for (std::size_t s = 0; s < tried.size(); ++s)
            shares.push_back(static_cast<double>(counts[s]) / std::max(1U, counts.back()));
        return shares;
    }

    void fill_grid(const VoxelGrid& grid, DeviceBuffer<std::int8_t>& values) {
        const long nodes = static_cast<long>(grid.nx) * grid.ny * grid.nz;
        fill_level<<<blocks_for(nodes), threads_per_block>>>(
            foam_, cubes_, grid, values.reserve(static_cast<std::size_t>(nodes)));
        require(cudaGetLastError(), "filling voxels");
    }

    // Of the voxels only the face comes back; the rest stays on the card.
    FoamVolume fill(const PlaneFields& fields, double thickness_mm) {
        const VolumeLayout layout;
        const float step = static_cast<float>(layout.step_mm);
        FoamVolume volume;
        volume.seam_z = static_cast<float>(layout.fine_depth_mm);
        volume.fine_grid = grid_over(fields, step, 0, volume.seam_z + step);
        volume.coarse_grid = grid_over(fields, static_cast<float>(layout.coarse_step_mm),
                                       volume.seam_z, static_cast<float>(thickness_mm));
        fill_grid(volume.fine_grid, fine_);
        fill_grid(volume.coarse_grid, coarse_);
        volume.torn_cut.resize(static_cast<std::size_t>(volume.fine_grid.nx) * volume.fine_grid.ny);
        const auto nodes = static_cast<long>(volume.torn_cut.size());
        fill_face<<<blocks_for(nodes), threads_per_block>>>(foam_, cubes_, volume.fine_grid,
                                                            face_.reserve(volume.torn_cut.size()));
        require(cudaGetLastError(), "filling the face");
        face_.download(volume.torn_cut.data(), volume.torn_cut.size());
        return volume;
    }

    Picture photograph(const ViewRecipe& recipe, const PlaneFields& fields,
                       const FoamVolume& volume, double pixels_per_mm) {
        SceneView scene;
        SliceView& slice = scene.slices[0];
        slice.level = {volume.fine_grid, volume.coarse_grid, volume.seam_z};
        slice.level.fine.values = fine_.data();
        slice.level.coarse.values = coarse_.data();
        slice.fields = fields;
        const float half = static_cast<float>(half_mm);
        slice.low = {-half, -half, 0};
        slice.high = {half, half, static_cast<float>(recipe.thickness_mm)};
        slice.bread = recipe.bread;
        scene.slice_count = 1;
        scene.look = recipe.table;
        scene.table.point = {0, 0, static_cast<float>(recipe.thickness_mm + recipe.gap_mm)};
        scene.light = recipe.light;
        scene.max_bounces = 7;
        const int side = view_side(pixels_per_mm);
        const std::size_t pixels = static_cast<std::size_t>(side) * side;
        render_view<<<blocks_for(static_cast<long>(pixels)), threads_per_block>>>(
            scene, camera_of(recipe, pixels_per_mm, side), side, side, {4, 12},
            hash32(recipe.seed, 606), pixels_.reserve(pixels));
        require(cudaGetLastError(), "rendering");
        std::vector<PixelValue> values(pixels);
        pixels_.download(values.data(), pixels);
        Radiance radiance{side, side, {}, {}};
        for (const PixelValue& v : values) {
            radiance.light.push_back(v.radiance);
            radiance.bread.push_back(v.bread);
        }
        Development how = recipe.development;
        how.illuminant = seen_white(recipe.light);
        return develop(radiance, how, pixels_per_mm, 1);
    }

    static int view_side(double pixels_per_mm) {
        return static_cast<int>(std::ceil(frame_pixels * frame_mm_per_pixel * pixels_per_mm)) + 8;
    }

    // A camera off to the side whose sensor stays parallel to the cut: what a tilted photo shows
    // once it is rectified. Its middle pixel sees the view's middle.
    static PixelCamera camera_of(const ViewRecipe& recipe, double pixels_per_mm, int side) {
        PixelCamera camera;
        camera.eye = recipe.eye;
        camera.right = {1, 0, 0};
        camera.down = {0, 1, 0};
        camera.forward = {0, 0, 1};
        const float scale = static_cast<float>(pixels_per_mm);
        camera.focal = -recipe.eye.z * scale;
        const float middle = static_cast<float>(side - 1) / 2;
        camera.centre_x = middle + scale * recipe.eye.x;
        camera.centre_y = middle + scale * recipe.eye.y;
        return camera;
    }

    // Most of the way to the light's own colour, as automatic white balance goes.
    static Colour seen_white(const Light& light) {
        const float sine = std::fmin(0.99f, light.lamp_radius / length(light.lamp_centre));
        const float solid_angle = 6.2831853f * (1 - std::sqrt(1 - sine * sine));
        const Colour sum = mix(light.zenith, light.horizon, 0.35f) +
                           light.lamp * (0.7f * solid_angle * 0.31830989f);
        return {std::pow(sum.r / sum.g, 0.85f), 1, std::pow(sum.b / sum.g, 0.85f)};
    }

    FoamField foam_;
    BubbleCubes cubes_;
    DeviceBuffer<PlaneSample> fields_;
    DeviceBuffer<Bubble> bubbles_;
    DeviceBuffer<std::uint32_t> starts_, members_;
    DeviceBuffer<unsigned> counts_;
    DeviceBuffer<std::int8_t> fine_, coarse_, face_;
    DeviceBuffer<PixelValue> pixels_;
};

}  // namespace

}  // namespace loafmark::training

// What views.py calls. `photo`: room for 600 x 600 x 3 bytes; `cells`, `loaf`: frame_pixels
// squared. Returns the photo's side in pixels, or 0 when the view could not be made (why goes to
// stderr).
extern "C" int loafmark_training_view(unsigned seed, unsigned char* photo, unsigned short* cells,
                                      unsigned char* loaf, double* pixels_per_mm,
                                      float* wanted_openness) {
    using namespace loafmark::training;
    try {
        static ViewRenderer renderer;
        const ViewRecipe recipe = random_view(seed);
        const View view = renderer.make(recipe);
        const int offset = static_cast<int>(std::lround(margin_mm / frame_mm_per_pixel));
        const auto first = view.section.first_pixel;
        for (int y = 0; y < frame_pixels; ++y)
            for (int x = 0; x < frame_pixels; ++x) {
                const std::size_t from =
                    static_cast<std::size_t>(y + offset) * view.section.cells.width + x + offset;
                const std::size_t to = static_cast<std::size_t>(y) * frame_pixels + x;
                cells[to] = view.section.cells.labels[from];
                const loafmark::phantoms::Vec3 place{
                    static_cast<float>(first.x + frame_mm_per_pixel * (x + offset)),
                    static_cast<float>(first.y + frame_mm_per_pixel * (y + offset)), 0};
                const bool speck = view.section.loaf[from] && cells[to] == 0 &&
                                   loafmark::phantoms::is_speck(recipe.bread, place);
                loaf[to] = speck ? 2 : view.section.loaf[from];
            }
        std::memcpy(photo, view.photo.rgb.data(), view.photo.rgb.size());
        *pixels_per_mm = view.pixels_per_mm;
        *wanted_openness = static_cast<float>(recipe.foam.openness);
        return view.photo.width;
    } catch (const std::exception& error) {
        std::fprintf(stderr, "view %u: %s\n", seed, error.what());
        return 0;
    }
}
