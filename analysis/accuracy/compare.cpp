#include "compare.h"

#include <algorithm>
#include <cmath>

#include "compare_yardsticks.h"
#include "plane.h"

namespace loafmark::accuracy {
namespace {

constexpr double row_step_mm = 0.1;
constexpr double least_overlap = 0.5;

bool is_built(const Figure& figure) {
    return !figure.measure || info_of(*figure.measure).state == MeasureState::built;
}

bool is_asked(const Figure& figure, const TrueSlice& truth) {
    if (!is_built(figure)) return false;
    if (figure.title == specks_title) return truth.specks.has_value();
    if (figure.of_crumb) return truth.cells.has_value();
    if (figure.measure) return truth.measures.contains(*figure.measure);
    return !truth.outline.empty();
}

SliceComparison all_missed(const TrueSlice& truth, const std::string& failure) {
    SliceComparison result;
    result.failure = failure;
    for (std::size_t i = 0; i < figure_count; ++i) {
        result.outcomes[i].asked = is_asked(figures[i], truth);
        if (figures[i].measure) result.outcomes[i].covered = false;
    }
    return result;
}

// The found slice's outline in the true slice's frame, mm.
std::vector<PlanePoint> outline_in(const TrueSlice& truth, const SliceReading& found) {
    const Homography slice_from_photo = inverse(truth.photo_from_slice);
    std::vector<PlanePoint> outline;
    for (const PhotoPoint& p : found.outline)
        outline.push_back(mapped(slice_from_photo, p.x, p.y));
    return outline;
}

double iou(const TrueSlice& truth, const SliceReading& found) {
    return overlap(truth.outline, outline_in(truth, found), row_step_mm);
}

// Why a measure that should be there is not.
std::string reason(const analysis::Measurement& measured, std::size_t slice) {
    if (measured.reading.slices[slice].cut_by_frame) return "taken for cut by the photo's edge";
    std::string words;
    for (const Warning& warning : measured.reading.warnings)
        if (warning.code != WarningCode::not_yet &&
            (!warning.slice || *warning.slice == static_cast<int>(slice) + 1))
            words += (words.empty() ? "" : ", ") + std::string(code_name(warning.code));
    return words.empty() ? "no warning says why" : "warned of " + words;
}

void judge_outline(const TrueSlice& truth, const SliceReading& found, double outline_iou,
                   SliceComparison& result) {
    for (std::size_t i = 0; i < figure_count; ++i) {
        const Figure& figure = figures[i];
        Outcome& outcome = result.outcomes[i];
        if (figure.of_crumb || !outcome.asked) continue;
        if (!figure.measure)
            outcome = {true, outline_iou, std::nullopt, 0};
        else if (const auto value = found.values.find(*figure.measure); value != found.values.end())
            outcome = outcome_of(figure, truth.measures.at(*figure.measure), value->second);
    }
}

SliceComparison compare_slice(const TrueSlice& truth, const analysis::Measurement& measured,
                              std::size_t at, double outline_iou) {
    const SliceReading& found = measured.reading.slices[at];
    SliceComparison result = all_missed(truth, "");
    judge_outline(truth, found, outline_iou, result);
    if (truth.cells && at < measured.maps.size() && measured.maps[at].mm_per_pixel) {
        judge_crumb(truth, found, measured.maps[at], result.outcomes);
        judge_yardsticks(truth, found, measured.maps[at], result);
    }
    result.failure.reset();
    for (std::size_t i = 0; i < figure_count; ++i)
        if (result.outcomes[i].asked && !result.outcomes[i].error) {
            result.failure = "no " + std::string(figures[i].title) + ": " + reason(measured, at);
            break;
        }
    return result;
}

}  // namespace

bool PhotoComparison::all_found() const {
    return found == slices.size() &&
           std::none_of(slices.begin(), slices.end(), [](const SliceComparison& slice) {
               return slice.failure && slice.failure->starts_with("not found");
           });
}

Outcome outcome_of(const Figure& figure, double truth, const Estimate& measured) {
    const double unit = figure.kind == FigureKind::relative ? truth : 1;
    return {true, (measured.value - truth) / unit, measured.low <= truth && truth <= measured.high,
            (measured.high - measured.low) / 2 / unit};
}

analysis::MeasureOptions typed_options(const Truth& truth) {
    analysis::MeasureOptions options;
    if (truth.thickness) options.thickness = {*truth.thickness};
    options.crumb_only = truth.crumb_only;
    options.label_map = std::any_of(truth.slices.begin(), truth.slices.end(),
                                    [](const TrueSlice& slice) { return slice.cells.has_value(); });
    return options;
}

PhotoComparison compare(const Truth& truth, const analysis::Measurement& measured) {
    const std::vector<SliceReading>& found = measured.reading.slices;
    PhotoComparison result{truth.photo.filename().string(), truth.look, found.size(), {}};
    std::vector<bool> taken(found.size(), false);
    for (const TrueSlice& slice : truth.slices) {
        double best = least_overlap;
        std::optional<std::size_t> match;
        for (std::size_t i = 0; i < found.size(); ++i) {
            if (taken[i]) continue;
            // Nothing but crumb: the photo itself is the slice.
            const double shared = slice.outline.empty() ? 1 : iou(slice, found[i]);
            if (shared < best) continue;
            best = shared;
            match = i;
        }
        if (match) taken[*match] = true;
        result.slices.push_back(
            match ? compare_slice(slice, measured, *match, best)
                  : all_missed(slice, "not found: " + std::to_string(found.size()) +
                                          (found.size() == 1 ? " find" : " finds") +
                                          ", none overlaps it by half"));
    }
    return result;
}

PhotoComparison not_measured(const Truth& truth, const std::string& reason) {
    PhotoComparison result{truth.photo.filename().string(), truth.look, 0, {}};
    for (const TrueSlice& slice : truth.slices)
        result.slices.push_back(all_missed(slice, "not found: " + reason));
    return result;
}

}  // namespace loafmark::accuracy
