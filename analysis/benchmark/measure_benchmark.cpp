// What a measurement costs, the whole of it and the outline alone, as a multiple of decoding the
// same JPEG with OpenCV: the floor below which no measurement can go. Each is the CPU time over all
// threads of a process of its own, as when one photo is measured: fresh memory is a part of it.
// They are taken in turn, so that a slow or busy machine slows all.
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "analysis/measure.h"
#include "analysis/memory.h"
#include "find_slices.h"
#include "find_target.h"
#include "measure_slice.h"
#include "photo.h"
#include "scale.h"
#include "search_beside.h"

namespace {

namespace fs = std::filesystem;
using namespace loafmark::analysis;

double seconds(const timeval& time) {
    return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
}

// CPU seconds of `work` in a process of its own. This one starts no threads, which a fork would not
// take along.
template <typename Work>
double cpu_seconds_of(const Work& work) {
    const pid_t child = ::fork();
    if (child < 0) throw std::runtime_error("no process can be started");
    if (child == 0) {
        try {
            work();
        } catch (const std::exception& error) {
            std::fprintf(stderr, "benchmark: error: %s\n", error.what());
            ::_exit(1);
        }
        ::_exit(0);
    }
    int status = 0;
    rusage usage{};
    if (::wait4(child, &status, 0, &usage) != child || !WIFEXITED(status) ||
        WEXITSTATUS(status) != 0)
        throw std::runtime_error("the work has failed");
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

// A sample photo with a mat, enlarged to what a 12-megapixel phone would have taken: sensor noise
// included, since it is what a JPEG decoder works on.
class TwelveMegapixels {
  public:
    TwelveMegapixels() : file_(fs::temp_directory_path() / "loafmark-benchmark-12mp.jpg") {
        (void)cpu_seconds_of([&] { write(); });
    }
    ~TwelveMegapixels() { fs::remove(file_); }
    TwelveMegapixels(const TwelveMegapixels&) = delete;
    TwelveMegapixels& operator=(const TwelveMegapixels&) = delete;

    [[nodiscard]] const fs::path& file() const { return file_; }

  private:
    void write() const {
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

    static fs::path first_sample() {
        std::vector<fs::path> samples;
        for (const auto& entry : fs::directory_iterator(LOAFMARK_SAMPLE_DIR))
            if (entry.path().extension() == ".jpg") samples.push_back(entry.path());
        if (samples.empty()) throw std::runtime_error("no sample images in " LOAFMARK_SAMPLE_DIR);
        return *std::min_element(samples.begin(), samples.end());
    }

    fs::path file_;
};

void measure_whole(const fs::path& file) {
    benchmark::DoNotOptimize(measure_photo(file));
}

// Loading, target, plane, outline and crust: all but the cells.
void measure_outlines(const fs::path& file) {
    const Photo photo = load_photo(file);
    cv::Mat grey;
    cv::cvtColor(photo.rgb, grey, cv::COLOR_RGB2GRAY);
    const auto target = find_target(grey);
    if (!target) throw std::runtime_error("no target is found in the sample");
    const std::vector<FoundSlice> slices = find_slices(photo.rgb, search_beside(target));
    if (slices.empty()) throw std::runtime_error("no slice is found in the sample");
    const FoundSlice& slice = slices.front();
    const WorkingPlane plane = plane_from_target(*target, photo, {}, slice.outline.front());
    benchmark::DoNotOptimize(measure_outline(photo.rgb, slice, plane, {}));
}

void compare(benchmark::State& state, void (*measure)(const fs::path&)) {
    const TwelveMegapixels photo;
    std::ifstream stream(photo.file(), std::ios::binary);
    const std::vector<char> bytes((std::istreambuf_iterator<char>(stream)), {});
    double decoding = 0, measuring = 0;
    for (auto _ : state) {
        decoding += cpu_seconds_of(
            [&] { benchmark::DoNotOptimize(cv::imdecode(bytes, cv::IMREAD_COLOR)); });
        const double measured = cpu_seconds_of([&] {
            keep_memory();  // as the program does
            measure(photo.file());
        });
        measuring += measured;
        state.SetIterationTime(measured);
    }
    state.counters["decodings"] = measuring / decoding;
}

void whole_measurement(benchmark::State& state) {
    compare(state, measure_whole);
}
BENCHMARK(whole_measurement)->Unit(benchmark::kMillisecond)->UseManualTime()->Iterations(12);

void outline_and_crust(benchmark::State& state) {
    compare(state, measure_outlines);
}
BENCHMARK(outline_and_crust)->Unit(benchmark::kMillisecond)->UseManualTime()->Iterations(12);

}  // namespace

BENCHMARK_MAIN();
