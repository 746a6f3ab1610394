#include "wide_openings.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace loafmark::analysis {
namespace {

constexpr double least_share = 0.25;  // of the loaf's width
constexpr double roof = 2;            // mm of crumb that may hang on the crust
constexpr double column = 0.5;        // working units along the base line

constexpr double none = -std::numeric_limits<double>::infinity();

// One opening: extent along the base line and above it, and its roof in columns.
struct Extent {
    double left = std::numeric_limits<double>::infinity(), right = none;
    double bottom = std::numeric_limits<double>::infinity(), top = none;
    std::vector<double> tops;  // by column; `none` where it does not reach
};

class Columns {
  public:
    Columns(const CellMap& cells, const BaseFrame& frame) : cells_(cells), frame_(frame) {
        const double reach =
            std::hypot(cells.matter.cols, cells.matter.rows) * frame.unit_per_pixel;
        first_ = -reach;
        crumb_tops_.assign(static_cast<std::size_t>(2 * reach / column) + 1, none);
        for (int y = 0; y < cells.matter.rows; ++y)
            for (int x = 0; x < cells.matter.cols; ++x) {
                if (cells.matter.at<uchar>(y, x) == static_cast<uchar>(Matter::outside)) continue;
                double& top = crumb_tops_[at(frame.aside(x, y))];
                top = std::max(top, frame.above(x, y));
            }
    }

    [[nodiscard]] Extent extent_of(int label) const {
        Extent extent;
        extent.tops.assign(crumb_tops_.size(), none);
        const cv::Rect& box = cells_.regions[static_cast<std::size_t>(label - 1)].box;
        for (int y = box.y; y < box.br().y; ++y)
            for (int x = box.x; x < box.br().x; ++x) {
                if (cells_.labels.at<int>(y, x) != label) continue;
                const double aside = frame_.aside(x, y), above = frame_.above(x, y);
                extent.left = std::min(extent.left, aside);
                extent.right = std::max(extent.right, aside);
                extent.bottom = std::min(extent.bottom, above);
                extent.top = std::max(extent.top, above);
                double& top = extent.tops[at(aside)];
                top = std::max(top, above);
            }
        return extent;
    }

    [[nodiscard]] bool under_crust(const Extent& extent) const {
        int under = 0, all = 0;
        for (std::size_t c = 0; c < crumb_tops_.size(); ++c) {
            if (extent.tops[c] == none) continue;
            ++all;
            under += crumb_tops_[c] - extent.tops[c] <= roof * frame_.units_per_mm ? 1 : 0;
        }
        return 2 * under >= all;
    }

  private:
    [[nodiscard]] std::size_t at(double aside) const {
        return static_cast<std::size_t>((aside - first_) / column);
    }
    const CellMap& cells_;
    const BaseFrame& frame_;
    double first_ = 0;
    std::vector<double> crumb_tops_;
};

}  // namespace

WideOpenings wide_openings(const CellMap& cells, const BaseFrame& frame) {
    WideOpenings found;
    if (frame.width <= 0) return found;
    std::vector<int> wide;
    const double least = least_share * frame.width;
    for (std::size_t label = 1; label < cells.resolved.size(); ++label) {
        const cv::Rect& box = cells.regions[label - 1].box;
        // A box leaning by a few degrees is a little narrower than what it holds is along the base.
        const double reach = std::hypot(box.width, box.height) * frame.unit_per_pixel;
        if (cells.resolved[label] && reach >= least) wide.push_back(static_cast<int>(label));
    }
    if (wide.empty()) return found;
    const Columns columns(cells, frame);
    for (const int label : wide) {
        const Extent extent = columns.extent_of(label);
        const double pixel = frame.unit_per_pixel;
        const WideOpening opening{extent.right - extent.left + pixel,
                                  extent.top - extent.bottom + pixel,
                                  (extent.right - extent.left + pixel) / frame.width};
        if (opening.share_of_width < least_share) continue;
        auto& widest = columns.under_crust(extent) ? found.under_crust : found.elsewhere;
        if (!widest || opening.width > widest->width) widest = opening;
    }
    return found;
}

}  // namespace loafmark::analysis
