#include "test_lines.h"

#include <numbers>
#include <random>

#include "catch.h"
#include "drawn_face.h"

namespace loafmark::analysis {
namespace {

double path(const drawn::Face& face, double limit = 0.5) {
    // Edges as soft as a segmenter's: those of drawn pixels are stairs, which grazing lines cross.
    cv::Mat soft;
    cv::GaussianBlur(face.probability(), soft, {}, 1.0, 0, cv::BORDER_REPLICATE);
    const auto path = count_lines(face.cells(limit), soft, 0.5).mean_free_path();
    REQUIRE(path);
    return *path;
}

// Discs at random that do not touch, with their own area and boundary.
struct Discs {
    drawn::Face face;
    double area = 0, boundary = 0;
};

Discs discs_at_random(double side, int count, double least, double most, unsigned seed) {
    Discs discs{drawn::Face(side, side), 0, 0};
    std::mt19937 random(seed);
    std::vector<std::array<double, 3>> there;
    while (static_cast<int>(there.size()) < count) {
        std::uniform_real_distribution<double> diameter(least, most);
        const double d = diameter(random);
        std::uniform_real_distribution<double> place(d / 2 + 0.3, side - d / 2 - 0.3);
        const double x = place(random), y = place(random);
        bool clear = true;
        for (const auto& [ox, oy, od] : there)
            clear &= std::hypot(x - ox, y - oy) > (d + od) / 2 + 0.3;
        if (!clear) continue;
        there.push_back({x, y, d});
        discs.face.disc(x, y, d);
        discs.area += std::numbers::pi * d * d / 4;
        discs.boundary += std::numbers::pi * d;
    }
    return discs;
}

// Underwood 1970, Quantitative Stereology, ch. 2 and 4: P_L = (2 / pi) L_A crossings a length of
// test line (S_V = 2 P_L = (4 / pi) L_A), N_L = P_L / 2, mean free path = (1 - A_A) / N_L.
TEST_CASE("bread between openings is the mean free path of the discs that were drawn") {
    for (const unsigned seed : {1u, 2u, 3u}) {
        const Discs discs = discs_at_random(50, 60, 2, 5, seed);
        const double area_fraction = discs.area / 2500;
        const double crossings = 2 / std::numbers::pi * discs.boundary / 2500;
        CHECK(path(discs.face) == Approx((1 - area_fraction) / (crossings / 2)).epsilon(0.02));
    }
}

TEST_CASE("in a row of slots the path is that of the directions' mean") {
    // Slots of 1 mm, 3 mm apart, in both directions endless: a line at angle a to their normal
    // crosses |cos a| / 3 of them a length. Over eight directions that mean is 0.6284 / 3.
    drawn::Face face(60, 60);
    for (int i = 0; i < 20; ++i)
        face.box(3 * i + 1, -1, 1, 62);
    double mean = 0;
    for (int d = 0; d < 8; ++d)
        mean += std::abs(std::cos(d * std::numbers::pi / 8)) / 8;
    CHECK(path(face) == Approx((2.0 / 3) / (mean / 3)).epsilon(0.01));
}

TEST_CASE("cells below the limit count as bread, lines outside the crumb count for nothing") {
    drawn::Face face(40, 40), with_dust(40, 40);
    for (drawn::Face* f : {&face, &with_dust})
        f->disc(10, 10, 5).disc(30, 10, 5).disc(20, 30, 5);
    for (int i = 0; i < 9; ++i)
        with_dust.disc(4 * i + 3, 20, 0.3);
    CHECK(path(with_dust) == Approx(path(face)).epsilon(1e-3));
    // Half of an evenly filled crumb has the same path as the whole.
    drawn::Face lattice(40, 40);
    for (int i = 0; i < 10; ++i)
        for (int k = 0; k < 10; ++k)
            lattice.disc(4 * i + 2, 4 * k + 2, 2);
    const double whole = path(lattice);
    CHECK(path(lattice.without(0, 0, 40, 20)) == Approx(whole).epsilon(0.03));
    const drawn::Face solid(20, 20);
    CHECK_FALSE(count_lines(solid.cells(), solid.probability(), 0.5).mean_free_path());
}

TEST_CASE("a wall too thin for the picture still parts two cells") {
    // The same box once whole and once cut in two by the parting alone.
    const drawn::Face face = drawn::Face(30, 30).box(5, 5, 20, 20);
    const CellMap one = face.cells();
    CellMap two = one;
    two.labels = one.labels.clone();
    for (int y = 0; y < two.labels.rows; ++y)
        for (int x = 150; x < two.labels.cols; ++x)
            if (two.labels.at<int>(y, x) == 1) two.labels.at<int>(y, x) = 2;
    two.resolved.push_back(1);
    const double whole = count_lines(one, face.probability(), 0.5).changes;
    const double parted = count_lines(two, face.probability(), 0.5).changes;
    // A wall of 20 mm adds two crossings where the four sides give 80 mm one each.
    CHECK(parted / whole == Approx(1 + 2 * 20 / 80.0).epsilon(0.03));
}

}  // namespace
}  // namespace loafmark::analysis
