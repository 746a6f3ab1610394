#include "summary.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace loafmark::accuracy {
namespace {

// How bad an error is: greater is worse for every kind of figure.
double badness(const Figure& figure, double error) {
    return figure.kind == FigureKind::score ? -error : std::abs(error);
}

double shown(const Figure& figure, double bad) {
    return figure.kind == FigureKind::score ? -bad : bad;
}

FigureSummary summary_of(const Figure& figure, const std::vector<const Outcome*>& outcomes) {
    FigureSummary summary;
    std::vector<double> all, had, half_widths;
    for (const Outcome* outcome : outcomes) {
        if (!outcome->asked) continue;
        ++summary.asked;
        all.push_back(outcome->error ? badness(figure, *outcome->error)
                                     : std::numeric_limits<double>::infinity());
        if (outcome->error) had.push_back(all.back());
        if (!outcome->covered) continue;
        ++summary.intervals;
        summary.covered += *outcome->covered ? 1 : 0;
        if (outcome->error) half_widths.push_back(outcome->half_width);
    }
    summary.missed = all.size() - had.size();
    if (!all.empty())
        if (const double middle = median(all); std::isfinite(middle))
            summary.median = shown(figure, middle);
    if (!had.empty()) summary.worst = shown(figure, *std::max_element(had.begin(), had.end()));
    if (!half_widths.empty()) summary.median_half_width = median(half_widths);
    return summary;
}

}  // namespace

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t n = values.size();
    return n % 2 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

namespace {

// `outcomes_of`: a slice's outcomes, of the analysis or of another.
template <class OutcomesOf>
Summary summarised_by(const std::vector<PhotoComparison>& photos, const OutcomesOf& outcomes_of) {
    Summary summary;
    for (std::size_t i = 0; i < figure_count; ++i) {
        std::vector<const Outcome*> outcomes;
        for (const PhotoComparison& photo : photos)
            for (const SliceComparison& slice : photo.slices)
                outcomes.push_back(&outcomes_of(slice)[i]);
        summary[i] = summary_of(figures[i], outcomes);
    }
    return summary;
}

}  // namespace

Summary summarised(const std::vector<PhotoComparison>& photos) {
    return summarised_by(
        photos, [](const SliceComparison& slice) -> const auto& { return slice.outcomes; });
}

Summary summarised(const std::vector<PhotoComparison>& photos, std::size_t yardstick) {
    return summarised_by(
        photos, [&](const SliceComparison& slice) -> const auto& {
            return slice.beside[yardstick];
        });
}

}  // namespace loafmark::accuracy
