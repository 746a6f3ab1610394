#include "find_slices.h"

#include <opencv2/imgproc.hpp>

#include "catch.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

made::Table table_of(cv::Size photo = {900, 700}) {
    made::Table table;
    table.photo = photo;
    table.pixels_per_mm = 6;
    table.ground = {62, 96, 156};
    return table;
}

Polyline in_photo(const made::Bread& bread, const made::Table& table) {
    return mapped(made::photo_from_mm(table), bread.outline);
}

TEST_CASE("an empty table shows no slice") {
    const made::Table table = table_of();
    CHECK(find_slices(made::photo_of_bread(table, {}), {}).empty());
    made::Table noisy = table;
    noisy.noise = 3;
    CHECK(find_slices(made::photo_of_bread(noisy, {}), {}).empty());
}

TEST_CASE("wood grain is no bread") {
    cv::Mat board(700, 900, CV_8UC3);
    for (int y = 0; y < board.rows; ++y)
        for (int x = 0; x < board.cols; ++x) {
            const double grain = 25 * std::sin(y * 0.35 + 3 * std::sin(x * 0.004));
            board.at<cv::Vec3b>(y, x) = {cv::saturate_cast<uchar>(150 + grain),
                                         cv::saturate_cast<uchar>(112 + grain),
                                         cv::saturate_cast<uchar>(76 + grain)};
        }
    CHECK(find_slices(board, {}).empty());
}

TEST_CASE("a slice is found with its outline, roughly") {
    for (const cv::Vec3b& ground :
         {cv::Vec3b(62, 96, 156), cv::Vec3b(236, 236, 234), cv::Vec3b(46, 44, 42)}) {
        made::Table table = table_of();
        table.ground = ground;
        const made::Bread bread = made::bread_of(made::placed(made::tin_loaf(80, 75), {75, 95}));
        const auto slices = find_slices(made::photo_of_bread(table, {bread}), {});
        INFO("ground " << cv::Vec3i(ground));
        REQUIRE(slices.size() == 1);
        CHECK_FALSE(slices[0].cut_by_frame);
        CHECK(made::overlap(slices[0].outline, in_photo(bread, table), 1) > 0.95);
    }
}

TEST_CASE("two slices come left to right, those of one column top to bottom") {
    const made::Table table = table_of({1000, 800});
    const auto at = [](double x, double y, std::uint64_t seed) {
        const Polyline outline = made::placed(made::dome(66, 46), {x, y});
        return made::Bread{outline, 2, made::scattered(outline, {300, 1, 3, 2.2}, seed)};
    };
    const std::vector<made::Bread> right_first = {at(125, 80, 1), at(42, 80, 2)};
    const auto row = find_slices(made::photo_of_bread(table, right_first), {});
    REQUIRE(row.size() == 2);
    CHECK(made::overlap(row[0].outline, in_photo(right_first[1], table), 1) > 0.9);
    CHECK(made::overlap(row[1].outline, in_photo(right_first[0], table), 1) > 0.9);

    const std::vector<made::Bread> lower_first = {at(83, 120, 1), at(85, 58, 2)};
    const auto column = find_slices(made::photo_of_bread(table, lower_first), {});
    REQUIRE(column.size() == 2);
    CHECK(made::overlap(column[0].outline, in_photo(lower_first[1], table), 1) > 0.9);
    CHECK(made::overlap(column[1].outline, in_photo(lower_first[0], table), 1) > 0.9);
}

TEST_CASE("slices with many large cells and with fewer small ones are found together") {
    const made::Table table = table_of({1000, 800});
    const Polyline left = made::placed(made::dome(66, 46), {42, 80});
    const Polyline right = made::placed(made::dome(66, 46), {125, 80});
    const std::vector<made::Bread> slices = {
        {left, 2, made::scattered(left, {300, 1, 3, 2.2}, 1)},
        {right, 2, made::scattered(right, {150, 1, 1.6, 3}, 2)}};
    const auto found = find_slices(made::photo_of_bread(table, slices), {});
    REQUIRE(found.size() == 2);
    CHECK(made::overlap(found[0].outline, in_photo(slices[0], table), 1) > 0.9);
    CHECK(made::overlap(found[1].outline, in_photo(slices[1], table), 1) > 0.9);
}

