#include "part_cells.h"

#include <algorithm>
#include <functional>
#include <map>
#include <set>

#include <opencv2/imgproc.hpp>

#include "catch.h"

namespace loafmark::analysis {
namespace {

using Rule = std::function<bool(int row, int column)>;

cv::Mat mask_of(int rows, int columns, const Rule& open) {
    cv::Mat mask = cv::Mat::zeros(rows, columns, CV_8U);
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column)
            if (open(row, column)) mask.at<uchar>(row, column) = 255;
    return mask;
}

cv::Mat depth_of(const cv::Mat& open) {
    cv::Mat depth;
    cv::distanceTransform(open, depth, cv::DIST_L2, cv::DIST_MASK_PRECISE);
    return depth;
}

constexpr PartingRule never{0, 0};

std::vector<int> sizes_of(const cv::Mat& labels) {
    std::vector<int> sizes;
    for (int y = 0; y < labels.rows; ++y)
        for (int x = 0; x < labels.cols; ++x) {
            const int label = labels.at<int>(y, x);
            if (label == 0) continue;
            sizes.resize(std::max(sizes.size(), static_cast<std::size_t>(label)), 0);
            ++sizes[static_cast<std::size_t>(label - 1)];
        }
    return sizes;
}

std::vector<int> largest(std::vector<int> sizes, std::size_t count) {
    std::sort(sizes.rbegin(), sizes.rend());
    sizes.resize(std::min(count, sizes.size()));
    return sizes;
}

struct Expected {
    const char* name;
    int rows, columns;
    Rule open;
    std::size_t cells;
    std::vector<int> largest;
};

// Values: 4-connected components of scipy.ndimage 1.10.1 and scikit-image 0.19.3, which agree.
TEST_CASE("without parting, cells are the 4-connected components") {
    const auto lattice = [](int square) {
        return [square](int r, int c) {
            return (r % 20 - 10) * (r % 20 - 10) + (c % 20 - 10) * (c % 20 - 10) <= square;
        };
    };
    const std::vector<Expected> table = {
        {"A",
         64,
         64,
         [](int r, int c) { return (r * r * 3 + c * 7 + r * c) % 11 < 4; },
         451,
         {7, 7, 7, 7, 7}},
        {"B",
         50,
         70,
         [](int r, int c) { return (r * 13 + c * 29 + (r * c) % 17) % 7 < 3; },
         364,
         {191, 81, 81, 33, 29}},
        {"checkerboard",
         40,
         40,
         [](int r, int c) { return (r + c) % 2 == 0; },
         800,
         {1, 1, 1, 1, 1}},
        {"discs apart", 120, 160, lattice(49), 48, {149, 149, 149, 149, 149}},
        {"discs that touch", 120, 160, lattice(100), 1, {15120}}};
    for (const Expected& expected : table) {
        CAPTURE(expected.name);
        const cv::Mat open = mask_of(expected.rows, expected.columns, expected.open);
        const cv::Mat labels = part_cells(open, depth_of(open), never);
        const std::vector<int> sizes = sizes_of(labels);
        CHECK(sizes.size() == expected.cells);
        CHECK(largest(sizes, expected.largest.size()) == expected.largest);
        // Every open pixel belongs to a cell, no solid one does.
        CHECK(cv::countNonZero((labels != 0) != (open != 0)) == 0);
    }
}

// Two discs of radius 20 whose centres lie 32 apart. From pixel to pixel, 20.02 deep each (the
// nearest solid one lies 20 and 1 away) and 13 where they meet: 0.649 of that, 7.02 below it.
cv::Mat two_discs() {
    return mask_of(60, 100, [](int r, int c) {
        const int dy = r - 30;
        return dy * dy + (c - 34) * (c - 34) <= 400 || dy * dy + (c - 66) * (c - 66) <= 400;
    });
}

std::size_t cells_of(const cv::Mat& open, const PartingRule& rule) {
    return sizes_of(part_cells(open, depth_of(open), rule)).size();
}

TEST_CASE("two basins part where the saddle is low enough, as the rule says") {
    CHECK(cells_of(two_discs(), {0.66, 1}) == 2);
    CHECK(cells_of(two_discs(), {0.64, 1}) == 1);
    CHECK(cells_of(two_discs(), {0.75, 6.9}) == 2);
    CHECK(cells_of(two_discs(), {0.75, 7.1}) == 1);
}

TEST_CASE("the wall between two equal basins runs through their middle, without a width") {
    const cv::Mat labels = part_cells(two_discs(), depth_of(two_discs()), {0.75, 1});
    const std::vector<int> sizes = sizes_of(labels);
    REQUIRE(sizes.size() == 2);
    CHECK(std::abs(sizes[0] - sizes[1]) < 60);  // a pixel's width of wall
    CHECK(sizes[0] + sizes[1] == cv::countNonZero(two_discs()));
    CHECK(labels.at<int>(30, 47) != labels.at<int>(30, 53));
}

// Many discs of all sizes that overlap as they happen to.
cv::Mat foam() {
    cv::Mat open = cv::Mat::zeros(300, 400, CV_8U);
    cv::RNG random(11);
    for (int i = 0; i < 250; ++i)
        cv::circle(open, {random.uniform(0, 400), random.uniform(0, 300)}, random.uniform(2, 14),
                   255, cv::FILLED);
    return open;
}

// Share of open pixels whose cell in `a` is the same cell in `b`.
double agreement(const cv::Mat& a, const cv::Mat& b) {
    std::map<int, std::map<int, int>> shared;
    int open = 0, agreeing = 0;
    for (int y = 0; y < a.rows; ++y)
        for (int x = 0; x < a.cols; ++x)
            if (a.at<int>(y, x)) ++shared[a.at<int>(y, x)][b.at<int>(y, x)], ++open;
    std::set<int> used;
    for (const auto& [label, others] : shared) {
        const auto most =
            std::max_element(others.begin(), others.end(),
                             [](const auto& p, const auto& q) { return p.second < q.second; });
        if (used.insert(most->first).second) agreeing += most->second;
    }
    return static_cast<double>(agreeing) / open;
}

// Where several basins meet at one height, the order of pixels decides which joins which.
TEST_CASE("a mirrored or turned picture parts into the same cells, but for ties") {
    const cv::Mat open = foam();
    const PartingRule rule{0.75, 1.5};
    const cv::Mat labels = part_cells(open, depth_of(open), rule);
    for (const int code : {-1, 0, 1}) {
        cv::Mat flipped, back;
        cv::flip(open, flipped, code);
        cv::flip(part_cells(flipped, depth_of(flipped), rule), back, code);
        CAPTURE(code);
        CHECK(sizes_of(back).size() == sizes_of(labels).size());
        CHECK(agreement(labels, back) > 0.99);
    }
    const cv::Mat turned = open.t();
    CHECK(agreement(labels, part_cells(turned, depth_of(turned), rule).t()) > 0.99);
}

TEST_CASE("cells are numbered in reading order, from 1, without gaps") {
    const cv::Mat open = foam();
    const cv::Mat labels = part_cells(open, depth_of(open), {0.75, 1.5});
    int highest = 0;
    for (int y = 0; y < labels.rows; ++y)
        for (int x = 0; x < labels.cols; ++x) {
            if (labels.at<int>(y, x) > highest + 1) FAIL("number skipped");
            highest = std::max(highest, labels.at<int>(y, x));
        }
    const std::vector<int> sizes = sizes_of(labels);
    CHECK(static_cast<int>(sizes.size()) == highest);
    CHECK(std::find(sizes.begin(), sizes.end(), 0) == sizes.end());
}

TEST_CASE("every cell hangs together in four directions") {
    const cv::Mat open = foam();
    const cv::Mat labels = part_cells(open, depth_of(open), {0.75, 1.5});
    const int count = static_cast<int>(sizes_of(labels).size());
    for (int label = 1; label <= count; ++label) {
        cv::Mat unused;
        CHECK(cv::connectedComponents(labels == label, unused, 4) == 2);  // and the background
    }
}

TEST_CASE("a face without openings has no cells") {
    const cv::Mat solid = cv::Mat::zeros(20, 30, CV_8U);
    CHECK(cv::countNonZero(part_cells(solid, depth_of(solid), {0.75, 1})) == 0);
}

}  // namespace
}  // namespace loafmark::analysis
