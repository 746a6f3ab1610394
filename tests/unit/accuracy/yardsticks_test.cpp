#include "yardsticks.h"

#include <set>

#include "catch.h"

using namespace loafmark;
using namespace loafmark::accuracy;

namespace {

// Pale crumb with dark discs of 3 mm, 10 pixels a mm.
struct Drawn {
    Picture picture{400, 300, std::vector<std::uint8_t>(400 * 300 * 3, 200)};
    std::vector<std::uint8_t> face = std::vector<std::uint8_t>(400 * 300, 1);
    std::vector<std::uint8_t> open = std::vector<std::uint8_t>(400 * 300, 0);

    void disc(double x, double y, double radius) {
        for (int r = 0; r < 300; ++r)
            for (int c = 0; c < 400; ++c)
                if ((c - x) * (c - x) + (r - y) * (r - y) <= radius * radius) {
                    const auto at = static_cast<std::size_t>(r * 400 + c);
                    open[at] = 1;
                    for (std::size_t k = 0; k < 3; ++k)
                        picture.rgb[3 * at + k] = 60;
                }
    }
};

double overlap(const Drawn& drawn, const std::vector<std::uint16_t>& cells) {
    double both = 0, either = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        both += drawn.open[i] && cells[i] ? 1 : 0;
        either += drawn.open[i] || cells[i] ? 1 : 0;
    }
    return both / either;
}

std::size_t count(const std::vector<std::uint16_t>& cells) {
    std::set<std::uint16_t> numbers(cells.begin(), cells.end());
    numbers.erase(0);
    return numbers.size();
}

}  // namespace

TEST_CASE("each ordinary pipeline finds dark discs on pale crumb") {
    Drawn drawn;
    for (int i = 0; i < 6; ++i)
        for (int k = 0; k < 4; ++k)
            drawn.disc(60 * i + 40, 60 * k + 50, 15);
    for (const Yardstick yardstick : yardsticks) {
        CAPTURE(std::string(name_of(yardstick)));
        const auto cells = cells_by(yardstick, drawn.picture, drawn.face, 0.1);
        CHECK(overlap(drawn, cells) > 0.85);
        CHECK(count(cells) == 24);
    }
}

TEST_CASE("the watershed parts discs that touch, plain thresholds do not") {
    Drawn drawn;
    drawn.disc(150, 150, 25);
    drawn.disc(195, 150, 25);
    CHECK(count(cells_by(Yardstick::top_hat, drawn.picture, drawn.face, 0.1)) == 2);
    CHECK(count(cells_by(Yardstick::otsu, drawn.picture, drawn.face, 0.1)) == 1);
}

TEST_CASE("nothing is found outside the outline that is given") {
    Drawn drawn;
    drawn.disc(100, 150, 15);
    drawn.disc(300, 150, 15);
    for (std::size_t i = 0; i < drawn.face.size(); ++i)
        if (i % 400 >= 200) drawn.face[i] = 0;
    for (const Yardstick yardstick : yardsticks) {
        const auto cells = cells_by(yardstick, drawn.picture, drawn.face, 0.1);
        CHECK(cells[150 * 400 + 100] != 0);
        CHECK(cells[150 * 400 + 300] == 0);
    }
}
