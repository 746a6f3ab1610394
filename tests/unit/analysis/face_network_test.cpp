#include "face_network.h"

#include <opencv2/imgproc.hpp>

#include "built_in_models.h"
#include "catch.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

TEST_CASE("both built-in networks are read, and named with their hashes") {
    for (const BuiltInModel model : {BuiltInModel::crumb_cells, BuiltInModel::slice_faces}) {
        CHECK_FALSE(network_of(model).empty());
        const std::string name = name_of(model);
        REQUIRE(name.size() == std::string("slice-faces 01234567").size());
        CHECK(name.substr(12).find_first_not_of("0123456789abcdef") == std::string::npos);
    }
    CHECK(name_of(BuiltInModel::crumb_cells) != name_of(BuiltInModel::slice_faces));
}

TEST_CASE("a picture of any size gives a map of its size, high on bread and low beside it") {
    made::Table table;
    table.photo = {500, 391};
    table.pixels_per_mm = 3;
    table.ground = {62, 96, 156};
    const made::Bread bread = made::bread_of(made::placed(made::tin_loaf(90, 80), {80, 110}));
    const cv::Mat photo = made::photo_of_bread(table, {bread});
    const cv::Mat map = FaceNetwork().faces_in(photo, {448, 320});
    REQUIRE(map.size() == photo.size());
    REQUIRE(map.type() == CV_32F);
    const cv::Mat face = filled(mapped(made::photo_from_mm(table), bread.outline), map.size());
    CHECK(cv::mean(map, face)[0] > 0.95);
    CHECK(cv::mean(map, face == 0)[0] < 0.03);
}

TEST_CASE("brighter and darker photos give the same map, nearly") {
    made::Table table;
    table.photo = {480, 360};
    table.pixels_per_mm = 3;
    table.ground = {62, 96, 156};
    const made::Bread bread = made::bread_of(made::placed(made::dome(90, 60), {75, 90}));
    const cv::Mat photo = made::photo_of_bread(table, {bread});
    const FaceNetwork network;
    const cv::Mat usual = network.faces_in(photo, {448, 320}),
                  dark = network.faces_in(photo * 0.6, {448, 320});
    CHECK(cv::mean(cv::abs(usual - dark))[0] < 0.02);
}

}  // namespace
}  // namespace loafmark::analysis
