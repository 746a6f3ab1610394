#include "learned_segmenter.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "built_in_models.h"

namespace loafmark::analysis {
namespace {

constexpr int coarsest = 32;  // pixels: the network halves five times
constexpr int tile = 1600;    // larger faces are taken in parts, for the memory's sake
constexpr int overlap = 128;  // pixels that neighbouring parts share; only one's inner half counts
constexpr double least_scatter = 0.05;
// Set on development phantoms: where edges are in doubt, a level of one half finds too little.
constexpr double open_level = 0.48;
// Only where the network is nearly sure of a wall are two cells parted.
constexpr PartingRule parting_rule{0.12, 0.6};

int padded(int side) {
    return (side + coarsest - 1) / coarsest * coarsest;
}

void sigmoid(cv::Mat& logits) {
    cv::exp(-logits, logits);
    logits = 1 / (1 + logits);
}

// One side of a face cut into stretches of at most a tile, each overlapping the next.
std::vector<cv::Range> stretches(int length) {
    std::vector<cv::Range> out;
    for (int from = 0;; from += tile - overlap) {
        out.emplace_back(from, std::min(length, from + tile));
        if (from + tile >= length) return out;
    }
}

}  // namespace

cv::Mat normalised_face(const FaceView& view) {
    cv::Mat rgb;
    view.rgb.convertTo(rgb, CV_32FC3, 1.0 / 255);
    const cv::Scalar mean = cv::mean(rgb, view.face);
    rgb -= mean;
    cv::Mat brightness;
    cv::transform(rgb, brightness, cv::Matx13f(1 / 3.0f, 1 / 3.0f, 1 / 3.0f));
    const double scatter = std::sqrt(cv::mean(brightness.mul(brightness), view.face)[0]);
    rgb *= 1 / (scatter + least_scatter);
    rgb.setTo(cv::Scalar::all(0), view.face == 0);
    return rgb;
}

LearnedSegmenter::LearnedSegmenter() : net_(network_of(BuiltInModel::crumb_cells)) {}

std::string LearnedSegmenter::name() const {
    return name_of(BuiltInModel::crumb_cells);
}

Openings LearnedSegmenter::segment(const FaceView& view) const {
    Openings openings{cv::Mat::zeros(view.face.size(), CV_32F),
                      cv::Mat::zeros(view.face.size(), CV_32F), open_level, parting_rule};
    const cv::Rect box = cv::boundingRect(view.face);
    if (box.empty()) return openings;
    const cv::Mat face = normalised_face(view);
    for (const cv::Range& rows : stretches(box.height))
        for (const cv::Range& columns : stretches(box.width))
            segment_part(
                face, cv::Rect(columns.start, rows.start, columns.size(), rows.size()) + box.tl(),
                rows.start > 0, columns.start > 0, openings);
    openings.probability.setTo(0, view.face == 0);
    openings.parting.setTo(0, view.face == 0);
    return openings;
}

void LearnedSegmenter::segment_part(const cv::Mat& normalised, const cv::Rect& part, bool above,
                                    bool before, Openings& openings) const {
    cv::Mat input;
    cv::copyMakeBorder(normalised(part), input, 0, padded(part.height) - part.height, 0,
                       padded(part.width) - part.width, cv::BORDER_CONSTANT, cv::Scalar::all(0));
    net_.setInput(cv::dnn::blobFromImage(input));
    cv::Mat logits = net_.forward();  // 1 x 2 x rows x columns
    // Half of the overlap belongs to the part above or to the left, which is done already.
    const int top = above ? overlap / 2 : 0, left = before ? overlap / 2 : 0;
    const cv::Rect inner(left, top, part.width - left, part.height - top);
    cv::Mat open(input.size(), CV_32F, logits.ptr<float>(0, 0));
    cv::Mat core(input.size(), CV_32F, logits.ptr<float>(0, 1));
    sigmoid(open);
    sigmoid(core);
    open(inner).copyTo(openings.probability(inner + part.tl()));
    core(inner).copyTo(openings.parting(inner + part.tl()));
}

// From sixty-four development patches, none of them held back, and three slices by another
// renderer: nine in ten lie within, together with what the level and the crust move. To be renewed
// with the network.
//
// The network knows cells by their size in pixels. On six sample slices (emmer-76,
// trial-khorasan-1, trial-spelt-1 and -2, trial-wheat-1 and -3) taken as 80 and as 200 mm wide
// instead of 120 it sees up to so much less or more (fine crumb moves most); this joins as roots of
// sums of squares.
KnownError LearnedSegmenter::known_error(PixelSize size) const {
    KnownError known{.openness_below = 0.04,
                     .openness_above = 0.035,
                     .band = 0.05,
                     .cavity_share = 0.05,
                     .density_least = 0.82,
                     .density_most = 1.25,
                     .diameter_least = 0.87,
                     .diameter_most = 1.24,
                     .path_factor = 0.92,
                     .path_least = 0.82,
                     .path_most = 1.36,
                     .axis_ratio_below = 0.06,
                     .axis_ratio_above = 0.22,
                     .strength = 0.18,
                     .span_least = 0.72,
                     .span_most = 1.36,
                     .unevenness_least = 0.70,
                     .unevenness_most = 1.42,
                     .sphere_least = 0.80,
                     .sphere_most = 1.25};
    if (size == PixelSize::known) return known;
    known.openness_below = std::hypot(known.openness_below, 0.06);
    known.openness_above = std::hypot(known.openness_above, 0.07);
    known.band = std::hypot(known.band, 0.08);
    known.density_least = 1 - std::hypot(1 - known.density_least, 0.28);
    known.density_most = 1 + std::hypot(known.density_most - 1, 0.17);
    known.diameter_least = 1 - std::hypot(1 - known.diameter_least, 0.11);
    known.diameter_most = 1 + std::hypot(known.diameter_most - 1, 0.24);
    known.axis_ratio_below = std::hypot(known.axis_ratio_below, 0.08);
    return known;
}

}  // namespace loafmark::analysis
