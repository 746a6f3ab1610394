// The narrow place where a segmenter plugs in: rectified face in, openings and cells out.
#pragma once

#include <string>

#include <opencv2/core.hpp>

namespace loafmark::analysis {

struct FaceView {
    const cv::Mat& rgb;   // rectified, CV_8UC3
    const cv::Mat& face;  // CV_8U, 1 inside the slice's outline
    double unit_per_pixel = 0.1;
};

struct Openings {
    cv::Mat probability;  // CV_32F, 0 to 1: how sure that a pixel is open; 0 outside the face
    cv::Mat parting;      // CV_32F: high inside cells, low on the walls between touching ones
};

class CellSegmenter {
  public:
    virtual ~CellSegmenter() = default;
    // Names method and version; part of every reading's analysis version.
    [[nodiscard]] virtual std::string name() const = 0;
    [[nodiscard]] virtual Openings segment(const FaceView& view) const = 0;
};

// Local contrast: a pixel is open where it is darker than the crumb around it by more than the
// crumb's own scatter (Sauvola and Pietikainen 2000, in standardised form); touching cells part
// where the distance to the nearest wall has a saddle. Knows darkness only: bran and shadow pass
// for cells, shallow lit cells are missed. The yardstick for whatever takes its place.
class LocalContrastSegmenter : public CellSegmenter {
  public:
    [[nodiscard]] std::string name() const override { return "local-contrast 1"; }
    [[nodiscard]] Openings segment(const FaceView& view) const override;
};

}  // namespace loafmark::analysis
