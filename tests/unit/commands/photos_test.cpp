#include "commands/photos.h"

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <thread>

#include "catch.h"
#include "fakes.h"

namespace loafmark::commands {

TEST_CASE("photos are handed on in their order, whichever is measured first") {
    std::vector<PhotoJob> jobs;
    for (int i = 0; i < 12; ++i)
        jobs.push_back({std::to_string(i), {}});
    std::vector<std::string> delivered;
    measure_photos(
        jobs,
        [](const std::filesystem::path& photo, const analysis::MeasureOptions& options) {
            const int number = std::stoi(photo.string());
            std::this_thread::sleep_for(std::chrono::milliseconds(number % 3 == 0 ? 8 : 1));
            return made_up_measurement(photo, options);
        },
        [&](std::size_t index, const analysis::Measurement& measured) {
            CHECK(measured.reading.photo == std::to_string(index));
            delivered.push_back(measured.reading.photo);
        },
        [](std::size_t, std::exception_ptr) { FAIL("none fails"); });
    CHECK(delivered.size() == jobs.size());
}

TEST_CASE("one photo that fails is told, and the others are measured") {
    const std::vector<PhotoJob> jobs{{"good", {}}, {"bad", {}}, {"fine", {}}};
    std::string story;
    measure_photos(
        jobs,
        [](const std::filesystem::path& photo, const analysis::MeasureOptions& options) {
            if (photo == "bad") throw std::runtime_error("unreadable");
            return made_up_measurement(photo, options);
        },
        [&](std::size_t index, const analysis::Measurement&) { story += std::to_string(index); },
        [&](std::size_t index, std::exception_ptr) { story += "!" + std::to_string(index); });
    CHECK(story == "0!12");
}

TEST_CASE("no more photos are in memory than there are cores") {
    const std::size_t cores = std::max(1u, std::thread::hardware_concurrency());
    std::atomic<std::size_t> begun = 0;
    std::size_t delivered = 0;
    measure_photos(
        std::vector<PhotoJob>(10 * cores, PhotoJob{"photo", {}}),
        [&](const std::filesystem::path& photo, const analysis::MeasureOptions& options) {
            ++begun;
            return made_up_measurement(photo, options);
        },
        [&](std::size_t, const analysis::Measurement&) {
            CHECK(begun - delivered <= cores);
            ++delivered;
        },
        [](std::size_t, std::exception_ptr) {});
    CHECK(delivered == 10 * cores);
}

}  // namespace loafmark::commands
