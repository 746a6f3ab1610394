// What the benchmarks share: a journal of many bakes, and CPU time.
#pragma once

#include <filesystem>

namespace loafmark::benchmark {

// Twenty flours with a bag each, `bakes` bakes over ten years with a loaf, a slice and a reading
// each. `folder` is made.
void make_journal(const std::filesystem::path& folder, int bakes);

// User and system time of this process.
[[nodiscard]] double cpu_ms_so_far();

}  // namespace loafmark::benchmark
