#include "test_lines.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {
namespace {

constexpr int directions = 8;
constexpr double spacing = 0.5;  // working units between lines
constexpr double step = 0.5;     // pixels along a line
constexpr float outside = -1;
constexpr int edge = 128;  // of the field below: cells from here up

// 8-bit field that passes `edge` where a cell that counts ends: it follows the probability, but in
// cells it never falls under and elsewhere it never reaches that value.
cv::Mat cell_field(const CellMap& cells, const cv::Mat& probability, double level) {
    cv::Mat field(probability.size(), CV_8U);
    const auto up = static_cast<float>((255 - edge) / std::max(1 - level, 1e-6));
    const auto down = static_cast<float>(edge / std::max(level, 1e-6));
    const auto at_level = static_cast<float>(level);
    for (int y = 0; y < field.rows; ++y) {
        const float* p = probability.ptr<float>(y);
        const int* label = cells.labels.ptr<int>(y);
        uchar* out = field.ptr<uchar>(y);
        for (int x = 0; x < field.cols; ++x) {
            const float above = p[x] - at_level;
            const float value = edge + above * (above > 0 ? up : down);
            const bool cell = cells.resolved[static_cast<std::size_t>(label[x])];
            out[x] = static_cast<uchar>(cell ? std::clamp(value, edge + 1.0f, 255.0f)
                                             : std::clamp(value, 0.0f, edge - 1.0f));
        }
    }
    return field;
}

// The labels as numbers that survive being looked up by the nearest pixel; outside the crumb -1.
cv::Mat numbers_of(const cv::Mat& labels, const cv::Mat& inside) {
    cv::Mat numbers;
    labels.convertTo(numbers, CV_32F);
    numbers.setTo(outside, inside == 0);
    return numbers;
}

// Each row of the answer is one test line, each column a step.
cv::Mat along_lines(const cv::Mat& picture, double angle, double line_pixels, int interpolation) {
    const double w = picture.cols, h = picture.rows;
    const double reach = std::hypot(w, h) / 2;
    const double c = std::cos(angle), s = std::sin(angle);
    const cv::Size size(static_cast<int>(2 * reach / step),
                        static_cast<int>(2 * reach / line_pixels));
    // From (step, line) to the picture.
    const cv::Matx23d map(step * c, -line_pixels * s, w / 2 - reach * c + reach * s,  //
                          step * s, line_pixels * c, h / 2 - reach * s - reach * c);
    cv::Mat lines;
    cv::warpAffine(picture, lines, map, size, interpolation | cv::WARP_INVERSE_MAP,
                   cv::BORDER_CONSTANT, outside);
    return lines;
}

}  // namespace

std::optional<double> LineCount::mean_free_path() const {
    if (changes <= 0) return std::nullopt;
    return solid / (changes / 2);
}

LineCount count_lines(const CellMap& cells, const cv::Mat& probability, double level) {
    LineCount count;
    const cv::Mat inside = cells.matter != static_cast<int>(Matter::outside);
    const cv::Rect box = cv::boundingRect(inside);
    if (box.empty()) return count;
    const cv::Mat field = cell_field(cells, probability, level)(box);
    const cv::Mat numbers = numbers_of(cells.labels(box), inside(box));
    const double line_pixels = spacing / cells.unit_per_pixel;
    double solid_steps = 0;
    for (int d = 0; d < directions; ++d) {
        const double angle = d * std::numbers::pi / directions;
        const cv::Mat level_at = along_lines(field, angle, line_pixels, cv::INTER_LINEAR);
        const cv::Mat label_at = along_lines(numbers, angle, line_pixels, cv::INTER_NEAREST);
        for (int y = 0; y < level_at.rows; ++y) {
            const uchar* value = level_at.ptr<uchar>(y);
            const float* label = label_at.ptr<float>(y);
            bool was_in = false, was_cell = false;
            float last = 0;  // the label in the cell passed through
            for (int x = 0; x < level_at.cols; ++x) {
                if (label[x] < 0) {
                    was_in = false;
                    continue;
                }
                const bool cell = value[x] >= edge;
                solid_steps += cell ? 0 : 1;
                if (was_in && cell != was_cell) count.changes += 1;
                if (cell && label[x] != 0) {
                    if (was_in && was_cell && last != 0 && label[x] != last) count.changes += 2;
                    last = label[x];
                } else if (!cell) {
                    last = 0;
                }
                if (!was_in && !cell) last = 0;
                was_in = true;
                was_cell = cell;
            }
        }
    }
    count.solid = solid_steps * step * cells.unit_per_pixel;
    return count;
}

}  // namespace loafmark::analysis
