#include "commands/photos.h"

#include <algorithm>
#include <deque>
#include <future>
#include <optional>
#include <thread>

namespace loafmark::commands {

void measure_photos(const std::vector<PhotoJob>& jobs, const MeasurePhoto& measure,
                    const std::function<void(std::size_t, analysis::Measurement)>& deliver,
                    const std::function<void(std::size_t, std::exception_ptr)>& failed) {
    const std::size_t cores = std::max(1u, std::thread::hardware_concurrency());
    std::deque<std::future<analysis::Measurement>> running;
    std::size_t next = 0;
    for (std::size_t index = 0; index < jobs.size(); ++index) {
        while (next < jobs.size() && running.size() < cores) {
            running.push_back(std::async(std::launch::async, [&measure, &job = jobs[next]] {
                return measure(job.photo, job.options);
            }));
            ++next;
        }
        std::optional<analysis::Measurement> measurement;
        try {
            measurement = running.front().get();
        } catch (...) {
            failed(index, std::current_exception());
        }
        running.pop_front();
        if (measurement) deliver(index, std::move(*measurement));
    }
}

}  // namespace loafmark::commands
