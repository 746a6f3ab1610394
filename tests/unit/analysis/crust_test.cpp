#include "crust.h"

#include <cmath>

#include <opencv2/imgproc.hpp>

#include "catch.h"
#include "colour.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

// A rectangle of 60 x 40 mm at 0.1 mm a pixel whose crust is `top` deep at top and sides, `base` at
// the base.
Crumb rectangle(double top, double base) {
    Crumb crumb;
    crumb.rim = resampled({{100, 100}, {700, 100}, {700, 500}, {100, 500}}, 5);
    for (const cv::Point2d& p : crumb.rim)
        crumb.crust_depth.push_back(p.y > 499.5 ? base : top);
    crumb.crust_seen = true;
    return crumb;
}

const BaseLine base_at_500{{100, 500}, {700, 500}, 0};

TEST_CASE("crust at the base is told apart from that at top and sides") {
    const MeasureValues values =
        crust_thickness(rectangle(2, 3.5), base_at_500, 0.1, 0, Stance::lying);
    CHECK(values.at(Measure::crust_thickness_top).value == Approx(2).margin(0.05));
    CHECK(values.at(Measure::crust_thickness_base).value == Approx(3.5).margin(0.05));
}

TEST_CASE("no crust is thinner than none, and a worse scale widens its interval") {
    const MeasureValues thin =
        crust_thickness(rectangle(0.1, 0.1), base_at_500, 0.1, 0, Stance::lying);
    CHECK(thin.at(Measure::crust_thickness_top).low == 0);
    const MeasureValues sure = crust_thickness(rectangle(4, 4), base_at_500, 0.1, 0, Stance::lying);
    const MeasureValues unsure =
        crust_thickness(rectangle(4, 4), base_at_500, 0.1, 0.2, Stance::lying);
    CHECK(unsure.at(Measure::crust_thickness_top).high >
          sure.at(Measure::crust_thickness_top).high + 0.5);
}

TEST_CASE("a standing loaf's base is less sure, its top is not") {
    const MeasureValues lying =
        crust_thickness(rectangle(2, 3.5), base_at_500, 0.1, 0, Stance::lying);
    const MeasureValues standing =
        crust_thickness(rectangle(2, 3.5), base_at_500, 0.1, 0, Stance::standing);
    const auto width = [](const MeasureValues& values, Measure measure) {
        return values.at(measure).high - values.at(measure).low;
    };
    const Measure top = Measure::crust_thickness_top, base = Measure::crust_thickness_base;
    CHECK(standing.at(base).value == lying.at(base).value);
    CHECK(width(standing, base) > 1.5 * width(lying, base));
    CHECK(width(standing, top) == width(lying, top));
}

struct TwoColours {
    cv::Mat rgb{60, 90, CV_8UC3, cv::Scalar(0, 0, 0)};
    cv::Mat face{60, 90, CV_8U, cv::Scalar(1)}, crumb{60, 90, CV_8U, cv::Scalar(0)};
    cv::Mat open{60, 90, CV_8U, cv::Scalar(0)};

    TwoColours(const cv::Scalar& crust, const cv::Scalar& inner) {
        rgb.setTo(crust);
        rgb(cv::Rect(30, 0, 60, 60)).setTo(inner);
        crumb(cv::Rect(30, 0, 60, 60)).setTo(1);
    }
    [[nodiscard]] MeasureValues measured(std::optional<cv::Vec3d> paper) const {
        return bread_colours({rgb, face, crumb, open, paper});
    }
};

TEST_CASE("colours are those of the pixels where nothing tells the light") {
    const TwoColours bread({150, 90, 40}, {220, 200, 160});
    const MeasureValues values = bread.measured(std::nullopt);
    const cv::Vec3d crust = lab_of({150, 90, 40}), crumb = lab_of({220, 200, 160});
    CHECK(values.at(Measure::crust_colour_l).value == Approx(crust[0]));
    CHECK(values.at(Measure::crust_colour_b).value == Approx(crust[2]));
    CHECK(values.at(Measure::crumb_colour_l).value == Approx(crumb[0]));
    CHECK(values.at(Measure::crumb_colour_a).value == Approx(crumb[1]));
}

TEST_CASE("bread under warm light has its colour back by the paper's") {
    // Paper of 0.86 reflectance seen as warm white; bread of half the paper's light is neutral grey
    // of 0.43, whose L* is 71.5 (CIE 15: 116 x 0.43^(1/3) - 16).
    const auto srgb = [](double linear) {
        return 255 * (1.055 * std::pow(linear, 1 / 2.4) - 0.055);
    };
    const cv::Vec3d paper(0.8, 0.6, 0.4);
    const cv::Scalar grey(srgb(0.4), srgb(0.3), srgb(0.2));
    const TwoColours bread(grey, grey);
    const MeasureValues values = bread.measured(paper);
    CHECK(values.at(Measure::crumb_colour_l).value == Approx(71.5).margin(0.4));
    CHECK(values.at(Measure::crumb_colour_a).value == Approx(0).margin(0.8));
    CHECK(values.at(Measure::crumb_colour_b).value == Approx(0).margin(0.8));
    const Estimate known = values.at(Measure::crumb_colour_l);
    const Estimate guessed = bread.measured(std::nullopt).at(Measure::crumb_colour_l);
    CHECK(guessed.high - guessed.low > 2 * (known.high - known.low));
}

TEST_CASE("cells do not darken the crumb's colour") {
    TwoColours bread({150, 90, 40}, {220, 200, 160});
    const cv::Rect cells(30, 0, 60, 40);
    bread.rgb(cells).setTo(cv::Scalar(40, 30, 20));
    bread.open(cells).setTo(255);
    CHECK(bread.measured(std::nullopt).at(Measure::crumb_colour_l).value ==
          Approx(lab_of({220, 200, 160})[0]));
}

}  // namespace
}  // namespace loafmark::analysis
