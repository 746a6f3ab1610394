// Marker detection, whichever OpenCV the system has: Debian 12's 4.6 keeps it in the contributed
// module aruco, 4.7 and later in objdetect. Nothing else includes either.
#pragma once

#include <array>
#include <utility>
#include <vector>

#include <opencv2/core.hpp>
#include <opencv2/core/version.hpp>

#if CV_VERSION_MAJOR == 4 && CV_VERSION_MINOR < 7
#include <opencv2/aruco.hpp>
#else
#include <opencv2/objdetect/aruco_detector.hpp>
#endif

namespace loafmark::analysis {

struct RawMarkers {
    std::vector<int> ids;
    std::vector<std::vector<cv::Point2f>>
        corners;  // four each, clockwise from the printed top-left
};

// Markers of DICT_4X4_50 in an 8-bit grey picture.
[[nodiscard]] inline RawMarkers detect_markers(const cv::Mat& grey) {
    RawMarkers found;
#if CV_VERSION_MAJOR == 4 && CV_VERSION_MINOR < 7
    const auto dictionary = cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_50);
    cv::aruco::detectMarkers(grey, dictionary, found.corners, found.ids);
#else
    const cv::aruco::ArucoDetector detector(
        cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_50));
    detector.detectMarkers(grey, found.corners, found.ids);
#endif
    return found;
}

}  // namespace loafmark::analysis
