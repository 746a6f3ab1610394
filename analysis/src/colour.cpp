#include "colour.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace loafmark::analysis {
namespace {

// IEC 61966-2-1: XYZ of linear sRGB, Y of white = 1, rows X Y Z; D65 white.
constexpr std::array<std::array<double, 3>, 3> xyz_from_rgb = {
    {{0.4124, 0.3576, 0.1805}, {0.2126, 0.7152, 0.0722}, {0.0193, 0.1192, 0.9505}}};
constexpr std::array<double, 3> white = {0.9505, 1.0, 1.0890};

// CIE 15: the cube root with its straight start.
double lab_root(double t) {
    constexpr double d = 6.0 / 29;
    return t > d * d * d ? std::cbrt(t) : t / (3 * d * d) + 4.0 / 29;
}

// Both curves as tables, so that a pixel costs no power and no root.
struct Tables {
    static constexpr int root_steps = 4096;
    std::array<std::array<std::array<float, 256>, 3>, 3> part;  // [XYZ][RGB][value], over white
    std::vector<float> root;

    Tables() : root(root_steps + 2) {
        for (std::size_t k = 0; k < 3; ++k)
            for (std::size_t c = 0; c < 3; ++c)
                for (std::size_t v = 0; v < 256; ++v)
                    part[k][c][v] = static_cast<float>(xyz_from_rgb[k][c] / white[k] *
                                                       linear_light(static_cast<double>(v) / 255));
        for (std::size_t i = 0; i < root.size(); ++i)
            root[i] = static_cast<float>(lab_root(static_cast<double>(i) / root_steps));
    }

    [[nodiscard]] float root_of(std::size_t k, const cv::Vec3b& rgb) const {
        const float t = (part[k][0][rgb[0]] + part[k][1][rgb[1]] + part[k][2][rgb[2]]) * root_steps;
        const int i = std::min(static_cast<int>(t), root_steps);
        const auto at = static_cast<std::size_t>(i);
        return root[at] + (t - static_cast<float>(i)) * (root[at + 1] - root[at]);
    }
};

const Tables& tables() {
    static const Tables once;
    return once;
}

}  // namespace

double linear_light(double srgb) {
    return srgb <= 0.04045 ? srgb / 12.92 : std::pow((srgb + 0.055) / 1.055, 2.4);
}

double srgb_of(double linear) {
    const double v = std::clamp(linear, 0.0, 1.0);
    return v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055;
}

cv::Vec3d lab_of(const cv::Vec3b& rgb) {
    std::array<double, 3> root{};
    for (std::size_t k = 0; k < 3; ++k) {
        double t = 0;
        for (int c = 0; c < 3; ++c)
            t += xyz_from_rgb[k][static_cast<std::size_t>(c)] * linear_light(rgb[c] / 255.0);
        root[k] = lab_root(t / white[k]);
    }
    return {116 * root[1] - 16, 500 * (root[0] - root[1]), 200 * (root[1] - root[2])};
}

cv::Mat lab_picture(const cv::Mat& rgb) {
    const Tables& table = tables();
    cv::Mat lab(rgb.size(), CV_32FC3);
    for (int y = 0; y < rgb.rows; ++y) {
        const auto* from = rgb.ptr<cv::Vec3b>(y);
        auto* to = lab.ptr<cv::Vec3f>(y);
        for (int x = 0; x < rgb.cols; ++x) {
            const float rx = table.root_of(0, from[x]), ry = table.root_of(1, from[x]),
                        rz = table.root_of(2, from[x]);
            to[x] = {116 * ry - 16, 500 * (rx - ry), 200 * (ry - rz)};
        }
    }
    return lab;
}

cv::Mat lightness_picture(const cv::Mat& rgb) {
    const Tables& table = tables();
    cv::Mat lightness(rgb.size(), CV_32F);
    for (int y = 0; y < rgb.rows; ++y) {
        const auto* from = rgb.ptr<cv::Vec3b>(y);
        auto* to = lightness.ptr<float>(y);
        for (int x = 0; x < rgb.cols; ++x)
            to[x] = 116 * table.root_of(1, from[x]) - 16;
    }
    return lightness;
}

}  // namespace loafmark::analysis
