#include <opencv2/imgproc.hpp>

#include "catch.h"
#include "cell_segmenter.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

constexpr double unit_per_pixel = 0.1;

struct Scene {
    cv::Mat photo, face, cells;  // CV_8UC3; CV_8U 0/1; CV_8U 0/255
};

Scene scene_of(int count) {
    made::Table table;
    table.photo = {900, 700};
    table.pixels_per_mm = 1 / unit_per_pixel;
    const Polyline outline = made::placed(made::dome(70, 50), {45, 60});
    const made::Bread bread{outline, 0, made::scattered(outline, {count, 1.5, 4, 3}, 3)};
    Scene scene;
    scene.photo = made::photo_of_bread(table, {bread});
    scene.face = filled(mapped(made::photo_from_mm(table), outline), table.photo);
    scene.cells = cv::Mat::zeros(table.photo, CV_8U);
    for (const made::Disc& cell : bread.cells)
        cv::circle(scene.cells, cv::Point(mapped(made::photo_from_mm(table), cell.centre)),
                   static_cast<int>(cell.diameter / 2 / unit_per_pixel), 255, cv::FILLED);
    return scene;
}

TEST_CASE("discs darker than the crumb are found as openings") {
    const Scene scene = scene_of(150);
    const Openings openings =
        LocalContrastSegmenter().segment({scene.photo, scene.face, unit_per_pixel});
    const cv::Mat open = openings.probability > 0.5;
    const double both = cv::countNonZero(open & scene.cells);
    CHECK(both / cv::countNonZero(open | scene.cells) > 0.85);
    cv::Mat labels;
    const int cells = cv::connectedComponents(scene.cells, labels, 4);
    CHECK(cv::connectedComponents(open, labels, 4) == Approx(cells).margin(3));
}

TEST_CASE("outside the face nothing is open") {
    const Scene scene = scene_of(150);
    const Openings openings =
        LocalContrastSegmenter().segment({scene.photo, scene.face, unit_per_pixel});
    CHECK(cv::countNonZero(openings.probability.mul(1 - cv::Mat_<float>(scene.face))) == 0);
}

TEST_CASE("plain crumb shows hardly a cell") {
    const Scene scene = scene_of(0);
    const Openings openings =
        LocalContrastSegmenter().segment({scene.photo, scene.face, unit_per_pixel});
    CHECK(cv::countNonZero(openings.probability > 0.5) < 0.005 * cv::countNonZero(scene.face));
}

TEST_CASE("half the light changes few pixels") {
    const Scene scene = scene_of(150);
    const LocalContrastSegmenter segmenter;
    const cv::Mat bright =
        segmenter.segment({scene.photo, scene.face, unit_per_pixel}).probability > 0.5;
    const cv::Mat dim_photo = scene.photo * 0.72;  // sRGB value of half the light
    const cv::Mat dim =
        segmenter.segment({dim_photo, scene.face, unit_per_pixel}).probability > 0.5;
    CHECK(cv::countNonZero(bright != dim) < 0.03 * cv::countNonZero(bright));
}

TEST_CASE("cells part along the distance to their walls") {
    const Scene scene = scene_of(150);
    const Openings openings =
        LocalContrastSegmenter().segment({scene.photo, scene.face, unit_per_pixel});
    CHECK(openings.parting.type() == CV_32F);
    CHECK(cv::countNonZero((openings.parting > 0) != (openings.probability > 0.5)) == 0);
}

}  // namespace
}  // namespace loafmark::analysis
