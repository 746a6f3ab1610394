#include "pictures.h"

#include "analysis/error.h"

namespace loafmark::analysis {

Picture picture_of(const cv::Mat& rgb) {
    Picture picture{rgb.cols, rgb.rows, {}};
    picture.rgb.reserve(static_cast<std::size_t>(rgb.cols) * rgb.rows * 3);
    for (int y = 0; y < rgb.rows; ++y)
        picture.rgb.insert(picture.rgb.end(), rgb.ptr(y), rgb.ptr(y) + rgb.cols * 3);
    return picture;
}

LabelMap label_map_of(const cv::Mat& map) {
    cv::Mat wide;
    map.convertTo(wide, CV_32S);
    double most = 0;
    cv::minMaxLoc(wide, nullptr, &most);
    if (most > 65535)
        throw Error("the slice shows more than 65535 cells, more than a label map can number",
                    "photograph it from further away");
    LabelMap labels{map.cols, map.rows, {}};
    labels.labels.reserve(static_cast<std::size_t>(map.cols) * map.rows);
    for (int y = 0; y < wide.rows; ++y)
        for (int x = 0; x < wide.cols; ++x)
            labels.labels.push_back(static_cast<std::uint16_t>(wide.at<int>(y, x)));
    return labels;
}

}  // namespace loafmark::analysis
