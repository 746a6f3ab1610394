#include "true_crumb.h"

#include <cmath>
#include <numbers>

#include "catch.h"
#include "true_lines.h"

using namespace loafmark;
using namespace loafmark::accuracy;

namespace {

// A crumb of 60 x 40 mm, 10 pixels a mm, with discs that do not touch.
struct Drawn {
    int width = 600, height = 400;
    std::vector<std::uint16_t> labels = std::vector<std::uint16_t>(600 * 400, 0);
    LabelMap crumb{600, 400, std::vector<std::uint16_t>(600 * 400, 1)};
    double area = 0, boundary = 0;
    std::uint16_t count = 0;

    void ellipse(double x, double y, double w, double h) {
        ++count;
        for (int r = 0; r < height; ++r)
            for (int c = 0; c < width; ++c)
                if (std::pow((c / 10.0 - x) * 2 / w, 2) + std::pow((r / 10.0 - y) * 2 / h, 2) <= 1)
                    labels[static_cast<std::size_t>(r * width + c)] = count;
        area += std::numbers::pi * w * h / 4;
        boundary += std::numbers::pi * w;  // of discs
    }
    [[nodiscard]] CrumbTruth truth(double limit = 0.5) const {
        return crumb_truth({labels, crumb, 0.1, limit, {0, 399.5}, {599, 399.5}, 40});
    }
};

// Its steps are no multiples of a pixel, else all discs would meet the pixels alike.
Drawn lattice() {
    Drawn drawn;
    for (int i = 0; i < 12; ++i)
        for (int k = 0; k < 8; ++k)
            drawn.ellipse(4.937 * i + 2.3, 4.873 * k + 3.3, 3, 3);
    return drawn;
}

}  // namespace

TEST_CASE("a lattice of discs has the openness, count and sizes that were drawn") {
    const Drawn drawn = lattice();
    const CrumbTruth truth = drawn.truth();
    CHECK(truth.measures.at(Measure::openness) == Approx(drawn.area / 2400).epsilon(0.01));
    CHECK(truth.measures.at(Measure::cells_per_cm2) == Approx(96 / 24.0));
    CHECK(truth.measures.at(Measure::coarseness) == Approx(3).epsilon(0.01));
    CHECK(truth.measures.at(Measure::relative_span) == Approx(0).margin(0.01));
    CHECK(truth.measures.at(Measure::cell_axis_ratio) == Approx(1).margin(0.01));
    CHECK(truth.measures.at(Measure::large_cavity_share) == 0);
    // The lowest discs end 1.0 mm above the base: the lowest band of 1 mm is bread.
    CHECK(truth.measures.at(Measure::dense_base) == 1);
    CHECK(drawn.truth(4).measures.at(Measure::openness) == 0);
}

TEST_CASE("the mean free path of discs is Underwood's, from their area and boundary") {
    // P_L = 2 / pi L_A, N_L = P_L / 2, path = (1 - A_A) / N_L (Quantitative Stereology, 1970).
    // Round discs on a lattice meet lines of all directions alike.
    const Drawn drawn = lattice();
    const double per_line = drawn.boundary / 2400 / std::numbers::pi;
    CHECK(drawn.truth().measures.at(Measure::mean_free_path) ==
          Approx((1 - drawn.area / 2400) / per_line).epsilon(0.02));
}

TEST_CASE("no dense base is told where openings reach the base") {
    Drawn drawn;
    for (int i = 0; i < 12; ++i)
        for (int k = 0; k < 8; ++k)
            drawn.ellipse(5 * i + 2.3, 5 * k + 3.2, 3, 3);  // down to 0.25 mm from it
    CHECK(drawn.truth().measures.at(Measure::dense_base) == 0);
}

TEST_CASE("cavities, long cells and bands are told as drawn") {
    Drawn drawn;
    drawn.ellipse(15, 15, 16, 8);  // of equal area to a disc of 11.3 mm
    drawn.ellipse(45, 15, 4, 2);
    const CrumbTruth truth = drawn.truth();
    CHECK(truth.measures.at(Measure::large_cavity_share) ==
          Approx(std::numbers::pi * 32 / 2400).epsilon(0.01));
    CHECK(truth.measures.at(Measure::cell_axis_ratio) == Approx(2).epsilon(0.01));
    CHECK(truth.measures.at(Measure::cell_direction_strength) == Approx(1).epsilon(0.01));
    CHECK(truth.measures.at(Measure::openness_profile_1) == 0);
    CHECK(truth.measures.at(Measure::openness_profile_7) > 0.1);
}
