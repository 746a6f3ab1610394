#include "local_looks.h"

#include <cmath>
#include <limits>

#include "catch.h"

namespace loafmark::analysis {
namespace {

// `count` samples round `middle`, spread evenly by `spread` to either side.
std::vector<LogLight> round(LogLight middle, float spread, int count) {
    std::vector<LogLight> samples;
    for (int i = 0; i < count; ++i) {
        const float d = spread * (2 * static_cast<float>(i) / static_cast<float>(count - 1) - 1);
        samples.push_back(middle + LogLight(d, -d, d));
    }
    return samples;
}

const LogLight board(0.6f, -0.8f, -1.5f), cloth(0, 0, -0.2f);

TEST_CASE("a shadow moves brightness and no hue") {
    // Linear light of half and a fifth of the same grey-blue, far above the floor that keeps the
    // hue of near-black from being noise.
    const cv::Mat pixels =
        (cv::Mat_<cv::Vec3b>(1, 2) << cv::Vec3b(180, 200, 230), cv::Vec3b(131, 146, 169));
    const cv::Mat light = log_light_of(pixels);
    const LogLight lit = light.at<LogLight>(0, 0), shaded = light.at<LogLight>(0, 1);
    CHECK(lit[0] == Approx(shaded[0]).margin(0.03));
    CHECK(lit[1] == Approx(shaded[1]).margin(0.03));
    CHECK(lit[2] - shaded[2] == Approx(std::log(2)).margin(0.05));
}

TEST_CASE("two things in one place keep their own looks") {
    std::vector<LogLight> samples = round(board, 0.02f, 100);
    for (const LogLight& s : round(cloth, 0.02f, 100))
        samples.push_back(s);
    const Looks looks = looks_of(samples);
    CHECK(squared_distance(board, looks, 0) < 1);
    CHECK(squared_distance(cloth, looks, 0) < 1);
    // A mixture of both is neither.
    CHECK(squared_distance((board + cloth) * 0.5f, looks, 0) > 9);
}

TEST_CASE("what is darker than a look may be its shadow, what is brighter may not") {
    const Looks looks = looks_of(round(cloth, 0.02f, 100));
    CHECK(squared_distance(cloth - LogLight(0, 0, 0.5f), looks, 0.35f) < 9);
    CHECK(squared_distance(cloth + LogLight(0, 0, 0.5f), looks, 0.35f) > 9);
    CHECK(squared_distance(cloth - LogLight(0, 0, 0.5f), looks, 0) > 9);
}

TEST_CASE("too few samples have no look, and nothing is near it") {
    CHECK(looks_of(round(cloth, 0.1f, 11)).empty());
    CHECK(squared_distance(cloth, {}, 0.35f) == std::numeric_limits<float>::infinity());
}

TEST_CASE("a look of one sample in fifty is dropped") {
    std::vector<LogLight> samples = round(cloth, 0.02f, 98);
    for (const LogLight& s : round(board, 0.01f, 2))
        samples.push_back(s);
    CHECK(squared_distance(board, looks_of(samples), 0) > 9);
}

}  // namespace
}  // namespace loafmark::analysis
