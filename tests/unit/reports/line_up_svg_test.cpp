#include "reports/line_up_svg.h"

#include <stdexcept>

#include "catch.h"

using namespace loafmark;
using namespace loafmark::reports;

namespace {

journal::ReadingPicture picture(int width, int height, std::optional<double> mm_per_pixel) {
    return {"image/jpeg", {1, 2, 3}, mm_per_pixel, width, height};
}

}  // namespace

TEST_CASE("a line-up stands its slices on one base line at one scale") {
    const std::string svg = line_up_svg({{picture(500, 400, 0.2), "wheat <70>", "1 March 2026"},
                                         {picture(900, 300, 0.1), "emmer", "2 March 2026"}},
                                        "Two flours");
    // 100 x 80 mm and 90 x 30 mm; the base line at 16 + 80.
    CHECK(svg.find("y=\"16\" width=\"100\" height=\"80\"") != std::string::npos);
    CHECK(svg.find("y=\"66\" width=\"90\" height=\"30\"") != std::string::npos);
    CHECK(svg.find("wheat &lt;70&gt;") != std::string::npos);
    CHECK(svg.find("100 mm") != std::string::npos);
    CHECK(svg.find("data:image/jpeg;base64,AQID") != std::string::npos);
    CHECK(svg.find("<script") == std::string::npos);
}

TEST_CASE("a slice without a scale has no place in a line-up") {
    const std::string svg = line_up_svg(
        {{picture(500, 400, 0.2), "wheat", ""}, {picture(500, 400, std::nullopt), "rye", ""}}, "");
    CHECK(svg.find("rye") == std::string::npos);
    CHECK_THROWS_AS(line_up_svg({{picture(5, 4, std::nullopt), "rye", ""}}, ""),
                    std::invalid_argument);
}
