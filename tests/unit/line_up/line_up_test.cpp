#include "line_up/line_up.h"

#include <cairo.h>

#include <memory>
#include <stdexcept>

#include "catch.h"
#include "markup.h"

using namespace loafmark;
using namespace loafmark::line_up;

namespace {

journal::ReadingPicture picture(int width, int height, std::optional<double> mm_per_pixel) {
    return {"image/jpeg", {1, 2, 3}, mm_per_pixel, width, height};
}

LineUp two_flours() {
    return {"Two flours",
            {{picture(500, 400, 0.2), "wheat <70>", "1 March 2026"},
             {picture(900, 300, 0.1), "emmer", "2 March 2026"}}};
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

// All pixels of one colour.
Picture plain(const journal::ReadingPicture& kept, std::uint8_t red) {
    Picture picture{kept.width_px, kept.height_px, {}};
    for (int i = 0; i < kept.width_px * kept.height_px; ++i)
        picture.rgb.insert(picture.rgb.end(), {red, 0, 0});
    return picture;
}

// A PNG read back.
class Drawn {
  public:
    explicit Drawn(std::vector<std::uint8_t> bytes) : bytes_(std::move(bytes)) {
        surface_ = cairo_image_surface_create_from_png_stream(
            [](void* self, unsigned char* data, unsigned int length) {
                auto& drawn = *static_cast<Drawn*>(self);
                std::copy_n(drawn.bytes_.begin() + static_cast<std::ptrdiff_t>(drawn.at_), length,
                            data);
                drawn.at_ += length;
                return CAIRO_STATUS_SUCCESS;
            },
            this);
        REQUIRE(cairo_surface_status(surface_) == CAIRO_STATUS_SUCCESS);
    }
    ~Drawn() { cairo_surface_destroy(surface_); }
    Drawn(const Drawn&) = delete;
    Drawn& operator=(const Drawn&) = delete;

    [[nodiscard]] int width() const { return cairo_image_surface_get_width(surface_); }
    [[nodiscard]] int height() const { return cairo_image_surface_get_height(surface_); }
    // Red, green and blue at a place given in parts of width and height.
    [[nodiscard]] std::array<int, 3> at(double x, double y) const {
        const auto* row = reinterpret_cast<const std::uint32_t*>(
            cairo_image_surface_get_data(surface_) +
            static_cast<std::ptrdiff_t>(y * height()) * cairo_image_surface_get_stride(surface_));
        const std::uint32_t pixel = row[static_cast<std::ptrdiff_t>(x * width())];
        return {static_cast<int>(pixel >> 16 & 255), static_cast<int>(pixel >> 8 & 255),
                static_cast<int>(pixel & 255)};
    }

  private:
    std::vector<std::uint8_t> bytes_;
    std::size_t at_ = 0;
    cairo_surface_t* surface_ = nullptr;
};

}  // namespace

TEST_CASE("a line-up stands its slices on one base line at one scale") {
    const std::string svg = line_up_svg(two_flours());
    CHECK(markup_fault(svg, Markup::xml) == "");
    // 100 x 80 mm and 90 x 30 mm; the base line at 20 + 80.
    CHECK(holds(svg, "y=\"20\" width=\"100\" height=\"80\" viewBox=\"0 0 500 400\""));
    CHECK(holds(svg, "y=\"70\" width=\"90\" height=\"30\" viewBox=\"0 0 900 300\""));
    CHECK(holds(svg, "y1=\"100\""));
    CHECK(holds(svg, "wheat &lt;70&gt;"));
    CHECK(holds(svg, ">50</text>"));
    CHECK(holds(svg, ">mm</text>"));
    CHECK(holds(svg, "data:image/jpeg;base64,AQID"));
    CHECK_FALSE(holds(svg, "<script"));
}

TEST_CASE("a slice that has an outline is cut out along it") {
    LineUp line_up = two_flours();
    line_up.slices[0].picture.outline = {{100, 400}, {100, 200}, {300, 100}, {400, 400}};
    const std::string svg = line_up_svg(line_up);
    CHECK(holds(svg, "<clipPath id=\"edge-1\"><path d=\"M100 400 100 200 300 100 400 400Z\"/>"));
    CHECK(holds(svg, "width=\"60\" height=\"60\" viewBox=\"100 100 300 300\""));
    CHECK_FALSE(holds(svg, "edge-2"));
}

TEST_CASE("a slice without a scale has no place in a line-up") {
    const LineUp both{
        "", {{picture(500, 400, 0.2), "wheat", ""}, {picture(500, 400, std::nullopt), "rye", ""}}};
    CHECK_FALSE(holds(line_up_svg(both), "rye"));
    const LineUp none{"", {{picture(5, 4, std::nullopt), "rye", ""}}};
    CHECK_THROWS_AS(line_up_svg(none), std::invalid_argument);
    CHECK_THROWS_AS(line_up_png(none, [](const auto& kept) { return plain(kept, 9); }),
                    std::invalid_argument);
}

TEST_CASE("as a PNG the slices lie where the layout says, cut out on paper") {
    LineUp line_up{"", {{picture(500, 400, 0.2), "wheat", ""}}};
    // The left half of the face only.
    line_up.slices[0].picture.outline = {{0, 0}, {500, 0}, {0, 400}};
    const Drawn drawn(line_up_png(line_up, [](const auto& kept) { return plain(kept, 200); }));
    // 8 + 17 mm of margin and ruler, 100 mm of slice, 8 mm of margin; 20 mm of head, 80 mm of
    // slice, 30 mm of foot; 8 pixels a millimetre.
    CHECK(drawn.width() == 8 * 133);
    CHECK(drawn.height() == 8 * 130);
    const std::array<int, 3> bread{200, 0, 0};
    const std::array<int, 3> paper{251, 246, 236};
    CHECK(drawn.at((25 + 10) / 133.0, (20 + 20) / 130.0) == bread);
    CHECK(drawn.at((25 + 95) / 133.0, (20 + 70) / 130.0) == paper);  // outside its outline
    CHECK(drawn.at(5 / 133.0, 5 / 130.0) == paper);
    // The base line, dark, all along.
    CHECK(drawn.at(120 / 133.0, 100 / 130.0)[0] < 90);
}

TEST_CASE("what cannot be decoded is not hidden") {
    CHECK_THROWS_AS(
        line_up_png(two_flours(), [](const auto&) -> Picture { throw std::runtime_error("no"); }),
        std::runtime_error);
}
