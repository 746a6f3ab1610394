// The networks that are built into the analysis: nothing to find, or to lose, where it is
// installed.
#pragma once

#include <string>

#include <opencv2/dnn/dnn.hpp>

namespace loafmark::analysis {

enum class BuiltInModel { crumb_cells, slice_faces };

// Ready to run on the CPU. Throws cv::Exception where this OpenCV cannot read it.
[[nodiscard]] cv::dnn::Net network_of(BuiltInModel model);

// Name and the first figures of the file's SHA-256, "crumb-cells 0a1b2c3d".
[[nodiscard]] std::string name_of(BuiltInModel model);

}  // namespace loafmark::analysis
