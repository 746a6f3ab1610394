#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>

#include "line_up/layout.h"

namespace loafmark::line_up {
namespace {

using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;
using Context = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;

constexpr double wished_width_px = 3840;
constexpr double least_px_per_mm = 2;
constexpr double most_px_per_mm = 8;  // twice what kept pictures have: letters gain, bread does not
constexpr double widest_px = 32767;   // cairo's limit

void set_colour(cairo_t* cairo, const Colour& colour) {
    cairo_set_source_rgb(cairo, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0);
}

Surface image_of(const Picture& picture) {
    Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height),
                    cairo_surface_destroy);
    if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error("a slice's picture cannot be drawn");
    cairo_surface_flush(surface.get());
    unsigned char* const data = cairo_image_surface_get_data(surface.get());
    const int stride = cairo_image_surface_get_stride(surface.get());
    for (int y = 0; y < picture.height; ++y) {
        auto* row =
            reinterpret_cast<std::uint32_t*>(data + static_cast<std::ptrdiff_t>(y) * stride);
        const std::uint8_t* rgb =
            picture.rgb.data() + static_cast<std::size_t>(y) * picture.width * 3;
        for (int x = 0; x < picture.width; ++x, rgb += 3)
            row[x] = static_cast<std::uint32_t>(rgb[0]) << 16 |
                     static_cast<std::uint32_t>(rgb[1]) << 8 | rgb[2];
    }
    cairo_surface_mark_dirty(surface.get());
    return surface;
}

void draw_slice(cairo_t* cairo, const PlacedSlice& placed, const PixelsOf& pixels_of) {
    const journal::ReadingPicture& kept = placed.slice->picture;
    const Picture pixels = pixels_of(kept);
    const Surface image = image_of(pixels);
    cairo_save(cairo);
    cairo_translate(cairo, placed.x, placed.y);
    cairo_scale(cairo, placed.mm_per_pixel, placed.mm_per_pixel);
    cairo_translate(cairo, -placed.window.left, -placed.window.top);
    cairo_rectangle(cairo, placed.window.left, placed.window.top, placed.window.width,
                    placed.window.height);
    cairo_clip(cairo);
    for (const PicturePoint& point : kept.outline)
        cairo_line_to(cairo, point.x, point.y);
    if (!kept.outline.empty()) {
        cairo_close_path(cairo);
        cairo_clip(cairo);
    }
    // The picture as kept may have been decoded smaller.
    cairo_scale(cairo, static_cast<double>(kept.width_px) / pixels.width,
                static_cast<double>(kept.height_px) / pixels.height);
    cairo_set_source_surface(cairo, image.get(), 0, 0);
    cairo_pattern_set_filter(cairo_get_source(cairo), CAIRO_FILTER_BEST);
    cairo_paint(cairo);
    cairo_restore(cairo);
}

void draw_line(cairo_t* cairo, const Line& line) {
    set_colour(cairo, ink);
    cairo_set_line_width(cairo, line.width);
    cairo_move_to(cairo, line.x1, line.y1);
    cairo_line_to(cairo, line.x2, line.y2);
    cairo_stroke(cairo);
}

void draw_text(cairo_t* cairo, const Text& text) {
    cairo_select_font_face(cairo, "serif", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cairo, text.size);
    set_colour(cairo, colour_of(text.kind));
    cairo_text_extents_t extents;
    cairo_text_extents(cairo, text.text.c_str(), &extents);
    const double back = text.anchor == Anchor::start    ? 0
                        : text.anchor == Anchor::middle ? extents.x_advance / 2
                                                        : extents.x_advance;
    cairo_move_to(cairo, text.x - back, text.y);
    cairo_show_text(cairo, text.text.c_str());
}

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
    auto& all = *static_cast<std::vector<std::uint8_t>*>(bytes);
    all.insert(all.end(), data, data + length);
    return CAIRO_STATUS_SUCCESS;
}

}  // namespace

std::vector<std::uint8_t> line_up_png(const LineUp& line_up, const PixelsOf& pixels_of) {
    const Layout layout = layout_of(line_up);
    const double scale =
        std::clamp(wished_width_px / layout.width, least_px_per_mm, most_px_per_mm);
    if (layout.width * scale > widest_px)
        throw std::invalid_argument("so many slices make a picture wider than a PNG may be here");
    const Surface surface(cairo_image_surface_create(
                              CAIRO_FORMAT_RGB24, static_cast<int>(std::ceil(layout.width * scale)),
                              static_cast<int>(std::ceil(layout.height * scale))),
                          cairo_surface_destroy);
    const Context context(cairo_create(surface.get()), cairo_destroy);
    cairo_t* const cairo = context.get();
    set_colour(cairo, paper);
    cairo_paint(cairo);
    cairo_scale(cairo, scale, scale);
    for (const Line& line : layout.hairs)
        draw_line(cairo, line);
    for (const PlacedSlice& placed : layout.slices)
        draw_slice(cairo, placed, pixels_of);
    for (const Line& line : layout.lines)
        draw_line(cairo, line);
    for (const Text& text : layout.texts)
        draw_text(cairo, text);
    std::vector<std::uint8_t> bytes;
    if (cairo_status(cairo) != CAIRO_STATUS_SUCCESS ||
        cairo_surface_write_to_png_stream(surface.get(), append, &bytes) != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error("the line-up cannot be drawn");
    return bytes;
}

}  // namespace loafmark::line_up
