// What a whole measurement costs, as a multiple of decoding the same JPEG with OpenCV: the floor
// below which no measurement can go. Both are taken in turn within one run, as CPU time over all
// threads, so that a slow or busy machine slows both.
#include <algorithm>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "analysis/measure.h"

namespace {

namespace fs = std::filesystem;

// A sample photo with a mat, enlarged to what a 12-megapixel phone would have taken: sensor noise
// included, since it is what a JPEG decoder works on.
class TwelveMegapixels {
  public:
    TwelveMegapixels() : file_(fs::temp_directory_path() / "loafmark-benchmark-12mp.jpg") {
        const cv::Mat sample = cv::imread(first_sample().string());
        const bool upright = sample.rows > sample.cols;
        cv::Mat large, noise;
        cv::resize(sample, large, upright ? cv::Size(3024, 4032) : cv::Size(4032, 3024), 0, 0,
                   cv::INTER_CUBIC);
        noise.create(large.size(), CV_16SC3);
        cv::RNG random(1);
        random.fill(noise, cv::RNG::NORMAL, 0, 3);
        cv::add(large, noise, large, cv::noArray(), CV_8U);
        cv::imwrite(file_.string(), large, {cv::IMWRITE_JPEG_QUALITY, 90});
    }
    ~TwelveMegapixels() { fs::remove(file_); }
    TwelveMegapixels(const TwelveMegapixels&) = delete;
    TwelveMegapixels& operator=(const TwelveMegapixels&) = delete;

    [[nodiscard]] const fs::path& file() const { return file_; }

  private:
    static fs::path first_sample() {
        std::vector<fs::path> samples;
        for (const auto& entry : fs::directory_iterator(LOAFMARK_SAMPLE_DIR))
            if (entry.path().extension() == ".jpg") samples.push_back(entry.path());
        if (samples.empty()) throw std::runtime_error("no sample images in " LOAFMARK_SAMPLE_DIR);
        return *std::min_element(samples.begin(), samples.end());
    }

    fs::path file_;
};

double cpu_seconds() {
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

void whole_measurement(benchmark::State& state) {
    const TwelveMegapixels photo;
    std::ifstream stream(photo.file(), std::ios::binary);
    const std::vector<char> bytes((std::istreambuf_iterator<char>(stream)), {});
    double decoding = 0, measuring = 0;
    for (auto _ : state) {
        const double start = cpu_seconds();
        benchmark::DoNotOptimize(cv::imdecode(bytes, cv::IMREAD_COLOR));
        const double decoded = cpu_seconds();
        benchmark::DoNotOptimize(loafmark::analysis::measure_photo(photo.file()));
        measuring += cpu_seconds() - decoded;
        decoding += decoded - start;
    }
    state.counters["decodings"] = measuring / decoding;
}
BENCHMARK(whole_measurement)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->Iterations(6);

}  // namespace

BENCHMARK_MAIN();
