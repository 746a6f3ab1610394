#include "targets/draw_target.h"

#include <cmath>
#include <cstdint>
#include <memory>
#include <optional>

#include "catch.h"

namespace {

using namespace loafmark;
using namespace loafmark::targets;

constexpr double pixels_per_mm = 300 / 25.4;

// A page at 300 dots per inch.
class Drawing {
  public:
    explicit Drawing(TargetKind kind, FieldStyle style, const std::string& font = "sans-serif")
        : surface_(cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels(page_of(kind).width_mm),
                                              pixels(page_of(kind).height_mm)),
                   cairo_surface_destroy) {
        const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> cairo(cairo_create(surface_.get()),
                                                                       cairo_destroy);
        cairo_set_source_rgb(cairo.get(), 1, 1, 1);
        cairo_paint(cairo.get());
        cairo_scale(cairo.get(), pixels_per_mm, pixels_per_mm);
        draw_target(cairo.get(), kind, style, font);
        cairo_surface_flush(surface_.get());
    }

    // The colour at a place on the page, as 0xrrggbb.
    [[nodiscard]] std::uint32_t at(double x_mm, double y_mm) const {
        const unsigned char* row =
            cairo_image_surface_get_data(surface_.get()) +
            static_cast<int>(y_mm * pixels_per_mm) * cairo_image_surface_get_stride(surface_.get());
        return reinterpret_cast<const std::uint32_t*>(row)[static_cast<int>(x_mm * pixels_per_mm)] &
               0xffffff;
    }

    // The ink along a row (or a column) of pixels: how long, and where its middle lies. A pixel
    // counts as far as it is dark, so that both are good to a hundredth of a millimetre.
    struct Ink {
        double length_mm;
        double middle_mm;
    };
    [[nodiscard]] Ink ink_along_row(double y_mm, double from_mm, double to_mm) const {
        return ink(from_mm, to_mm, [&](double x_mm) { return at(x_mm, y_mm); });
    }
    [[nodiscard]] Ink ink_along_column(double x_mm, double from_mm, double to_mm) const {
        return ink(from_mm, to_mm, [&](double y_mm) { return at(x_mm, y_mm); });
    }

    [[nodiscard]] bool is_all(std::uint32_t colour, double left, double top, double right,
                              double bottom) const {
        const double step_mm = 2 / pixels_per_mm;  // half of the thinnest stroke of a letter
        for (double y = top; y < bottom; y += step_mm)
            for (double x = left; x < right; x += step_mm)
                if (at(x, y) != colour) return false;
        return true;
    }

  private:
    template <class ColourAt>
    [[nodiscard]] static Ink ink(double from_mm, double to_mm, ColourAt colour_at) {
        double sum = 0;
        double moment = 0;
        for (int i = pixels(from_mm); i + 1 <= to_mm * pixels_per_mm; ++i) {
            const double place_mm = (i + 0.5) / pixels_per_mm;
            const double darkness = 1 - (colour_at(place_mm) & 0xff) / 255.0;
            sum += darkness;
            moment += darkness * place_mm;
        }
        return {sum / pixels_per_mm, moment / sum};
    }
    [[nodiscard]] static int pixels(double length_mm) {
        return static_cast<int>(std::ceil(length_mm * pixels_per_mm));
    }
    std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface_;
};

PlanePoint on_page(TargetKind kind, PlanePoint in_target) {
    const PlanePoint origin = page_of(kind).first_marker_mm;
    return {origin.x + in_target.x, origin.y + in_target.y};
}

constexpr std::uint32_t white_ink = 0xffffff;
constexpr double half_side = marker_side_mm / 2;
constexpr double quiet_mm = 4;  // reference targets: a module, side / 6
constexpr double pixel_mm = 1 / pixels_per_mm;

}  // namespace

TEST_CASE("a marker's black square ends exactly where the layout says") {
    const auto kind = GENERATE(TargetKind::a4_mat, TargetKind::letter_mat, TargetKind::strip);
    const Drawing page(kind, FieldStyle::blue);
    for (const TargetMarker& marker : markers_of(kind)) {
        INFO("marker " << marker.id);
        const PlanePoint c = on_page(kind, marker.centre_mm);
        const double border = half_side - 2;  // along the border module, black from end to end
        const double reach = half_side + quiet_mm;
        for (const double side : {-border, border}) {
            const auto row = page.ink_along_row(c.y + side, c.x - reach, c.x + reach);
            CHECK(row.length_mm == Approx(marker_side_mm).margin(0.01));
            CHECK(row.middle_mm == Approx(c.x).margin(0.01));
            const auto column = page.ink_along_column(c.x + side, c.y - reach, c.y + reach);
            CHECK(column.length_mm == Approx(marker_side_mm).margin(0.01));
            CHECK(column.middle_mm == Approx(c.y).margin(0.01));
        }
    }
}

