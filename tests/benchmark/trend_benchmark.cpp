// Makes a journal of 100 000 bakes, asks for trends over all of it as `loafmark trend` does, and
// prints as Markdown what each costs in CPU time above the program's own start.
//   loafmark-trend-benchmark [BAKES]
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "documents/trend_document.h"
#include "insight/trend.h"
#include "journal/journal.h"
#include "made_up_journal.h"

namespace {

using namespace loafmark;

struct Costs {
    double found = 0;
    double fitted = 0;
    double told = 0;
};

Costs costs(const std::filesystem::path& folder, const insight::TrendQuestion& question) {
    const double begin = benchmark::cpu_ms_so_far();
    const auto journal = journal::Journal::open_for_reading(folder);
    const auto bakes = journal.measured({}, question.measure, insight::poor_warnings());
    const double found = benchmark::cpu_ms_so_far();
    const insight::Trend trend = insight::measured_trend(bakes, question);
    const double fitted = benchmark::cpu_ms_so_far();
    const std::string text = documents::trend_table(trend);
    const double told = benchmark::cpu_ms_so_far();
    return {found - begin, fitted - found, told - fitted};
}

}  // namespace

int main(int argc, char** argv) {
    const int bakes = argc > 1 ? std::atoi(argv[1]) : 100'000;
    const auto folder = std::filesystem::temp_directory_path() /
                        ("loafmark-trend-benchmark-" + std::to_string(::getpid()));
    std::filesystem::create_directories(folder);
    benchmark::make_journal(folder / "full", bakes);
    std::printf("%d bakes.\n\n| `loafmark trend` | finding, ms | fitting, ms | telling, ms |\n",
                bakes);
    std::printf("|---|---|---|---|\n");
    for (const auto& [name, against] :
         {std::pair{"loaf_height --by hydration", insight::Against::hydration},
          std::pair{"loaf_height --by date", insight::Against::date}}) {
        insight::TrendQuestion question;
        question.measure = Measure::loaf_height;
        question.against = against;
        for (int run = 0; run < 3; ++run) {
            const Costs spent = costs(folder / "full", question);
            std::printf("| `%s` | %.0f | %.0f | %.0f |\n", name, spent.found, spent.fitted,
                        spent.told);
        }
    }
    std::filesystem::remove_all(folder);
}
