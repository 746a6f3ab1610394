// Without a scale cells are worked on as if the slice were 120 mm wide. Were it taken for 80 or 200
// instead, nothing without a unit may move beyond its interval.
#include <filesystem>

#include <opencv2/imgproc.hpp>

#include "catch.h"
#include "find_slices.h"
#include "find_target.h"
#include "learned_segmenter.h"
#include "measure_slice.h"
#include "photo.h"
#include "scale.h"
#include "search_beside.h"

namespace loafmark::analysis {
namespace {

namespace fs = std::filesystem;

MeasureValues measured_as_if(double width, const Photo& photo, const FoundSlice& slice) {
    double left = 1e9, right = 0;
    for (const cv::Point2d& p : slice.outline)
        left = std::min(left, p.x), right = std::max(right, p.x);
    WorkingPlane plane;  // no scale
    const double units = width / (right - left);
    plane.photo_from_plane = cv::Matx33d::diag({1 / units, 1 / units, 1});
    return measure_slice(photo.rgb, slice, plane, {}, LearnedSegmenter()).reading.values;
}

bool within(Measure measure, double value, const Estimate& range) {
    constexpr double rounding = 1e-9;
    const bool inside = value >= range.low - rounding && value <= range.high + rounding;
    if (measure == Measure::cell_direction && range.low > range.high)
        return value >= range.low || value <= range.high;
    return inside;
}

TEST_CASE("without a scale no ratio moves beyond its interval with the width that is assumed") {
    const Photo photo =
        load_photo(fs::path(LOAFMARK_SOURCE_DIR) / "sample-images" / "emmer-68.jpg");
    cv::Mat grey;
    cv::cvtColor(photo.rgb, grey, cv::COLOR_RGB2GRAY);
    const std::vector<FoundSlice> slices = find_slices(photo.rgb, search_beside(find_target(grey)));
    REQUIRE(slices.size() == 1);
    const MeasureValues usual = measured_as_if(assumed_width_units, photo, slices.front());
    CHECK(usual.size() > 20);
    for (const double width : {narrow_slice, wide_slice}) {
        const MeasureValues other = measured_as_if(width, photo, slices.front());
        for (const auto& [measure, estimate] : usual) {
            CAPTURE(width, info_of(measure).key, estimate.value, estimate.low, estimate.high);
            const auto found = other.find(measure);
            REQUIRE(found != other.end());
            CAPTURE(found->second.value);
            CHECK(within(measure, found->second.value, estimate));
        }
    }
}

}  // namespace
}  // namespace loafmark::analysis
