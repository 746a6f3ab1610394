#include "line_up/layout.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "charts/svg_text.h"

namespace loafmark::line_up {
namespace {

constexpr double margin = 8;
constexpr double gap = 12;
constexpr double narrowest = 62;  // so that names have room
constexpr double head = 20;
constexpr double foot = 30;
constexpr double ruler_width = 17;  // with its numbers
constexpr double thick = 0.9;       // of the base line
constexpr double thin = 0.35;

double size_of(Kind kind) {
    switch (kind) {
        case Kind::title:
            return 7.4;
        case Kind::name:
            return 5.2;
        case Kind::remark:
            break;
    }
    return 4.2;
}

// Sets words. On a wide sheet, which is seen from further away, they are larger.
class Words {
  public:
    Words(Layout& layout, double sheet_width)
        : layout_(layout), larger_(std::clamp(sheet_width / 450, 1.0, 1.6)) {}

    [[nodiscard]] double larger() const { return larger_; }

    void set(double x, double y, const std::string& text, Kind kind, Anchor anchor) {
        layout_.texts.push_back({x, y, text, kind, anchor, larger_ * size_of(kind)});
    }
    // Below each other, in at most two lines of `width`; returns where the next would stand.
    double set_lines(double x, double y, double width, const std::string& text, Kind kind,
                     Anchor anchor) {
        const double size = larger_ * size_of(kind);
        // Chart text is reckoned at 13 units.
        for (const std::string& line : charts::wrapped(text, width * 13 / size)) {
            set(x, y, line, kind, anchor);
            y += 1.22 * size;
        }
        return y;
    }

  private:
    Layout& layout_;
    double larger_;
};

// A standing ruler, a stroke each 10 mm, a number each 50.
void add_ruler(Layout& layout, Words& words, double base, int length) {
    const double x = margin + ruler_width - 3;
    layout.lines.push_back({x, base - length, x, base, thin});
    for (int mm = 0; mm <= length; mm += 10) {
        const bool long_one = mm % 50 == 0;
        layout.lines.push_back({x - (long_one ? 4 : 2), base - mm, x, base - mm, thin});
        if (!long_one || mm == 0) continue;
        layout.hairs.push_back({x, base - mm, layout.width - margin, base - mm, thin / 2});
        words.set(x - 5, base - mm + 1.5 * words.larger(), std::to_string(mm), Kind::remark,
                  Anchor::end);
    }
    words.set(x, base - length - 2.5, "mm", Kind::remark, Anchor::end);
}

}  // namespace

Colour colour_of(Kind kind) {
    return kind == Kind::title ? crust : kind == Kind::name ? ink : soft;
}

Layout layout_of(const LineUp& line_up) {
    Layout layout;
    double tallest = 50;
    double x = margin + ruler_width;
    for (const Slice& slice : line_up.slices) {
        if (!reports::has_scale(slice.picture) || reports::data_uri(slice.picture).empty())
            continue;
        const double room = std::max(reports::width_mm(slice.picture), narrowest);
        PlacedSlice placed{&slice, reports::window_of(slice.picture), x, 0,
                           slice.picture.mm_per_pixel.value()};
        placed.x += (room - reports::width_mm(slice.picture)) / 2;
        layout.slices.push_back(placed);
        tallest = std::max(tallest, reports::height_mm(slice.picture));
        x += room + gap;
    }
    if (layout.slices.empty())
        throw std::invalid_argument("no slice has a picture with a scale, so there is no line-up");
    const double base = head + tallest;
    layout.width = x - gap + margin;
    Words words(layout, layout.width);
    layout.height = base + foot * words.larger();
    for (PlacedSlice& placed : layout.slices) {
        const double width = reports::width_mm(placed.slice->picture);
        placed.y = base - reports::height_mm(placed.slice->picture);
        const double middle = placed.x + width / 2;
        const double room = std::max(width, narrowest);
        const double below = words.set_lines(middle, base + 8 * words.larger(), room,
                                             placed.slice->name, Kind::name, Anchor::middle);
        words.set_lines(middle, below, room, placed.slice->remark, Kind::remark, Anchor::middle);
    }
    layout.lines.push_back({margin, base, layout.width - margin, base, thick});
    add_ruler(layout, words, base, static_cast<int>(std::floor(tallest / 10)) * 10);
    words.set(margin, 7 + 2 * words.larger(), charts::fitted(line_up.title, layout.width),
              Kind::title, Anchor::start);
    return layout;
}

}  // namespace loafmark::line_up
