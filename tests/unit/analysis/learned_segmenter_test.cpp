#include "learned_segmenter.h"

#include <opencv2/imgproc.hpp>

#include "catch.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

struct Scene {
    cv::Mat photo, face, cells;  // CV_8UC3; CV_8U 0/1; CV_8U 0/255
};

Scene scene_of(double width_mm) {
    made::Table table;
    table.photo = {static_cast<int>(10 * width_mm) + 200, 700};
    table.pixels_per_mm = 10;
    const Polyline outline = made::placed(made::dome(width_mm, 50), {width_mm / 2 + 10, 60});
    const made::Bread bread{outline, 0, made::scattered(outline, {150, 1.5, 4, 3}, 3)};
    Scene scene;
    scene.photo = made::photo_of_bread(table, {bread});
    scene.face = filled(mapped(made::photo_from_mm(table), outline), table.photo);
    scene.cells = cv::Mat::zeros(table.photo, CV_8U);
    for (const made::Disc& cell : bread.cells)
        cv::circle(scene.cells, cv::Point(mapped(made::photo_from_mm(table), cell.centre)),
                   static_cast<int>(cell.diameter * 5), 255, cv::FILLED);
    return scene;
}

// Painted on, without depth, as print is; a plain threshold calls all of it open. Cells with light
// in them are judged on rendered bread (docs/accuracy.md), and so is bran (docs/model-card.md).
TEST_CASE("flat dark discs of a cell's size are mostly no openings to the network") {
    const Scene scene = scene_of(70);
    const Openings openings = LearnedSegmenter().segment({scene.photo, scene.face, 0.1});
    const cv::Mat open = openings.probability > openings.level;
    CHECK(cv::countNonZero(open & scene.cells) < 0.4 * cv::countNonZero(scene.cells));
}

TEST_CASE("the network says nothing outside the face") {
    const Scene scene = scene_of(70);
    const Openings openings = LearnedSegmenter().segment({scene.photo, scene.face, 0.1});
    CHECK(cv::countNonZero(openings.probability.mul(1 - cv::Mat_<float>(scene.face))) == 0);
    CHECK(cv::countNonZero(openings.parting.mul(1 - cv::Mat_<float>(scene.face))) == 0);
}

TEST_CASE("a face too large for one pass is answered to its far side") {
    const Scene scene = scene_of(190);  // more than one tile wide
    const Openings openings = LearnedSegmenter().segment({scene.photo, scene.face, 0.1});
    // A network's answer is never exactly 0; what no part reached would be.
    CHECK(cv::countNonZero(openings.probability) > 0.999 * cv::countNonZero(scene.face));
}

TEST_CASE("an empty face has no openings") {
    const cv::Mat photo(64, 64, CV_8UC3, cv::Scalar::all(120));
    const Openings openings =
        LearnedSegmenter().segment({photo, cv::Mat::zeros(64, 64, CV_8U), 0.1});
    CHECK(cv::countNonZero(openings.probability) == 0);
}

TEST_CASE("the face is handed over without its exposure") {
    cv::Mat photo(64, 64, CV_8UC3), face(64, 64, CV_8U, cv::Scalar(1));
    cv::randu(photo, 40, 90);
    cv::Mat brighter = photo + cv::Scalar::all(60);
    CHECK(cv::norm(normalised_face({photo, face, 0.1}), normalised_face({brighter, face, 0.1}),
                   cv::NORM_INF) < 1e-3);
}

}  // namespace
}  // namespace loafmark::analysis
