// The narrow place where a segmenter plugs in: rectified face in, openings and cells out.
#pragma once

#include <string>

#include <opencv2/core.hpp>

#include "part_cells.h"

namespace loafmark::analysis {

struct FaceView {
    const cv::Mat& rgb;   // rectified, CV_8UC3
    const cv::Mat& face;  // CV_8U, 1 inside the slice's outline
    double unit_per_pixel = 0.1;
};

struct Openings {
    cv::Mat probability;  // CV_32F, 0 to 1: how sure that a pixel is open; 0 outside the face
    cv::Mat parting;      // CV_32F: high inside cells, low on the walls between touching ones
    double level = 0.5;   // a pixel more probable than this counts as open
    PartingRule rule;     // which saddles of `parting` are walls
};

// The 95 % range of what is true against what is measured, as found on phantoms rendered for that
// purpose and used for nothing else. Differences: true openness lies up to `openness_below` under
// the measured one. Ratios: true over measured.
struct KnownError {
    double openness_below = 0, openness_above = 0;  // also of openness without cavities
    double band = 0;                                // of a band of the profile, a difference
    double cavity_share = 0;                        // a difference
    double density_least = 1, density_most = 1;     // cells per area
    double diameter_least = 1, diameter_most = 1;   // cell diameters
    // Bread between openings. Drawn contours are smoother than walls, and lines cross them less
    // often than the walls: the measured path times `path_factor` is right on average.
    double path_factor = 1, path_least = 1, path_most = 1;
    double axis_ratio_below = 0, axis_ratio_above = 0;  // differences
    double strength = 0;                                // of the cells' direction, a difference
    double span_least = 1, span_most = 1;               // relative span
    double unevenness_least = 1, unevenness_most = 1;
    double sphere_least = 1, sphere_most = 1;  // 3-D diameters
};

// Whether a pixel's size is known or comes of a width that is assumed.
enum class PixelSize { known, assumed };

class CellSegmenter {
  public:
    virtual ~CellSegmenter() = default;
    // Names method and version; part of every reading's analysis version.
    [[nodiscard]] virtual std::string name() const = 0;
    [[nodiscard]] virtual Openings segment(const FaceView& view) const = 0;
    [[nodiscard]] virtual KnownError known_error(PixelSize size) const = 0;
};

// Local contrast: a pixel is open where it is darker than the crumb around it by more than the
// crumb's own scatter (Sauvola and Pietikainen 2000, in standardised form); touching cells part
// where the distance to the nearest wall has a saddle. Knows darkness only: bran and shadow pass
// for cells, shallow lit cells are missed. The yardstick for whatever takes its place.
class LocalContrastSegmenter : public CellSegmenter {
  public:
    [[nodiscard]] std::string name() const override { return "local-contrast 1"; }
    [[nodiscard]] Openings segment(const FaceView& view) const override;
    [[nodiscard]] KnownError known_error(PixelSize size) const override;
};

}  // namespace loafmark::analysis
