// Which pixels of a picture lie in the cut face of a slice, by a small network that was trained on
// nothing but rendered scenes (docs/method.md).
#pragma once

#include <opencv2/core.hpp>
#include <opencv2/dnn/dnn.hpp>

#include "built_in_models.h"

namespace loafmark::analysis {

class FaceNetwork {
  public:
    // Throws cv::Exception where this OpenCV cannot read the model.
    FaceNetwork() : net_(network_of(BuiltInModel::slice_faces)) {}

    // `rgb`: CV_8UC3, a whole photo or the surroundings of one slice, its longer side some 450 to
    // 512 pixels. CV_32F of its size, 0 to 1, how sure that a pixel lies in a cut face.
    [[nodiscard]] cv::Mat faces_in(const cv::Mat& rgb) const;

  private:
    mutable cv::dnn::Net net_;  // a forward pass writes into it
};

}  // namespace loafmark::analysis
