#include "phantoms/section.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace loafmark::phantoms {

namespace {

struct Region {
    std::vector<std::size_t> pixels;
};

// Collects the 4-connected open region of `start`, clearing it from `open`.
Region take_region(std::vector<std::uint8_t>& open, int width, int height, std::size_t start) {
    Region region;
    std::vector<std::size_t> pending{start};
    open[start] = 0;
    const auto visit = [&](std::size_t at) {
        if (open[at] == 0) return;
        open[at] = 0;
        pending.push_back(at);
    };
    while (!pending.empty()) {
        const std::size_t at = pending.back();
        pending.pop_back();
        region.pixels.push_back(at);
        const int x = static_cast<int>(at % width), y = static_cast<int>(at / width);
        if (x > 0) visit(at - 1);
        if (x + 1 < width) visit(at + 1);
        if (y > 0) visit(at - width);
        if (y + 1 < height) visit(at + width);
    }
    return region;
}

SectionCell describe(const Region& region, const Section& section, int id) {
    double sx = 0, sy = 0;
    for (const std::size_t at : region.pixels) {
        sx += static_cast<double>(at % section.cells.width);
        sy += static_cast<double>(at / section.cells.width);
    }
    const double n = static_cast<double>(region.pixels.size());
    const double mm = section.mm_per_pixel, area = n * mm * mm;
    return {id,
            area,
            std::sqrt(4 * area / std::numbers::pi),
            {section.first_pixel.x + mm * sx / n, section.first_pixel.y + mm * sy / n}};
}

}  // namespace

Section label_openings(const std::vector<std::uint8_t>& open, int width, int height,
                       double mm_per_pixel, PlanePoint first_pixel, double least_diameter_mm) {
    Section section;
    section.cells = {width, height, std::vector<std::uint16_t>(open.size(), 0)};
    section.mm_per_pixel = mm_per_pixel;
    section.first_pixel = first_pixel;
    std::vector<std::uint8_t> left = open;
    for (std::size_t at = 0; at < left.size(); ++at) {
        if (left[at] == 0) continue;
        const Region region = take_region(left, width, height, at);
        const int id = static_cast<int>(section.list.size()) + 1;
        const SectionCell cell = describe(region, section, id);
        if (cell.diameter < least_diameter_mm) continue;
        if (id > 65535)
            throw std::length_error(
                "the section holds more than 65535 cells, too many for its map; "
                "make the slice smaller or the bubbles larger");
        section.list.push_back(cell);
        for (const std::size_t p : region.pixels)
            section.cells.labels[p] = static_cast<std::uint16_t>(id);
    }
    return section;
}

Section cut_section(const FoamVolume& volume, const PlaneFields& fields) {
    const VoxelGrid& grid = volume.fine_grid;
    const std::size_t n = static_cast<std::size_t>(grid.nx) * grid.ny;
    // The first sheet of voxels is z = 0.
    const std::vector<std::int8_t>& cut = volume.torn_cut.empty() ? volume.fine : volume.torn_cut;
    std::vector<std::uint8_t> open(n), loaf(n), crumb(n);
    for (int j = 0; j < grid.ny; ++j)
        for (int i = 0; i < grid.nx; ++i) {
            const std::size_t at = static_cast<std::size_t>(j) * grid.nx + i;
            const PlaneSample here = plane_at(fields, grid.x0 + static_cast<float>(i) * grid.step,
                                              grid.y0 + static_cast<float>(j) * grid.step);
            loaf[at] = here.outline < 0 ? 1 : 0;
            crumb[at] = loaf[at] != 0 && here.crumb_depth > 0 ? 1 : 0;
            open[at] = loaf[at] != 0 && cut[at] > 0 ? 1 : 0;
        }
    Section section =
        label_openings(open, grid.nx, grid.ny, grid.step, {grid.x0, grid.y0}, least_mapped_mm);
    section.level.assign(cut.begin(), cut.begin() + static_cast<long>(n));
    section.loaf = std::move(loaf);
    section.crumb = std::move(crumb);
    return section;
}

}  // namespace loafmark::phantoms
