#include "overlay.h"

#include <opencv2/imgproc.hpp>

#include "catch.h"

namespace loafmark::analysis {
namespace {

constexpr std::array<int, 3> counted_colour = {0, 140, 255};
constexpr std::array<int, 3> small_colour = {90, 90, 90};
constexpr std::array<int, 3> crust_cell_colour = {0, 158, 115};
const cv::Scalar crumb_colour(224, 206, 172);

struct Scene {
    cv::Mat rgb{700, 900, CV_8UC3, crumb_colour};
    cv::Mat crumb{700, 900, CV_8U, cv::Scalar(1)};
    Frame frame;
    Polyline outline = {{100, 100}, {800, 100}, {800, 600}, {100, 600}};
    CrumbResult cells;
    BaseLine base{{100, 600}, {800, 600}, 0};
    Shape shape;

    // A counted cell at (200, 200), one that is not at (400, 200), a cavity at (600, 350).
    Scene() {
        frame.size = rgb.size();
        shape.height = 500;
        shape.crown = {450, 100};
        shape.crown_foot = {450, 600};
        cells.labels = cv::Mat::zeros(rgb.size(), CV_32S);
        cv::circle(cells.labels, {200, 200}, 20, 1, cv::FILLED);
        cv::circle(cells.labels, {320, 200}, 20, 2, cv::FILLED);
        cv::circle(cells.labels, {600, 350}, 60, 3, cv::FILLED);
        cells.cells = {{1, 4, 12.6, {20, 20}, true},
                       {2, 4, 12.6, {32, 20}, false},
                       {3, 12, 113, {60, 35}, true}};
    }

