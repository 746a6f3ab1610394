#include "phantoms/table_look.h"

#include "catch.h"
#include "phantoms/camera.h"
#include "phantoms/phantom.h"

using namespace loafmark;
using namespace loafmark::phantoms;

TEST_CASE("markers are printed at their places with their bits and a white quiet zone") {
    for (const TargetKind kind : {TargetKind::a4_mat, TargetKind::letter_mat, TargetKind::strip}) {
        const TableLook look = table_with_target(kind, MatField::blue);
        for (const TargetMarker& marker : markers_of(kind)) {
            const auto lightness = [&](double dx, double dy) {
                return luminance(print_albedo(look, static_cast<float>(marker.centre_mm.x + dx),
                                              static_cast<float>(marker.centre_mm.y + dy)));
            };
            for (int row = 0; row < 6; ++row)
                for (int column = 0; column < 6; ++column) {
                    const bool white = lightness(-10 + 4 * column, -10 + 4 * row) > 0.5;
                    CHECK(white == marker_module_is_white(marker.id, row, column));
                }
            for (const double out : {12.2, 15.8}) {
                CHECK(lightness(out, 0) > 0.5);
                CHECK(lightness(-out, 0) > 0.5);
                CHECK(lightness(0, out) > 0.5);
                CHECK(lightness(0, -out) > 0.5);
            }
        }
    }
}

TEST_CASE("a marker's corners land in the photo where photo_from_paper says") {
    PhantomRecipe recipe;
    recipe.slices[0].loaf.width_mm = 30;
    recipe.slices[0].loaf.height_mm = 25;
    recipe.slices[0].pose.origin_mm = {83, 135};
    recipe.camera = look_at({83, 126}, 0, 420, 0.2, 0.9, 0.1);
    recipe.camera.width = 480;
    recipe.camera.height = 640;
    recipe.samples = {4, 4};
    recipe.morsels = 0;
    recipe.development = {};
    recipe.development.defocus_px = 0.3;
    recipe.development.shot_noise = recipe.development.read_noise = 0;
    const Phantom phantom = make_phantom(recipe, 2);
    const auto grey_at = [&](PlanePoint paper) {
        const PhotoPoint p = project(*phantom.photo_from_paper, paper);
        const std::size_t at = (static_cast<std::size_t>(std::lround(p.y)) * 480 +
                                static_cast<std::size_t>(std::lround(p.x))) *
                               3;
        return static_cast<int>(phantom.photo.rgb[at + 1]);
    };
    // 2.5 mm (4 pixels) inside each corner of the black square lies ink, outside paper.
    for (const TargetMarker& marker : a4_mat_markers)
        for (const double sx : {-1.0, 1.0})
            for (const double sy : {-1.0, 1.0}) {
                const PlanePoint c = marker.centre_mm;
                const int in = grey_at({c.x + 9.7 * sx, c.y + 9.7 * sy});
                const int out = grey_at({c.x + 14.3 * sx, c.y + 14.3 * sy});
                CAPTURE(marker.id, sx, sy, in, out);
                CHECK(out > in + 80);
            }
}