TEST_CASE("cloth of coarse checks beside a slice is none, nor does it join one") {
    const made::Table table = table_of();
    const made::Bread bread = made::bread_of(made::placed(made::tin_loaf(60, 55), {75, 90}));
    cv::Mat photo = made::photo_of_bread(table, {bread});
    const cv::Rect mat(170, 120, 560, 470);
    for (int y = 0; y < photo.rows; ++y)
        for (int x = 0; x < photo.cols; ++x)
            if (!mat.contains({x, y}))
                photo.at<cv::Vec3b>(y, x) =
                    (x / 9 + y / 9) % 2 ? cv::Vec3b(230, 225, 220) : cv::Vec3b(120, 115, 110);
    SliceSearch search;
    search.least_radius_px = 60;
    const auto found = find_slices(photo, search);
    REQUIRE(found.size() == 1);
    CHECK_FALSE(found[0].cut_by_frame);
    CHECK(made::overlap(found[0].outline, in_photo(bread, table), 1) > 0.95);
}

TEST_CASE("cells that go right through near the crust do not bite the outline") {
    made::Table table = table_of();
    made::Bread bread = made::bread_of(made::placed(made::tin_loaf(80, 75), {75, 95}));
    cv::Mat photo = made::photo_of_bread(table, {bread});
    const cv::Matx33d to_photo = made::photo_from_mm(table);
    for (const cv::Point2d at : {cv::Point2d(41, 70), {75, 26}, {109, 60}})
        cv::circle(photo, cv::Point(mapped(to_photo, at)), 20,
                   cv::Scalar(table.ground[0], table.ground[1], table.ground[2]), cv::FILLED);
    const auto found = find_slices(photo, {});
    REQUIRE(found.size() == 1);
    CHECK(made::overlap(found[0].outline, in_photo(bread, table), 1) > 0.96);
}

TEST_CASE("a slice that the photo's edge cuts is known as such") {
    const made::Table table = table_of();
    const made::Bread bread = made::bread_of(made::placed(made::dome(110, 80), {20, 100}));
    const auto slices = find_slices(made::photo_of_bread(table, {bread}), {});
    REQUIRE(slices.size() == 1);
    CHECK(slices[0].cut_by_frame);
}

TEST_CASE("what is named as no bread is none") {
    const made::Table table = table_of();
    const made::Bread bread = made::bread_of(made::placed(made::dome(60, 45), {75, 85}));
    const cv::Mat photo = made::photo_of_bread(table, {bread});
    REQUIRE(find_slices(photo, {}).size() == 1);
    SliceSearch search;
    search.not_bread = {{{250, 200}, {650, 200}, {650, 540}, {250, 540}}};
    CHECK(find_slices(photo, search).empty());
}

TEST_CASE("what is smaller than a slice can be is none") {
    const made::Table table = table_of();
    const made::Bread bread = made::bread_of(made::placed(made::dome(60, 45), {75, 85}));
    const cv::Mat photo = made::photo_of_bread(table, {bread});
    SliceSearch search;
    search.least_radius_px = 200;  // the loaf holds a disc of about 130
    CHECK(find_slices(photo, search).empty());
}

TEST_CASE("the same photo gives the same outline every time") {
    const made::Table table = table_of();
    const made::Bread bread = made::bread_of(made::placed(made::dome(80, 60), {75, 95}));
    const cv::Mat photo = made::photo_of_bread(table, {bread});
    const auto first = find_slices(photo, {}), second = find_slices(photo, {});
    REQUIRE(first.size() == 1);
    REQUIRE(second.size() == 1);
    CHECK(first[0].outline == second[0].outline);
}

TEST_CASE("a picture too small for a slice shows none") {
    CHECK(find_slices(cv::Mat(20, 20, CV_8UC3, cv::Scalar(90, 90, 90)), {}).empty());
}

}  // namespace
}  // namespace loafmark::analysis