TEST_CASE("a marker's modules are black and white as in the dictionary") {
    const auto kind = GENERATE(TargetKind::a4_mat, TargetKind::letter_mat, TargetKind::strip);
    const Drawing page(kind, FieldStyle::blue);
    const double module_mm = marker_side_mm / marker_modules;
    for (const TargetMarker& marker : markers_of(kind))
        for (int row = 0; row < marker_modules; ++row)
            for (int column = 0; column < marker_modules; ++column) {
                INFO("marker " << marker.id << ", row " << row << ", column " << column);
                const PlanePoint c = on_page(kind, marker.centre_mm);
                const double left = c.x - half_side + column * module_mm;
                const double top = c.y - half_side + row * module_mm;
                const std::uint32_t ink =
                    marker_module_is_white(marker.id, row, column) ? white_ink : 0;
                CHECK(page.is_all(ink, left + 0.2, top + 0.2, left + module_mm - 0.2,
                                  top + module_mm - 0.2));
            }
}

TEST_CASE("quiet zones stay white, whichever the field and the font") {
    const auto kind = GENERATE(TargetKind::a4_mat, TargetKind::letter_mat, TargetKind::strip);
    const auto style = GENERATE(FieldStyle::blue, FieldStyle::frame, FieldStyle::none);
    const auto* font = GENERATE("sans-serif", "monospace", "serif");
    const Drawing page(kind, style, font);
    for (const TargetMarker& marker : markers_of(kind)) {
        INFO("marker " << marker.id << ", font " << font);
        const PlanePoint c = on_page(kind, marker.centre_mm);
        const double inner = half_side + pixel_mm;
        const double outer = half_side + quiet_mm - pixel_mm;
        CHECK(page.is_all(white_ink, c.x - outer, c.y - outer, c.x + outer, c.y - inner));
        CHECK(page.is_all(white_ink, c.x - outer, c.y + inner, c.x + outer, c.y + outer));
        CHECK(page.is_all(white_ink, c.x - outer, c.y - outer, c.x - inner, c.y + outer));
        CHECK(page.is_all(white_ink, c.x + inner, c.y - outer, c.x + outer, c.y + outer));
    }
}

TEST_CASE("the check line measures 100 mm and lies clear of the field") {
    const auto kind = GENERATE(TargetKind::a4_mat, TargetKind::letter_mat, TargetKind::strip);
    const Drawing page(kind, FieldStyle::blue);
    const auto [from, to] = check_line_of(kind);
    CHECK(to.x - from.x == Approx(100));
    CHECK(to.y == from.y);
    // The outer edges of the two caps, above the line itself.
    const auto left_cap = page.ink_along_row(from.y - 2, from.x - 3, from.x + 3);
    const auto right_cap = page.ink_along_row(to.y - 2, to.x - 3, to.x + 3);
    const double left_edge = left_cap.middle_mm - left_cap.length_mm / 2;
    const double right_edge = right_cap.middle_mm + right_cap.length_mm / 2;
    CHECK(right_edge - left_edge == Approx(100).margin(0.01));
    CHECK(page.ink_along_row(from.y, from.x + 1, to.x - 1).length_mm == Approx(98).margin(0.2));
    if (const std::optional<FieldLayout> field = field_of(kind))
        CHECK(from.y - 2.5 > on_page(kind, field->top_left_mm).y + field->height_mm);
}

TEST_CASE("a mat's field is blue, framed or bare, and nothing is written in it") {
    const auto kind = GENERATE(TargetKind::a4_mat, TargetKind::letter_mat);
    const FieldLayout field = *field_of(kind);
    const PlanePoint corner = on_page(kind, field.top_left_mm);
    const double right = corner.x + field.width_mm - 1;
    const double bottom = corner.y + field.height_mm - 1;
    const auto inside_is = [&](FieldStyle style, std::uint32_t colour) {
        return Drawing(kind, style).is_all(colour, corner.x + 1, corner.y + 1, right, bottom);
    };
    CHECK(inside_is(FieldStyle::blue, 0x4073b3));
    CHECK(inside_is(FieldStyle::frame, white_ink));
    CHECK(inside_is(FieldStyle::none, white_ink));
    CHECK(Drawing(kind, FieldStyle::frame).at(corner.x + 0.25, corner.y + 50) != white_ink);
    CHECK(Drawing(kind, FieldStyle::none).at(corner.x + 0.25, corner.y + 50) == white_ink);
}

TEST_CASE("nothing is printed within 5 mm of the page's edge, where printers do not reach") {
    const auto kind = GENERATE(TargetKind::a4_mat, TargetKind::letter_mat, TargetKind::strip);
    const Drawing page(kind, FieldStyle::blue);
    const double width = page_of(kind).width_mm;
    const double height = page_of(kind).height_mm;
    CHECK(page.is_all(white_ink, 0, 0, width, 5));
    CHECK(page.is_all(white_ink, 0, height - 5, width, height));
    CHECK(page.is_all(white_ink, 0, 0, 5, height));
    CHECK(page.is_all(white_ink, width - 5, 0, width, height));
}
