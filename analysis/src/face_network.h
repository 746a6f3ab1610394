// Which pixels of a picture lie in the cut face of a slice, by a small network that was trained on
// nothing but rendered scenes (docs/method.md).
#pragma once

#include <vector>

#include <opencv2/core.hpp>
#include <opencv2/dnn/dnn.hpp>

#include "built_in_models.h"

namespace loafmark::analysis {

class FaceNetwork {
  public:
    // Throws cv::Exception where this OpenCV cannot read the model.
    FaceNetwork() : net_(network_of(BuiltInModel::slice_faces)) {}

    // `rgb`: CV_8UC3, a whole photo or the surroundings of one slice. It is looked at made so small
    // that its longer side is each of `sides` pixels (some 250 to 520) in turn; the mean of the
    // answers' logits counts: coarse looks see what belongs together, fine ones where it ends.
    // CV_32F of its size, 0 to 1, how sure that a pixel lies in a cut face.
    [[nodiscard]] cv::Mat faces_in(const cv::Mat& rgb, const std::vector<int>& sides) const;

  private:
    [[nodiscard]] cv::Mat logits_of(const cv::Mat& rgb) const;

    mutable cv::dnn::Net net_;  // a forward pass writes into it
};

}  // namespace loafmark::analysis
