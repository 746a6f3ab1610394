#include "phantoms/truth.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace loafmark::phantoms {

namespace {

// What lies at a point of the section: outside the mask, bread, or a cell that counts.
enum class Matter { outside, bread, cell };

class Ground {
  public:
    Ground(const Section& section, std::span<const std::uint8_t> mask, double limit_mm)
        : section_(section), mask_(mask), large_(section.list.size() + 1, 0) {
        for (const SectionCell& cell : section.list)
            large_[static_cast<std::size_t>(cell.id)] = cell.diameter >= limit_mm ? 1 : 0;
    }
    // Between pixels: cell where the interpolated level says so, so that a cell's edge is no
    // staircase to a line that grazes it.
    [[nodiscard]] Matter at(double column, double row) const {
        const int i = static_cast<int>(std::floor(column)), j = static_cast<int>(std::floor(row));
        if (i < 0 || j < 0 || i + 1 >= section_.cells.width || j + 1 >= section_.cells.height)
            return Matter::outside;
        const double fx = column - i, fy = row - j;
        const std::size_t corner = static_cast<std::size_t>(j) * section_.cells.width + i;
        const std::size_t below = corner + static_cast<std::size_t>(section_.cells.width);
        const std::size_t nearest = (fy < 0.5 ? corner : below) + (fx < 0.5 ? 0 : 1);
        if (at(nearest) == Matter::outside) return Matter::outside;
        const double level = (1 - fy) * ((1 - fx) * level_of(corner) + fx * level_of(corner + 1)) +
                             fy * ((1 - fx) * level_of(below) + fx * level_of(below + 1));
        return level > 0 ? Matter::cell : Matter::bread;
    }
    [[nodiscard]] Matter at(std::size_t pixel) const {
        if (mask_[pixel] == 0) return Matter::outside;
        return large_[section_.cells.labels[pixel]] != 0 ? Matter::cell : Matter::bread;
    }

  private:
    // Positive in cells that count, negative elsewhere.
    [[nodiscard]] double level_of(std::size_t pixel) const {
        const bool cell = large_[section_.cells.labels[pixel]] != 0;
        if (section_.level.empty()) return cell ? 1 : -1;
        const double level = section_.level[pixel];
        return cell ? std::max(level, 1.0) : std::min(level, -1.0);
    }
    const Section& section_;
    std::span<const std::uint8_t> mask_;
    std::vector<std::uint8_t> large_;
};

struct LineCount {
    double bread_mm = 0;
    long changes = 0;
};

// One direction of test lines, 0.5 mm apart, in steps of half a pixel.
LineCount count_lines(const Ground& ground, const Section& section, double angle) {
    const double spacing = 0.5 / section.mm_per_pixel, step = 0.5;
    const double w = section.cells.width, h = section.cells.height;
    const double reach = std::hypot(w, h) / 2;
    const double c = std::cos(angle), s = std::sin(angle);
    LineCount count;
    for (double offset = -reach; offset <= reach; offset += spacing) {
        Matter before = Matter::outside;
        for (double t = -reach; t <= reach; t += step) {
            const Matter now = ground.at(w / 2 + t * c - offset * s, h / 2 + t * s + offset * c);
            if (now == Matter::bread) count.bread_mm += step * section.mm_per_pixel;
            const bool change =
                now != before && now != Matter::outside && before != Matter::outside;
            count.changes += change ? 1 : 0;
            before = now;
        }
    }
    return count;
}

std::optional<double> mean_free_path(const Ground& ground, const Section& section) {
    LineCount sum;
    for (int i = 0; i < 8; ++i) {
        const LineCount one = count_lines(ground, section, i * std::numbers::pi / 8);
        sum.bread_mm += one.bread_mm;
        sum.changes += one.changes;
    }
    if (sum.changes == 0) return std::nullopt;
    return sum.bread_mm / (static_cast<double>(sum.changes) / 2);
}

bool centred_in(const Section& section, std::span<const std::uint8_t> mask, const SectionCell& c) {
    const long i = std::lround((c.centre.x - section.first_pixel.x) / section.mm_per_pixel);
    const long j = std::lround((c.centre.y - section.first_pixel.y) / section.mm_per_pixel);
    if (i < 0 || j < 0 || i >= section.cells.width || j >= section.cells.height) return false;
    return mask[static_cast<std::size_t>(j * section.cells.width + i)] != 0;
}

void add_diameters(TrueMeasures& out, const std::vector<SectionCell>& cells) {
    std::vector<double> x;
    std::vector<Weighted> by_area;
    double sum = 0, area = 0, moment = 0;
    for (const SectionCell& cell : cells) {
        x.push_back(cell.diameter);
        by_area.push_back({cell.diameter, cell.area});
        sum += cell.diameter;
        area += cell.area;
        moment += cell.diameter * cell.area;
    }
    out[Measure::cell_diameter_number_d10] = quantile(x, 0.1);
    out[Measure::cell_diameter_number_d50] = quantile(x, 0.5);
    out[Measure::cell_diameter_number_d90] = quantile(x, 0.9);
    out[Measure::cell_diameter_number_mean] = sum / static_cast<double>(x.size());
    const double d10 = weighted_quantile(by_area, 0.1), d50 = weighted_quantile(by_area, 0.5),
                 d90 = weighted_quantile(by_area, 0.9);
    out[Measure::cell_diameter_area_d10] = d10;
    out[Measure::cell_diameter_area_d50] = d50;
    out[Measure::cell_diameter_area_d90] = d90;
    out[Measure::cell_diameter_area_mean] = moment / area;
    out[Measure::coarseness] = d50;
    out[Measure::relative_span] = (d90 - d10) / d50;
}

}  // namespace

