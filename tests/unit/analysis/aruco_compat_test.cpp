#include "aruco_compat.h"

#include "analysis/target_layout.h"
#include "catch.h"

namespace loafmark::analysis {
namespace {

// OpenCV's own picture of a marker, one pixel a module.
cv::Mat dictionary_marker(int id) {
    const auto dictionary = cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_50);
    cv::Mat picture;
#if CV_VERSION_MAJOR == 4 && CV_VERSION_MINOR < 7
    cv::aruco::drawMarker(dictionary, id, marker_modules, picture, 1);
#else
    cv::aruco::generateImageMarker(dictionary, id, marker_modules, picture, 1);
#endif
    return picture;
}

TEST_CASE("the printed markers are those of OpenCV's dictionary, module by module") {
    for (int id = 0; id < static_cast<int>(marker_bits.size()); ++id) {
        const cv::Mat expected = dictionary_marker(id);
        REQUIRE(expected.size() == cv::Size(marker_modules, marker_modules));
        for (int row = 0; row < marker_modules; ++row)
            for (int column = 0; column < marker_modules; ++column) {
                CAPTURE(id, row, column);
                CHECK(marker_module_is_white(id, row, column) ==
                      (expected.at<uchar>(row, column) != 0));
            }
    }
}

}  // namespace
}  // namespace loafmark::analysis