    [[nodiscard]] Picture drawn(bool has_scale = true, bool whole = true) const {
        return draw_overlay(
            {rgb, frame, outline, crumb, cells, base, shape, 0.5, has_scale, whole});
    }
};

// Pixels of one colour, the cells' where none is named, within a box.
int coloured(const Picture& picture, cv::Rect box,
             const std::array<int, 3>& cell_colour = counted_colour) {
    int count = 0;
    for (int y = box.y; y < box.br().y; ++y)
        for (int x = box.x; x < box.br().x; ++x) {
            const auto* pixel = &picture.rgb[(static_cast<std::size_t>(y) * picture.width + x) * 3];
            count += pixel[0] == cell_colour[0] && pixel[1] == cell_colour[1] &&
                     pixel[2] == cell_colour[2];
        }
    return count;
}

TEST_CASE("an overlay is the slice's picture with a band of paper at its right") {
    Scene tall;
    tall.rgb = cv::Mat(1100, 900, CV_8UC3, crumb_colour);
    tall.crumb = cv::Mat(1100, 900, CV_8U, cv::Scalar(1));
    tall.cells.labels = cv::Mat::zeros(1100, 900, CV_32S);
    const Picture picture = tall.drawn();
    CHECK(picture.height == 1100);
    CHECK(picture.width == 900 + 340);  // 34 mm
    CHECK(picture.rgb.size() == static_cast<std::size_t>(picture.width) * picture.height * 3);
}

TEST_CASE("a low slice stands on paper, so that the legend has its room above the bar") {
    const Picture picture = Scene().drawn();
    CHECK(picture.height == 920);  // 92 mm
    CHECK(coloured(picture, {0, 700, 900, 220}, {250, 247, 240}) == 900 * 220);
}

TEST_CASE("the height is written beside its line, within the slice's picture") {
    Scene aside;
    aside.shape.crown = {860, 100};
    aside.shape.crown_foot = {860, 600};
    const Picture picture = aside.drawn();
    CHECK(coloured(picture, {700, 320, 150, 40}, {40, 36, 32}) > 100);
    // The band shows what it shows of any slice.
    const cv::Rect band(905, 320, 60, 40);
    CHECK(coloured(picture, band, {40, 36, 32}) == coloured(Scene().drawn(), band, {40, 36, 32}));
}

TEST_CASE("counted cells are outlined, others are not") {
    const Picture picture = Scene().drawn();
    const int rim = coloured(picture, {170, 170, 60, 60});
    CHECK(rim > 80);
    CHECK(rim < 250);  // a rim, not a filled disc of 1257
    CHECK(coloured(picture, {290, 170, 60, 60}) == 0);
}

TEST_CASE("what was left out is drawn by its reason, and named in the legend") {
    Scene scene;
    const cv::Rect cell(290, 170, 60, 60), legend(900, 220, 340, 330);
    // Not counted although it is large: its middle lies in the crust.
    CHECK(coloured(scene.drawn(), cell, crust_cell_colour) > 80);
    CHECK(coloured(scene.drawn(), legend, crust_cell_colour) > 20);
    CHECK(coloured(scene.drawn(), legend, small_colour) == 0);
    scene.cells.cells[1].equivalent_diameter = 0.4;
    CHECK(coloured(scene.drawn(), cell, small_colour) > 80);
    CHECK(coloured(scene.drawn(), legend, small_colour) > 20);
    CHECK(coloured(scene.drawn(), legend, crust_cell_colour) == 0);
}

TEST_CASE("crust is striped, crumb is not") {
    Scene scene;
    constexpr std::array<int, 3> stripe = {240, 240, 240};
    CHECK(coloured(scene.drawn(), {110, 110, 680, 480}, stripe) == 0);
    scene.crumb.rowRange(100, 150).setTo(0);
    CHECK(coloured(scene.drawn(), {110, 105, 680, 40}, stripe) > 500);
    CHECK(coloured(scene.drawn(), {110, 155, 680, 400}, stripe) == 0);
}

TEST_CASE("cavities are hatched besides") {
    const Picture picture = Scene().drawn();
    CHECK(coloured(picture, {580, 330, 40, 40}) > 100);  // well inside it
    CHECK(coloured(picture, {190, 190, 20, 20}) == 0);   // well inside a small cell
}

TEST_CASE("the slice itself is shown unchanged between its cells") {
    const Picture picture = Scene().drawn();
    const auto* pixel = &picture.rgb[(500ull * static_cast<std::size_t>(picture.width) + 200) * 3];
    CHECK(pixel[0] == 224);
    CHECK(pixel[1] == 206);
    CHECK(pixel[2] == 172);
}

TEST_CASE(
    "without a scale neither bar nor millimetres are drawn, without a whole slice no height") {
    const Scene scene;
    CHECK(scene.drawn(true) != scene.drawn(false));
    CHECK(scene.drawn(true, true) != scene.drawn(true, false));
    // The bar's place: the lower end of the band.
    const auto band_is_plain = [](const Picture& picture) {
        for (int y = picture.height - 120; y < picture.height; ++y)
            for (int x = 900; x < picture.width; ++x)
                if (picture.rgb[(static_cast<std::size_t>(y) * picture.width + x) * 3] != 250)
                    return false;
        return true;
    };
    CHECK(band_is_plain(scene.drawn(false)));
    CHECK_FALSE(band_is_plain(scene.drawn(true)));
}

TEST_CASE("coarseness is a ring in the band, or words where the ring would not fit") {
    Scene scene;
    const cv::Rect band(900, 0, 340, 215);  // above the legend
    scene.cells.values[Measure::coarseness] = Estimate{10, 9, 11, {}, {}};
    CHECK(coloured(scene.drawn(), band) > 200);
    scene.cells.values[Measure::coarseness] = Estimate{80, 70, 90, {}, {}};
    for (const bool has_scale : {true, false}) {
        const Picture picture = scene.drawn(has_scale);
        CHECK(coloured(picture, band) == 0);
        // Nor does it run over the slice.
        CHECK(coloured(picture, {800, 0, 100, 700}) == 0);
    }
}

}  // namespace
}  // namespace loafmark::analysis
