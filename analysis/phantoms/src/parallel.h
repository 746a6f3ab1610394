// Work shared out among threads, piece by piece.
#pragma once

#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace loafmark::phantoms {

// Calls work(i) for i in [0, count), each once, in any order. The first exception is passed on.
template <class Work>
void parallel_for(int count, int threads, const Work& work) {
    std::atomic<int> next{0};
    std::exception_ptr failure;
    std::mutex failure_lock;
    const auto run = [&] {
        try {
            for (int i = next++; i < count; i = next++)
                work(i);
        } catch (...) {
            const std::lock_guard lock(failure_lock);
            if (!failure) failure = std::current_exception();
        }
    };
    std::vector<std::jthread> crew;
    for (int i = 1; i < threads; ++i)
        crew.emplace_back(run);
    run();
    crew.clear();
    if (failure) std::rethrow_exception(failure);
}

}  // namespace loafmark::phantoms
