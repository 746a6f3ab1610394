// The analysis as a module of its own, with OpenCV and the decoders behind it.
#include "engine.h"

using namespace loafmark;
using namespace loafmark::analysis;

extern "C" __attribute__((visibility("default"))) const Engine& loafmark_analysis_engine() {
    static constexpr Engine engine = {
        .version = analysis_version,
        .check = [](const MeasureOptions& options) { options.check(); },
        .measure = measure_photo,
        .jpeg = encode_jpeg,
        .png = [](const Picture& picture) { return encode_png(picture); },
        .map_png = [](const LabelMap& map) { return encode_png(map); },
        .from_jpeg = picture_of_jpeg,
    };
    return engine;
}
