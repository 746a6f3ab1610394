#include "colour.h"

#include <algorithm>
#include <cmath>

#include "catch.h"

namespace loafmark::analysis {
namespace {

struct Known {
    const char* name;
    cv::Vec3b rgb;
    cv::Vec3d lab;
};

// Computed from IEC 61966-2-1 with the matrix that follows from the primaries; matrices of four
// decimals, of other makers too, differ from it by up to 0.03.
const std::vector<Known> known_colours = {
    {"black", {0, 0, 0}, {0.0000000000, 0.0000000000, 0.0000000000}},
    {"white", {255, 255, 255}, {100.0000000000, 0.0000000000, 0.0000000000}},
    {"mid grey 119", {119, 119, 119}, {50.0344387925, 0.0000000000, 0.0000000000}},
    {"grey 128", {128, 128, 128}, {53.5850134522, 0.0000000000, 0.0000000000}},
    {"grey 10", {10, 10, 10}, {2.7417480007, 0.0000000000, 0.0000000000}},
    {"red", {255, 0, 0}, {53.2371155954, 80.0901135231, 67.2032635117}},
    {"green", {0, 255, 0}, {87.7355191097, -86.1815968904, 83.1866202736}},
    {"blue", {0, 0, 255}, {32.3008729040, 79.1952703074, -107.8554655397}},
    {"yellow", {255, 255, 0}, {97.1385593418, -21.5599708145, 94.4838400156}},
    {"cyan", {0, 255, 255}, {91.1147523167, -48.0788883870, -14.1289852624}},
    {"magenta", {255, 0, 255}, {60.3227313546, 98.2374438132, -60.8289102310}},
    {"crumb cream", {238, 222, 190}, {88.9876897652, 0.4438976943, 17.6925816240}},
    {"wholemeal crumb", {176, 140, 100}, {60.6995946490, 8.2430411669, 26.5358267253}},
    {"rye crumb", {120, 86, 60}, {39.5388337286, 10.6647423500, 20.6509652408}},
    {"crust golden", {190, 128, 62}, {58.7278505150, 17.6603833102, 44.5692480367}},
    {"crust brown", {128, 72, 30}, {36.5900280874, 20.2855324620, 34.4153815540}},
    {"crust dark", {70, 38, 20}, {18.9667434826, 13.1367588079, 18.2073943083}},
    {"chart dark skin", {115, 82, 68}, {38.0162101975, 11.7947489947, 13.6638593581}},
    {"chart neutral 5", {122, 122, 121}, {51.1947438298, -0.1998450422, 0.5459589672}},
    {"near linear toe", {11, 10, 10}, {2.8015347234, 0.2681352118, 0.0944759074}},
    {"10,11,12", {10, 11, 12}, {2.9846444305, -0.1169248072, -0.5059095203}},
};

double furthest(const cv::Vec3d& a, const cv::Vec3d& b) {
    return std::max({std::abs(a[0] - b[0]), std::abs(a[1] - b[1]), std::abs(a[2] - b[2])});
}

TEST_CASE("sRGB colours have their CIELAB values") {
    for (const Known& known : known_colours) {
        CAPTURE(known.name);
        CHECK(furthest(lab_of(known.rgb), known.lab) < 0.03);
    }
}

TEST_CASE("a picture's colours are within 0.05 of the exact ones, dark ones too") {
    std::vector<cv::Vec3b> colours;
    for (const auto& [step, most] : {std::pair{15, 255}, std::pair{1, 12}})
        for (int r = 0; r <= most; r += step)
            for (int g = 0; g <= most; g += step)
                for (int b = 0; b <= most; b += step)
                    colours.emplace_back(static_cast<uchar>(r), static_cast<uchar>(g),
                                         static_cast<uchar>(b));
    const cv::Mat rgb(static_cast<int>(colours.size()), 1, CV_8UC3, colours.data());
    const cv::Mat lab = lab_picture(rgb), lightness = lightness_picture(rgb);
    double worst = 0, worst_lightness = 0;
    for (int i = 0; i < rgb.rows; ++i) {
        const cv::Vec3d exact = lab_of(colours[static_cast<std::size_t>(i)]);
        worst = std::max(worst, furthest(lab.at<cv::Vec3f>(i, 0), exact));
        worst_lightness = std::max(worst_lightness, std::abs(lightness.at<float>(i, 0) - exact[0]));
    }
    CHECK(worst < 0.05);
    CHECK(worst_lightness < 0.05);
}

}  // namespace
}  // namespace loafmark::analysis
