// Cells by a small network that was trained on nothing but rendered crumb (docs/method.md): knows
// lit cells from pale bread and dark bran from shadowed openings.
#pragma once

#include <opencv2/dnn/dnn.hpp>

#include "cell_segmenter.h"

namespace loafmark::analysis {

class LearnedSegmenter : public CellSegmenter {
  public:
    // Reads the model that is built into the analysis. Throws cv::Exception where this OpenCV
    // cannot.
    LearnedSegmenter();
    [[nodiscard]] std::string name() const override;
    // `probability` is calibrated: of pixels called 0.8 some 80 % are open, on rendered crumb.
    // `parting`: 0 to 1, how sure that a pixel lies in the core of a cell or on a bridge between
    // two.
    [[nodiscard]] Openings segment(const FaceView& view) const override;
    [[nodiscard]] KnownError known_error(PixelSize size) const override;

  private:
    // Writes the network's answer for `part` of the normalised face into `openings`. `above`,
    // `before`: whether parts above it and to its left are done.
    void segment_part(const cv::Mat& normalised, const cv::Rect& part, bool above, bool before,
                      Openings& openings) const;
    mutable cv::dnn::Net net_;  // a forward pass writes into it
};

// The face as the network wants it, CV_32FC3: each channel less its mean over the face, all over
// the face's scatter of brightness plus 0.05; 0 outside the face.
[[nodiscard]] cv::Mat normalised_face(const FaceView& view);

}  // namespace loafmark::analysis
