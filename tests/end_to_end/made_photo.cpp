#include "made_photo.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <random>
#include <vector>

#include "analysis/measure.h"
#include "analysis/target_layout.h"

namespace loafmark::end_to_end {
namespace {

using Colour = std::array<int, 3>;
constexpr double px_per_mm = 5;
constexpr Colour paper{238, 238, 236}, ink{24, 24, 26}, blue{62, 96, 156}, board{46, 44, 42};
constexpr Colour crust{128, 78, 40}, crumb{224, 206, 172}, cell{122, 98, 70};

class Canvas {
  public:
    Canvas(double width_mm, double height_mm, Colour ground) {
        picture_.width = static_cast<int>(std::lround(width_mm * px_per_mm));
        picture_.height = static_cast<int>(std::lround(height_mm * px_per_mm));
        for (int i = 0; i < picture_.width * picture_.height; ++i)
            for (const int channel : ground)
                picture_.rgb.push_back(static_cast<std::uint8_t>(channel));
    }

    // Paints where `inside(x, y)`, in mm from the top-left corner.
    template <class Inside>
    void paint(Inside inside, Colour colour) {
        for (int y = 0; y < picture_.height; ++y)
            for (int x = 0; x < picture_.width; ++x) {
                if (!inside((x + 0.5) / px_per_mm, (y + 0.5) / px_per_mm)) continue;
                for (std::size_t c = 0; c < 3; ++c)
                    picture_.rgb[(static_cast<std::size_t>(y) * picture_.width + x) * 3 + c] =
                        static_cast<std::uint8_t>(colour[c]);
            }
    }

    // Grain as of a camera, so that no area is of one value.
    void add_noise(unsigned seed) {
        std::mt19937 random(seed);
        for (std::uint8_t& value : picture_.rgb)
            value = static_cast<std::uint8_t>(
                std::clamp(value + static_cast<int>(random() % 7) - 3, 0, 255));
    }

    void save(const std::filesystem::path& file) const {
        const std::vector<std::uint8_t> bytes = analysis::encode_jpeg(picture_, 92);
        std::ofstream(file, std::ios::binary)
            .write(reinterpret_cast<const char*>(bytes.data()),
                   static_cast<std::streamsize>(bytes.size()));
    }

  private:
    Picture picture_;
};

Colour mixed(const Colour& from, const Colour& to, double share) {
    Colour result{};
    for (std::size_t c = 0; c < 3; ++c)
        result[c] = static_cast<int>(std::lround(from[c] + share * (to[c] - from[c])));
    return result;
}

struct Box {
    double left, top, width, height;
    [[nodiscard]] bool holds(double x, double y) const {
        return x >= left && x < left + width && y >= top && y < top + height;
    }
};

// A loaf's outline: flat base, straight sides, round top. `inset` millimetres inside it.
bool in_loaf(const Box& box, double x, double y, double inset) {
    const double radius = box.width / 2;
    const double shoulder = box.top + radius * 0.6;
    if (x < box.left + inset || x > box.left + box.width - inset) return false;
    if (y > box.top + box.height - inset) return false;
    if (y >= shoulder) return true;
    const double dx = (x - box.left - radius) / (radius - inset);
    const double dy = (y - shoulder) / (shoulder - box.top - inset);
    return dx * dx + dy * dy <= 1;
}

void paint_slice(Canvas& canvas, const Box& box, unsigned seed) {
    canvas.paint([&](double x, double y) { return in_loaf(box, x, y, 0); }, crust);
    // As in bread, crust passes into crumb gradually: it is half-way there 3 mm in. A band of one
    // colour round the crumb would be the loaf's side, seen aslant.
    for (double inset = 1.2; inset < 4.9; inset += 0.2) {
        const double t = std::min(1.0, (inset - 1.2) / 3.6);
        canvas.paint([&](double x, double y) { return in_loaf(box, x, y, inset); },
                     mixed(crust, crumb, t * t * (3 - 2 * t)));
    }
    std::mt19937 random(seed);
    const auto up_to = [&](double most) {
        return most * static_cast<double>(random() % 1000) / 1000;
    };
    std::vector<std::array<double, 3>> cells;  // x, y, radius
    for (double y = box.top + 6; y < box.top + box.height - 6; y += 5)
        for (double x = box.left + 6; x < box.left + box.width - 6; x += 5)
            cells.push_back({x + up_to(1), y + up_to(1), 0.6 + up_to(1.2)});
    canvas.paint(
        [&](double x, double y) {
            if (!in_loaf(box, x, y, 5)) return false;
            for (const auto& [cx, cy, r] : cells)
                if (std::abs(x - cx) <= r && std::hypot(x - cx, y - cy) <= r) return true;
            return false;
        },
        cell);
}

void paint_mat(Canvas& canvas) {
    const SheetLayout sheet = sheet_of(TargetKind::a4_mat);
    const PlanePoint first = sheet.first_marker_mm;
    const FieldLayout field = *field_of(TargetKind::a4_mat);
    const Box ground{first.x + field.top_left_mm.x, first.y + field.top_left_mm.y, field.width_mm,
                     field.height_mm};
    canvas.paint([&](double x, double y) { return ground.holds(x, y); }, blue);
    for (const TargetMarker& marker : markers_of(TargetKind::a4_mat)) {
        const Box box{first.x + marker.centre_mm.x - marker_side_mm / 2,
                      first.y + marker.centre_mm.y - marker_side_mm / 2, marker_side_mm,
                      marker_side_mm};
        const double module = marker_side_mm / marker_modules;
        canvas.paint(
            [&](double x, double y) {
                return box.holds(x, y) &&
                       !marker_module_is_white(marker.id, static_cast<int>((y - box.top) / module),
                                               static_cast<int>((x - box.left) / module));
            },
            ink);
    }
}

}  // namespace

void write_mat_photo(const std::filesystem::path& file, int slices, int shade) {
    const SheetLayout sheet = sheet_of(TargetKind::a4_mat);
    Canvas canvas(sheet.width_mm, sheet.height_mm, paper);
    paint_mat(canvas);
    for (int i = 0; i < slices; ++i)
        paint_slice(canvas, {55, 60.0 + 95 * i, 100, 75}, static_cast<unsigned>(i + 1));
    canvas.add_noise(static_cast<unsigned>(shade + 1));
    canvas.save(file);
}

void write_photo_without_scale(const std::filesystem::path& file) {
    Canvas canvas(180, 150, board);
    paint_slice(canvas, {40, 35, 100, 75}, 1);
    canvas.add_noise(1);
    canvas.save(file);
}

std::string png_beginning(unsigned width, unsigned height) {
    const auto number = [](unsigned n) {
        return std::string{static_cast<char>(n >> 24), static_cast<char>(n >> 16),
                           static_cast<char>(n >> 8), static_cast<char>(n)};
    };
    const std::string chunk =
        "IHDR" + number(width) + number(height) + std::string("\x08\x02\0\0\0", 5);
    unsigned crc = 0xffffffff;  // of PNG 1.2, annex D
    for (const char c : chunk) {
        crc ^= static_cast<unsigned char>(c);
        for (int bit = 0; bit < 8; ++bit)
            crc = (crc & 1) ? 0xedb88320 ^ (crc >> 1) : crc >> 1;
    }
    return "\x89PNG\r\n\x1a\n" + number(13) + chunk + number(~crc) + number(1000) + "IDAT";
}

}  // namespace loafmark::end_to_end