double quantile(std::vector<double> values, double q) {
    std::sort(values.begin(), values.end());
    const double at = q * static_cast<double>(values.size() - 1);
    const std::size_t below = static_cast<std::size_t>(at);
    const std::size_t above = std::min(below + 1, values.size() - 1);
    return values[below] + (at - static_cast<double>(below)) * (values[above] - values[below]);
}

double weighted_quantile(std::vector<Weighted> items, double q) {
    std::sort(items.begin(), items.end(),
              [](const Weighted& a, const Weighted& b) { return a.x < b.x; });
    double total = 0, held = 0;
    for (const Weighted& item : items)
        total += item.weight;
    for (const Weighted& item : items) {
        held += item.weight;
        if (held >= q * total * (1 - 1e-12)) return item.x;
    }
    return items.back().x;
}

TrueMeasures crumb_measures(const Section& section, std::span<const std::uint8_t> mask,
                            double limit_mm) {
    const Ground ground(section, mask, limit_mm);
    constexpr double cavity_mm = 10;
    const Ground cavities(section, mask, std::max(cavity_mm, limit_mm));
    double crumb = 0, open = 0, cavity = 0;
    for (std::size_t p = 0; p < mask.size(); ++p) {
        const Matter m = ground.at(p);
        crumb += m != Matter::outside ? 1 : 0;
        open += m == Matter::cell ? 1 : 0;
        cavity += cavities.at(p) == Matter::cell ? 1 : 0;
    }
    std::vector<SectionCell> counted;
    for (const SectionCell& cell : section.list)
        if (cell.diameter >= limit_mm && centred_in(section, mask, cell)) counted.push_back(cell);
    const double area = crumb * section.mm_per_pixel * section.mm_per_pixel;
    TrueMeasures out{{Measure::resolved_limit, limit_mm},
                     {Measure::crumb_area, area},
                     {Measure::cell_count, static_cast<double>(counted.size())}};
    if (crumb <= 0) return out;
    out[Measure::openness] = open / crumb;
    out[Measure::cells_per_cm2] = static_cast<double>(counted.size()) / (area / 100);
    out[Measure::large_cavity_share] = cavity / crumb;
    if (cavity < crumb) out[Measure::openness_fine] = (open - cavity) / (crumb - cavity);
    if (const auto path = mean_free_path(ground, section)) out[Measure::mean_free_path] = *path;
    if (!counted.empty()) add_diameters(out, counted);
    return out;
}

}  // namespace loafmark::phantoms
