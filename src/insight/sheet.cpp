#include "insight/sheet.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <stdexcept>

#include "arithmetic/quantities.h"
#include "insight/compare_words.h"
#include "insight/plain_numbers.h"
#include "insight/settings.h"
#include "insight/tasting.h"

namespace loafmark::insight {
namespace {

using journal::BakeEntry;
using Bakes = std::vector<BakeEntry>;

struct Mean {
    double value = 0;
    std::size_t bakes = 0;
};

std::optional<Mean> mean_of(const Bakes& bakes, Measure measure) {
    Mean mean;
    for (const BakeEntry& bake : bakes)
        if (const auto own = bake_mean(bake, measure)) {
            mean.value += own->value;
            ++mean.bakes;
        }
    if (mean.bakes == 0) return std::nullopt;
    mean.value /= static_cast<double>(mean.bakes);
    return mean;
}

void add_difference(std::vector<SheetLine>& lines, const SheetWish& wish) {
    if (wish.own.empty() || wish.control.empty()) return;
    const Comparison comparison =
        compare({{"the control", wish.control}, {"it", wish.own}}, wish.journal);
    for (const MeasureComparison& one : comparison.measures)
        for (const MeasuredDifference& d : one.differences)
            lines.push_back(
                {std::string(info_of(one.measure).name) + " beside " + wish.control_name,
                 measured_text(*one.means[1], one.measure) + " against " +
                     measured_text(*one.means[0], one.measure) + ": " +
                     (d.verdict == Verdict::cannot_tell
                          ? "whether that is more than chance cannot be told yet"
                      : d.verdict == Verdict::not_told_apart
                          ? "no more than chance"
                          : "more than chance, 95 % interval of the difference " +
                                measured_text(d.interval->low, one.measure) + " to " +
                                measured_text(d.interval->high, one.measure)),
                 counted(static_cast<std::size_t>(one.bakes[1]), "bake", "bakes") + " against " +
                     std::to_string(one.bakes[0])});
}

void add_own_measures(std::vector<SheetLine>& lines, const SheetWish& wish) {
    for (const Measure measure :
         {Measure::loaf_height, Measure::openness, Measure::coarseness, Measure::specific_volume})
        if (const auto mean = mean_of(wish.own, measure))
            lines.push_back({std::string(info_of(measure).name),
                             measured_text(mean->value, measure),
                             counted(mean->bakes, "bake", "bakes")});
}

std::string span_text(double low, double high, int decimals, const std::string& unit) {
    const std::string a = fixed_text(low, decimals);
    const std::string b = fixed_text(high, decimals);
    return (a == b ? a : a + " to " + b) + unit;
}

void add_water(std::vector<SheetLine>& lines, const Bakes& own) {
    std::map<std::string, std::vector<double>> by_handling;
    std::vector<double> all;
    for (const BakeEntry& bake : own) {
        if (!bake.hydration) continue;
        all.push_back(percent(*bake.hydration));
        if (bake.bake.handling) by_handling[*bake.bake.handling].push_back(all.back());
    }
    if (all.empty()) return;
    const auto [low, high] = std::ranges::minmax(all);
    std::string text = "baked with " + span_text(low, high, 0, " %");
    for (const std::string_view word : journal::handling_words)
        if (const auto felt = by_handling.find(std::string(word)); felt != by_handling.end()) {
            const auto [from, to] = std::ranges::minmax(felt->second);
            text += ", " + felt->first + " at " + span_text(from, to, 0, " %");
        }
    lines.push_back({"the water it had", text, counted(all.size(), "bake", "bakes")});
}

// Mixed with others: what the loaves were like by its share.
void add_cut(std::vector<SheetLine>& lines, const SheetWish& wish) {
    if (!wish.flour) return;
    std::map<int, Bakes> by_share;
    for (const BakeEntry& bake : wish.journal)
        for (const journal::FlourShare& flour : bake.flours)
            if (flour.flour == *wish.flour && percent(flour.share) < 95 && !bake.bake.set_aside)
                by_share[static_cast<int>(std::lround(percent(flour.share) / 5)) * 5].push_back(
                    bake);
    for (const auto& [share, bakes] : by_share)
        if (const auto height = mean_of(bakes, Measure::loaf_height))
            lines.push_back({"as " + std::to_string(share) + " % of the flour",
                             "loaf height " + measured_text(height->value, Measure::loaf_height),
                             counted(height->bakes, "bake", "bakes")});
}

std::optional<Millimetres> usual_cut(const Bakes& bakes) {
    double sum = 0;
    int count = 0;
    for (const BakeEntry& bake : bakes)
        for (const journal::LoafEntry& loaf : bake.loaves)
            for (const journal::SliceEntry& slice : loaf.slices)
                for (const Millimetres thickness : slice.slice.thickness) {
                    sum += thickness.count();
                    ++count;
                }
    return count > 0 ? std::optional(Millimetres(sum / count)) : std::nullopt;
}

void add_thickness(std::vector<SheetLine>& lines, const SheetWish& wish) {
    const auto cut = wish.usual_thickness ? wish.usual_thickness : usual_cut(wish.control);
    if (!cut) return;
    for (const Measure measure : {Measure::crumb_density, Measure::slice_density}) {
        const auto own = mean_of(wish.own, measure);
        const auto control = mean_of(wish.control, measure);
        if (!own || !control || !(own->value > 0) || !(control->value > 0)) continue;
        lines.push_back(
            {"a slice to bite through alike",
             fixed_text(equal_bite(*cut, control->value, own->value).count(), 0) + " mm where " +
                 wish.control_name + " is cut " + fixed_text(cut->count(), 0) +
                 " mm (equal grams a square centimetre, by " + std::string(info_of(measure).name) +
                 ")",
             counted(own->bakes, "bake", "bakes") + " against " + std::to_string(control->bakes)});
        return;
    }
}

void add_readiness(std::vector<SheetLine>& lines, const Bakes& own) {
    std::map<std::string, int> dents;
    int loaves = 0;
    for (const BakeEntry& bake : own)
        for (const journal::LoafEntry& loaf : bake.loaves)
            if (loaf.loaf.facts.dent) {
                ++dents[*loaf.loaf.facts.dent];
                ++loaves;
            }
    std::string text;
    for (const auto& [dent, count] : dents)
        text += (text.empty() ? "a dent " : ", ") + dent + " (" + std::to_string(count) + ")";
    std::vector<double> minutes;
    for (const BakeEntry& bake : own)
        if (const auto proof = setting_of(bake, "proof"); proof && proof->number)
            minutes.push_back(*proof->number);
    if (!minutes.empty()) {
        const auto [low, high] = std::ranges::minmax(minutes);
        text += (text.empty() ? "" : "; ") + ("proved " + span_text(low, high, 0, " min"));
    }
    if (text.empty()) return;
    lines.push_back({"into the oven at", text,
                     loaves > 0 ? counted(static_cast<std::size_t>(loaves), "loaf", "loaves")
                                : counted(minutes.size(), "bake", "bakes")});
}

std::vector<journal::Tasting> told_of(const SheetWish& wish) {
    std::set<journal::SittingId> going_on;
    for (const journal::Tasting& tasting : wish.tastings)
        if (tasting.sitting && !tasting.scored) going_on.insert(*tasting.sitting);
    std::vector<journal::Tasting> own;
    for (const journal::Tasting& tasting : wish.tastings)
        if (!(tasting.sitting && going_on.contains(*tasting.sitting)) &&
            std::ranges::any_of(wish.own,
                                [&](const BakeEntry& b) { return b.bake.id == tasting.bake; }))
            own.push_back(tasting);
    return own;
}

void add_keeping(std::vector<SheetLine>& lines, const SheetWish& wish,
                 const std::vector<journal::Tasting>& tastings) {
    for (const char* key : {"soft-firm", "dry-moist"}) {
        std::map<int, std::vector<double>> by_day;
        std::size_t scores = 0;
        for (const journal::Tasting& tasting : tastings) {
            const auto score = tasting.scores.lines.find(key);
            if (score == tasting.scores.lines.end()) continue;
            for (const BakeEntry& bake : wish.own)
                if (bake.bake.id == tasting.bake)
                    by_day[days_between(bake.bake.date, tasting.date) + 1].push_back(score->second);
            ++scores;
        }
        if (by_day.size() < 2) continue;
        std::string text = line_words(key) + ", 0 to 10: ";
        for (const auto& [day, values] : by_day) {
            double sum = 0;
            for (const double value : values)
                sum += value;
            text += (text.ends_with(": ") ? "" : ", ") +
                    fixed_text(sum / static_cast<double>(values.size()), 1) + " on day " +
                    std::to_string(day);
        }
        lines.push_back({"how it keeps", text, counted(scores, "tasting", "tastings")});
    }
}

void add_words(std::vector<SheetLine>& lines, const std::vector<journal::Tasting>& tastings) {
    std::string text;
    std::set<std::string> seen;
    for (const journal::Tasting& tasting : tastings)
        if (tasting.scores.words && seen.insert(*tasting.scores.words).second)
            text += (text.empty() ? "\u201c" : "; \u201c") + *tasting.scores.words + "\u201d";
    if (!text.empty())
        lines.push_back({"in tasters' words", text, counted(seen.size(), "note", "notes")});
}

}  // namespace

SheetKind sheet_kind_of(const journal::Flour& flour, const std::vector<journal::Bag>& bags) {
    SheetKind kind;
    kind.grain = flour.grain;
    kind.words = flour.grain.value_or("flour of a grain that is not noted");
    if (flour.grade) kind.words = *flour.grade + " " + kind.words;
    std::vector<double> proteins;
    bool comparable = true;
    const auto add = [&](const std::optional<Fraction>& protein,
                         const std::optional<ProteinBasis>& basis) {
        if (!protein) return;
        comparable = comparable && basis;
        proteins.push_back(percent(
            basis ? protein_at_14_percent_moisture(*protein, *basis, flour.moisture) : *protein));
    };
    add(flour.protein, flour.protein_basis);
    for (const journal::Bag& bag : bags)
        add(bag.protein, bag.protein_basis);
    if (proteins.empty()) return kind;
    const auto [low, high] = std::ranges::minmax(proteins);
    // A whole percent and more, so that no bag is known by its figure.
    const double from = std::floor(low + 1e-9);
    const double to = std::max(std::ceil(high - 1e-9), from + 1);
    kind.protein = span_text(from, to, 0, " % protein") +
                   (comparable ? " (at 14 % moisture)" : " (as on the pack)");
    if (flour.protein_typical_of) *kind.protein += ", typical of its kind";
    return kind;
}

Millimetres equal_bite(Millimetres control_thickness, double control_density, double density) {
    if (!(control_density > 0) || !(density > 0) || !(control_thickness > Millimetres(0)))
        throw std::invalid_argument("equal_bite: densities and thickness are more than nothing");
    return Millimetres(control_thickness.count() * control_density / density);
}

std::vector<SheetLine> sheet_lines(const SheetWish& wish) {
    std::vector<SheetLine> lines;
    if (wish.control.empty())
        add_own_measures(lines, wish);
    else
        add_difference(lines, wish);
    add_water(lines, wish.own);
    add_cut(lines, wish);
    add_thickness(lines, wish);
    add_readiness(lines, wish.own);
    const auto tastings = told_of(wish);
    add_keeping(lines, wish, tastings);
    add_words(lines, tastings);
    return lines;
}

}  // namespace loafmark::insight
