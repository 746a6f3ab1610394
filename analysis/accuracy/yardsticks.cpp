#include "yardsticks.h"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

namespace loafmark::accuracy {
namespace {

constexpr double tile_mm = 15;    // of the contrast's equalisation
constexpr double window_mm = 10;  // of the local mean
constexpr double offset = 10;     // grey values that a cell lies below its mean
constexpr double hat_mm = 6;      // openings up to this wide are seen by the top-hat

cv::Mat grey_of(const Picture& picture, const cv::Mat& face) {
    const cv::Mat rgb(picture.height, picture.width, CV_8UC3,
                      const_cast<std::uint8_t*>(picture.rgb.data()));
    cv::Mat grey;
    cv::cvtColor(rgb, grey, cv::COLOR_RGB2GRAY);
    // Outside lies the crumb's own mean: no edge at the outline.
    grey.setTo(cv::mean(grey, face)[0], face == 0);
    return grey;
}

// Otsu's threshold of the pixels inside the face.
double otsu_level(const cv::Mat& grey, const cv::Mat& face) {
    cv::Mat inside(1, cv::countNonZero(face), CV_8U), binary;
    int n = 0;
    for (int y = 0; y < grey.rows; ++y)
        for (int x = 0; x < grey.cols; ++x)
            if (face.at<uchar>(y, x)) inside.at<uchar>(0, n++) = grey.at<uchar>(y, x);
    return cv::threshold(inside, binary, 0, 255, cv::THRESH_BINARY | cv::THRESH_OTSU);
}

int odd(double pixels) {
    return 2 * static_cast<int>(pixels / 2) + 1;
}

cv::Mat dark_by_otsu(const cv::Mat& grey, const cv::Mat& face) {
    return (grey <= otsu_level(grey, face)) & (face > 0);
}

cv::Mat dark_by_local_mean(const cv::Mat& grey, const cv::Mat& face, double mm) {
    const int tiles = std::max(2, static_cast<int>(std::lround(grey.cols * mm / tile_mm)));
    cv::Mat equal, open;
    cv::createCLAHE(2.0, {tiles, tiles})->apply(grey, equal);
    cv::adaptiveThreshold(equal, open, 255, cv::ADAPTIVE_THRESH_MEAN_C, cv::THRESH_BINARY_INV,
                          odd(window_mm / mm), offset);
    return open & (face > 0);
}

cv::Mat dark_by_top_hat(const cv::Mat& grey, const cv::Mat& face, double mm) {
    const int side = odd(hat_mm / mm);
    cv::Mat hat;
    cv::morphologyEx(grey, hat, cv::MORPH_BLACKHAT,
                     cv::getStructuringElement(cv::MORPH_ELLIPSE, {side, side}));
    return (hat > otsu_level(hat, face)) & (face > 0);
}

cv::Mat connected(const cv::Mat& open) {
    cv::Mat labels;
    cv::connectedComponents(open, labels, 4, CV_32S);
    return labels;
}

// Flooded from the peaks of the distance to bread, peaks being higher than half a pixel over all
// within 0.5 mm.
cv::Mat parted(const cv::Mat& open, double mm) {
    cv::Mat distance, around;
    cv::distanceTransform(open, distance, cv::DIST_L2, 5);
    cv::GaussianBlur(distance, distance, {}, 1);
    const int side = odd(1 / mm);
    cv::dilate(distance, around, cv::getStructuringElement(cv::MORPH_ELLIPSE, {side, side}));
    const cv::Mat peaks = (distance >= around) & (distance > 1) & open;
    cv::Mat markers;
    cv::connectedComponents(peaks, markers, 8, CV_32S);
    cv::Mat relief;
    distance.convertTo(relief, CV_8U, -4, 255);
    cv::cvtColor(relief, relief, cv::COLOR_GRAY2BGR);
    cv::watershed(relief, markers);
    markers.setTo(0, (markers < 0) | (open == 0));
    return markers;
}

}  // namespace

std::string_view name_of(Yardstick yardstick) {
    switch (yardstick) {
        case Yardstick::otsu:
            return "global Otsu";
        case Yardstick::equalised:
            return "equalised, local threshold";
        case Yardstick::top_hat:
            break;
    }
    return "top-hat, watershed";
}

std::vector<std::uint16_t> cells_by(Yardstick yardstick, const Picture& picture,
                                    const std::vector<std::uint8_t>& face, double mm_per_pixel) {
    const cv::Mat inside(picture.height, picture.width, CV_8U,
                         const_cast<std::uint8_t*>(face.data()));
    const cv::Mat grey = grey_of(picture, inside);
    cv::Mat labels;
    if (yardstick == Yardstick::otsu)
        labels = connected(dark_by_otsu(grey, inside));
    else if (yardstick == Yardstick::equalised)
        labels = connected(dark_by_local_mean(grey, inside, mm_per_pixel));
    else
        labels = parted(dark_by_top_hat(grey, inside, mm_per_pixel), mm_per_pixel);
    std::vector<std::uint16_t> cells(face.size(), 0);
    for (std::size_t i = 0; i < cells.size(); ++i)
        cells[i] =
            static_cast<std::uint16_t>(std::clamp(labels.at<int>(static_cast<int>(i)), 0, 65535));
    return cells;
}

}  // namespace loafmark::accuracy
