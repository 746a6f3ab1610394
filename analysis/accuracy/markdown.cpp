#include "markdown.h"

#include <algorithm>
#include <cstdio>
#include <map>

#include "summary.h"

namespace loafmark::accuracy {
namespace {

std::string number(double value, int decimals, bool sign = false) {
    char text[64];
    std::snprintf(text, sizeof text, sign ? "%+.*f" : "%.*f", decimals, value);
    return text;
}

std::string cell(const std::optional<double>& value, const Figure& figure) {
    return value ? number(*value * figure.shown_as, figure.decimals) : "missed";
}

std::string goal(const std::optional<double>& value) {
    if (!value) return "";
    char text[64];
    std::snprintf(text, sizeof text, "%g", *value);
    return text;
}

std::string count(std::size_t n, const char* one, const char* many) {
    return std::to_string(n) + " " + (n == 1 ? one : many);
}

void summary_rows(std::string& text, const Summary& summary) {
    text +=
        "| figure | slices | missed | median | goal | worst | goal | 95 % intervals that hold "
        "the truth | median half-width |\n|---|---:|---:|---:|---:|---:|---:|---:|---:|\n";
    for (std::size_t i = 0; i < figure_count; ++i) {
        const Figure& figure = figures[i];
        const FigureSummary& s = summary[i];
        if (s.asked == 0) continue;
        text += "| " + std::string(figure.title) + " | " + std::to_string(s.asked) + " | " +
                std::to_string(s.missed) + " | " + cell(s.median, figure) + " | " +
                goal(figure.goal_median) + " | " + cell(s.worst, figure) + " | " +
                goal(figure.goal_worst) + " | ";
        if (s.intervals > 0)
            text += number(static_cast<double>(s.covered) / static_cast<double>(s.intervals), 3) +
                    " (" + std::to_string(s.covered) + " of " + std::to_string(s.intervals) + ")";
        text += " | " + (s.median_half_width ? cell(s.median_half_width, figure) : "") + " |\n";
    }
}

// The analysis beside the ordinary pipelines: median and worst of each.
void yardstick_rows(std::string& text, const std::vector<PhotoComparison>& photos,
                    const Summary& summary) {
    std::array<Summary, yardsticks.size()> beside;
    bool any = false;
    for (std::size_t k = 0; k < yardsticks.size(); ++k) {
        beside[k] = summarised(photos, k);
        for (const FigureSummary& figure : beside[k])
            any = any || figure.asked > 0;
    }
    if (!any) return;
    text +=
        "\nBeside ordinary pipelines that were given the true outline and scale, median (worst):\n"
        "\n| figure | analysis |";
    std::string rule = "|---|---:|";
    for (const Yardstick yardstick : yardsticks) {
        text += " " + std::string(name_of(yardstick)) + " |";
        rule += "---:|";
    }
    text += "\n" + rule + "\n";
    const auto both = [](const FigureSummary& s, const Figure& figure) {
        return cell(s.median, figure) + " (" + cell(s.worst, figure) + ")";
    };
    for (std::size_t i = 0; i < figure_count; ++i) {
        if (beside[0][i].asked == 0) continue;
        text += "| " + std::string(figures[i].title) + " | " + both(summary[i], figures[i]) + " |";
        for (const Summary& other : beside)
            text += " " + both(other[i], figures[i]) + " |";
        text += "\n";
    }
}

bool is_signed(const Figure& figure) {
    return figure.kind == FigureKind::relative || figure.kind == FigureKind::absolute;
}

void slice_rows(std::string& text, const std::vector<PhotoComparison>& photos,
                const Summary& summary) {
    std::string rule = "|---|---|";
    text += "\n| photo | scene |";
    for (std::size_t i = 0; i < figure_count; ++i)
        if (summary[i].asked > 0) {
            text += " " + std::string(figures[i].title) + " |";
            rule += "---:|";
        }
    text += "\n" + rule + "\n";
    for (const PhotoComparison& photo : photos)
        for (std::size_t k = 0; k < photo.slices.size(); ++k) {
            text += "| " + photo.photo +
                    (photo.slices.size() > 1 ? ", slice " + std::to_string(k + 1) : "") + " | " +
                    photo.look + " |";
            for (std::size_t i = 0; i < figure_count; ++i) {
                if (summary[i].asked == 0) continue;
                const Outcome& outcome = photo.slices[k].outcomes[i];
                text += " ";
                if (outcome.error)
                    text += number(*outcome.error * figures[i].shown_as, figures[i].decimals,
                                   is_signed(figures[i]));
                else if (outcome.asked)
                    text += "missed";
                text +=
                    outcome.error && outcome.covered && !*outcome.covered ? " (outside) |" : " |";
            }
            text += "\n";
        }
}

void failure_lines(std::string& text, const std::vector<PhotoComparison>& photos) {
    std::string lines;
    for (const PhotoComparison& photo : photos) {
        if (photo.found > photo.slices.size())
            lines += "- " + photo.photo + " (" + photo.look +
                     "): " + count(photo.found, "find", "finds") + " where " +
                     count(photo.slices.size(), "slice lies\n", "slices lie\n");
        for (std::size_t k = 0; k < photo.slices.size(); ++k)
            if (photo.slices[k].failure)
                lines += "- " + photo.photo + " (" + photo.look + "), slice " +
                         std::to_string(k + 1) + ": " + *photo.slices[k].failure + "\n";
    }
    if (!lines.empty()) text += "\nMissed, or found where nothing is:\n\n" + lines;
}

}  // namespace

std::string markdown_of_set(const std::string& heading, const std::vector<PhotoComparison>& photos,
                            Detail detail) {
    std::size_t slices = 0;
    for (const PhotoComparison& photo : photos)
        slices += photo.slices.size();
    const auto whole = static_cast<std::size_t>(
        std::count_if(photos.begin(), photos.end(),
                      [](const PhotoComparison& photo) { return photo.all_found(); }));
    std::string text = "### " + heading + "\n\n" + count(photos.size(), "photo", "photos") + ", " +
                       count(slices, "slice", "slices") +
                       "; just the slices that are there were "
                       "found in " +
                       std::to_string(whole) + " of " + count(photos.size(), "photo", "photos") +
                       ".\n\n";
    const Summary summary = summarised(photos);
    summary_rows(text, summary);
    yardstick_rows(text, photos, summary);
    if (detail >= Detail::misses) failure_lines(text, photos);
    if (detail == Detail::slices) slice_rows(text, photos, summary);
    return text;
}

std::string markdown_of_invariance(const std::vector<VariantComparison>& variants) {
    struct Row {
        std::size_t photos = 0, compared = 0;
        std::map<std::string, std::size_t> moved;
    };
    std::vector<std::string> order;
    std::map<std::string, Row> rows;
    for (const VariantComparison& variant : variants) {
        if (!rows.contains(variant.change)) order.push_back(variant.change);
        Row& row = rows[variant.change];
        ++row.photos;
        row.compared += variant.compared;
        for (const std::string& name : variant.moved)
            ++row.moved[name];
    }
    std::string text =
        "### The same slice in a changed photo\n\n| change | photos | measures "
        "compared | beyond their interval | which |\n|---|---:|---:|---:|---|\n";
    for (const std::string& change : order) {
        const Row& row = rows[change];
        std::size_t moved = 0;
        std::string which;
        for (const auto& [name, times] : row.moved) {
            moved += times;
            which += (which.empty() ? "" : ", ") + name + " " + std::to_string(times);
        }
        text += "| " + change + " | " + std::to_string(row.photos) + " | " +
                std::to_string(row.compared) + " | " + std::to_string(moved) + " | " + which +
                " |\n";
    }
    return text;
}

}  // namespace loafmark::accuracy
