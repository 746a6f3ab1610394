#include "loaf_interval.h"

#include <cmath>
#include <random>

#include "catch.h"
#include "drawn_face.h"

namespace loafmark::analysis {
namespace {

// A cut through the same made-up loaf: discs of random size at random places (a Boolean model).
drawn::Face cut(unsigned seed) {
    drawn::Face face(60, 50);
    std::mt19937 random(seed);
    std::poisson_distribution<int> number(150);
    std::uniform_real_distribution<double> across(0, 60), up(0, 50), size(0.8, 4);
    for (int n = number(random); n > 0; --n)
        face.disc(across(random), up(random), size(random));
    return face;
}

struct Measured {
    FaceMeasures face;
    std::map<Measure, Range> ranges;
};

Measured measured(const drawn::Face& drawn) {
    const CellMap cells = drawn.cells();
    const BaseFrame frame = drawn.frame();
    Measured m{face_measures({cells, drawn.probability(), 0.5, frame, 0.5, {}}), {}};
    m.ranges = loaf_ranges(m.face, cells, frame, 0.5);
    return m;
}

TEST_CASE("nineteen of twenty other cuts lie in the range that one cut foretells") {
    std::vector<Measured> cuts;
    for (unsigned seed = 1; seed <= 10; ++seed)
        cuts.push_back(measured(cut(seed)));
    for (const Measure measure : {Measure::openness, Measure::cells_per_cm2,
                                  Measure::mean_free_path, Measure::cell_diameter_number_mean}) {
        int within = 0, pairs = 0;
        for (const Measured& one : cuts)
            for (const Measured& other : cuts) {
                if (&one == &other) continue;
                const Range range = one.ranges.at(measure);
                const double value = other.face.values.at(measure);
                ++pairs;
                within += range.low <= value && value <= range.high ? 1 : 0;
            }
        double sum = 0, squares = 0, width = 0;
        for (const Measured& one : cuts) {
            const double value = one.face.values.at(measure);
            const Range range = one.ranges.at(measure);
            sum += value / 10, squares += value * value / 10;
            width += (range.high - range.low) / 10;
        }
        const double spread = std::sqrt(squares - sum * sum);
        CAPTURE(info_of(measure).key, within, pairs, width, spread);
        CHECK(within > 0.86 * pairs);  // of 30 tiles the bootstrap scatters itself
        // 2 x 1.96 x sqrt(2) = 5.5 spreads would be right; a range of any width holds all.
        CHECK(width < 11 * spread);
    }
}

TEST_CASE("a range holds the cut's own value, and measures of a place have none") {
    const Measured m = measured(cut(3));
    for (const auto& [measure, range] : m.ranges) {
        CAPTURE(info_of(measure).key);
        if (measure == Measure::cell_direction) continue;  // low may lie above high
        CHECK(range.low <= m.face.values.at(measure));
        CHECK(range.high >= m.face.values.at(measure));
    }
    CHECK_FALSE(m.ranges.contains(Measure::openness_profile_3));
    CHECK_FALSE(m.ranges.contains(Measure::dense_base));
}

TEST_CASE("a face of few tiles tells nothing of other cuts") {
    CHECK(measured(drawn::Face(10, 10).disc(5, 5, 3)).ranges.empty());
}

}  // namespace
}  // namespace loafmark::analysis
