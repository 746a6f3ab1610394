#include "shrunk.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {
namespace {

// What one small pixel covers of a row or a column: the pixels [from, to) wholly, those before and
// after in part. The weights of all sum to 1.
struct Cover {
    int from = 0, to = 0;
    float whole = 0, before = 0, after = 0;
};

std::vector<Cover> covers(int small, int large, double times) {
    constexpr double least_part = 1e-3;  // as OpenCV has it
    std::vector<Cover> all;
    for (int i = 0; i < small; ++i) {
        const double low = i * times, high = low + times;
        const double width = std::min(times, large - low);
        Cover cover;
        cover.to = std::min(static_cast<int>(std::floor(high)), large - 1);
        cover.from = std::min(static_cast<int>(std::ceil(low)), cover.to);
        cover.whole = static_cast<float>(1 / width);
        if (cover.from - low > least_part)
            cover.before = static_cast<float>((cover.from - low) / width);
        if (high - cover.to > least_part)
            cover.after = static_cast<float>(std::min({high - cover.to, 1.0, width}) / width);
        all.push_back(cover);
    }
    return all;
}

// The weighted sum of the rows that `cover` names, value by value.
void sum_rows(const cv::Mat& picture, const Cover& cover, std::vector<std::uint16_t>& whole,
              std::vector<float>& sum) {
    const std::size_t n = sum.size();
    std::fill(whole.begin(), whole.end(), std::uint16_t{0});
    for (int y = cover.from; y < cover.to; ++y) {
        const uchar* row = picture.ptr(y);
        for (std::size_t k = 0; k < n; ++k)
            whole[k] = static_cast<std::uint16_t>(whole[k] + row[k]);
    }
    for (std::size_t k = 0; k < n; ++k)
        sum[k] = cover.whole * whole[k];
    const auto add_part = [&](int y, float weight) {
        if (weight == 0) return;
        const uchar* row = picture.ptr(y);
        for (std::size_t k = 0; k < n; ++k)
            sum[k] += weight * row[k];
    };
    add_part(cover.from - 1, cover.before);
    add_part(cover.to, cover.after);
}

// fn(place, weight) for each pixel that `cover` names, in their order.
template <typename Function>
void for_each_covered(const Cover& cover, Function fn) {
    if (cover.before != 0) fn(cover.from - 1, cover.before);
    for (int at = cover.from; at < cover.to; ++at)
        fn(at, cover.whole);
    if (cover.after != 0) fn(cover.to, cover.after);
}

// One value summed in OpenCV's order, along each row first.
float summed_by_rows(const cv::Mat& picture, const Cover& rows, const Cover& columns, int channel) {
    float sum = 0;
    for_each_covered(rows, [&](int y, float row_weight) {
        const uchar* row = picture.ptr(y) + channel;
        float along = 0;
        for_each_covered(columns, [&](int x, float weight) {
            along += static_cast<float>(row[x * picture.channels()]) * weight;
        });
        sum += row_weight * along;
    });
    return sum;
}

bool near_half(float value) {
    constexpr float far = 1e-3f;  // more than the order of summing moves a value
    return std::abs(value - static_cast<float>(static_cast<int>(value)) - 0.5f) < far;
}

}  // namespace

cv::Mat shrunk(const cv::Mat& picture, double by) {
    constexpr double most_rows = 250;  // whose sums fit 16 bits
    const double times = 1 / by;
    cv::Mat small;
    if (times == std::round(times) || times > most_rows) {
        cv::resize(picture, small, {}, by, by, cv::INTER_AREA);
        return small;
    }
    small.create(cv::saturate_cast<int>(picture.rows * by),
                 cv::saturate_cast<int>(picture.cols * by), picture.type());
    const std::vector<Cover> rows = covers(small.rows, picture.rows, times);
    const std::vector<Cover> columns = covers(small.cols, picture.cols, times);
    cv::parallel_for_({0, small.rows}, [&](const cv::Range& range) {
        const int channels = picture.channels();
        const auto values = static_cast<std::size_t>(picture.cols * channels);
        std::vector<std::uint16_t> whole(values);
        std::vector<float> sum(values);
        for (int y = range.start; y < range.end; ++y) {
            const Cover& row = rows[static_cast<std::size_t>(y)];
            sum_rows(picture, row, whole, sum);
            uchar* to = small.ptr(y);
            for (const Cover& column : columns)
                for (int channel = 0; channel < channels; ++channel) {
                    float mean = 0;
                    for_each_covered(column, [&](int x, float weight) {
                        mean += sum[static_cast<std::size_t>(x * channels + channel)] * weight;
                    });
                    // Halves are frequent; they go where OpenCV's sums would send them, so that
                    // nothing measured hangs on which of the two made the picture smaller.
                    if (near_half(mean)) mean = summed_by_rows(picture, row, column, channel);
                    *to++ = cv::saturate_cast<uchar>(mean);
                }
        }
    });
    return small;
}

}  // namespace loafmark::analysis
