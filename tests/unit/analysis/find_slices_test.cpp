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
