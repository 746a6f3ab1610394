#include "insight/questions.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "insight/bake_values.h"
#include "insight/plain_numbers.h"
#include "insight/reading_notes.h"
#include "statistics/quantiles.h"

namespace loafmark::insight {
namespace {

using journal::BakeEntry;
using journal::Reading;

// Openings of 10 mm and more are worth a word from this share of the crumb on.
constexpr double much_cavity = 0.01;
// Nearly every loaf is a little closer just above its base; from here on it is worth a word. Common
// practice, no source.
constexpr double thick_layer_mm = 5;

const Estimate* value_of(const Reading& reading, Measure measure) {
    const auto found = reading.values.find(measure);
    return found == reading.values.end() || !std::isfinite(found->second.value) ? nullptr
                                                                                : &found->second;
}

std::string number(double value, Measure measure) {
    return fixed_text(value, info_of(measure).decimals);
}

std::string unit_after(Measure measure) {
    const MeasureInfo& info = info_of(measure);
    return info.unit.empty() ? "" : " " + std::string(info.unit);
}

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

// How the cells' unevenness compares with the same cells placed at random.
std::string against_chance(const Reading& reading) {
    const Estimate* uneven = value_of(reading, Measure::unevenness);
    const Estimate* chance = value_of(reading, Measure::unevenness_expected);
    if (!uneven || !chance) return "";
    if (uneven->low > chance->value)
        return " More uneven than these cells would be, strewn by chance (" +
               number(chance->value, Measure::unevenness) + ").";
    if (uneven->high < chance->value)
        return " More even than these cells would be, strewn by chance (" +
               number(chance->value, Measure::unevenness) + ").";
    return " As even as these cells would be, strewn by chance.";
}

// A part of the profile: mean of its bands and of their intervals' ends.
Estimate part_of(const std::array<Estimate, 10>& bands, std::size_t from, std::size_t to) {
    Estimate part;
    for (std::size_t i = from; i < to; ++i) {
        part.value += bands[i].value / static_cast<double>(to - from);
        part.low += bands[i].low / static_cast<double>(to - from);
        part.high += bands[i].high / static_cast<double>(to - from);
    }
    return part;
}

enum class Lean { crown, base, middle, none };

struct Parts {
    Estimate base, middle, crown;
    [[nodiscard]] Lean lean() const {
        if (middle.low > base.high && middle.low > crown.high) return Lean::middle;
        if (crown.low > base.high) return Lean::crown;
        if (base.low > crown.high) return Lean::base;
        return Lean::none;
    }
};

std::optional<Parts> parts_of(const Reading& reading) {
    const auto bands = profile_of(reading);
    if (!bands) return std::nullopt;
    return Parts{part_of(*bands, 0, 3), part_of(*bands, 3, 7), part_of(*bands, 7, 10)};
}

std::string lean_words(const Parts& parts) {
    const auto openness = [](const Estimate& part) {
        return " (" + number(part.value, Measure::openness) + ")";
    };
    switch (parts.lean()) {
        case Lean::crown:
            return "More open towards the crown" + openness(parts.crown) + " than at the base" +
                   openness(parts.base) + ".";
        case Lean::base:
            return "More open at the base" + openness(parts.base) + " than towards the crown" +
                   openness(parts.crown) + ".";
        case Lean::middle:
            return "Most open in the middle" + openness(parts.middle) + ", less at base" +
                   openness(parts.base) + " and crown" + openness(parts.crown) + ".";
        case Lean::none:
            break;
    }
    return "From base to crown no difference that the intervals allow to tell.";
}

bool has(const Reading& reading, Measure measure) {
    const Estimate* value = value_of(reading, measure);
    return value && value->value > 0;
}

bool dense_at_base(const Reading& reading) {
    const Estimate* layer = value_of(reading, Measure::dense_base);
    return layer && layer->value >= thick_layer_mm;
}

bool lifted(const Reading& reading) {
    return has(reading, Measure::crust_separation_share_of_width) ||
           has(reading, Measure::crust_separation_width);
}

bool tunnelled(const Reading& reading) {
    return has(reading, Measure::tunnel_share_of_width) || has(reading, Measure::tunnel_width);
}

// " over 41.0 mm" where it is known in mm.
std::string over(const Reading& reading, Measure width) {
    const Estimate* value = value_of(reading, width);
    return value ? " of " + number(value->value, width) + " mm" : "";
}

// "3 slices have a lifted crust"
void count_into(std::vector<std::string>& parts, int slices, const std::string& what) {
    if (slices > 0)
        parts.push_back(std::to_string(slices) + (slices == 1 ? " has " : " have ") + what);
}

const BakeEntry* newest_with(const std::vector<BakeEntry>& bakes, Measure measure) {
    const BakeEntry* newest = nullptr;
    for (const BakeEntry& bake : bakes)
        if (!bake.bake.set_aside && bake_mean(bake, measure) &&
            (!newest ||
             std::tie(newest->bake.date, newest->bake.id) < std::tie(bake.bake.date, bake.bake.id)))
            newest = &bake;
    return newest;
}

std::vector<double> means_of(const std::vector<BakeEntry>& bakes, Measure measure) {
    std::vector<double> means;
    for (const BakeEntry& bake : bakes)
        if (!bake.bake.set_aside)
            if (const auto mean = bake_mean(bake, measure)) means.push_back(mean->value);
    return means;
}

// At least one.
Usual spread_of(const std::vector<double>& means) {
    const auto at = [&](double q) { return statistics::quantile(means, q).value(); };
    return Usual{means.size(), at(0), {at(1.0 / 3), at(2.0 / 3)}, {at(0.25), at(0.75)}, at(1)};
}

// "8 bakes lie between 61.0 and 94.2 mm, half of them between 74.1 and 88.0 mm."; halves of a few
// say nothing.
std::string spread_words(const Usual& spread, Measure measure) {
    if (spread.bakes == 1) return "One bake.";
    const std::string unit = unit_after(measure);
    const auto between = [&](double low, double high) {
        return " between " + number(low, measure) + " and " + number(high, measure) + unit;
    };
    return std::to_string(spread.bakes) + " bakes lie" + between(spread.least, spread.most) +
           (spread.bakes < bakes_for_usual
                ? ""
                : ", half of them" + between(spread.quarters[0], spread.quarters[1])) +
           ".";
}

std::size_t third_of(double value, const Usual& usual) {
    return value < usual.thirds[0] ? 0 : value <= usual.thirds[1] ? 1 : 2;
}

}  // namespace

bool counts(const journal::SliceEntry& slice) {
    return slice.reading && !is_poor(*slice.reading) && slice.slice.place != journal::end_of_loaf;
}

std::optional<Usual> usual_of(const std::vector<BakeEntry>& bakes, Measure measure) {
    const std::vector<double> means = means_of(bakes, measure);
    return means.size() < bakes_for_usual ? std::nullopt : std::optional(spread_of(means));
}

std::optional<std::string> place_of(const Estimate& value, const Question& question,
                                    const Usual& usual) {
    const std::size_t low = third_of(value.low, usual);
    const std::size_t high = third_of(value.high, usual);
    if (low == high) return std::string(question.words[low]);
    if (high - low > 1) return std::nullopt;
    return std::string(question.words[low]) + " to " + std::string(question.words[high]);
}

std::optional<std::string> answer(const Reading& reading, const Question& question,
                                  const std::optional<Usual>& usual) {
    const Estimate* value = value_of(reading, question.measure);
    if (!value) return std::nullopt;
    const std::string measured =
        number(value->value, question.measure) + unit_after(question.measure) + " (" +
        number(value->low, question.measure) + " to " + number(value->high, question.measure) + ")";
    std::string text;
    if (!usual)
        text = capital(measured) + "; too few bakes were measured to say what is usual here.";
    else if (const auto place = place_of(*value, question, *usual))
        text = capital(*place) + " among this journal's " + std::to_string(usual->bakes) +
               " bakes: " + measured + ".";
    else
        text = measured + ": too wide an interval to place it among this journal's bakes.";
    if (question.measure == Measure::unevenness) text += against_chance(reading);
    return text;
}

std::optional<std::array<Estimate, 10>> profile_of(const Reading& reading) {
    std::array<Estimate, 10> bands{};
    for (std::size_t i = 0; i < bands.size(); ++i) {
        const auto measure =
            static_cast<Measure>(static_cast<std::size_t>(Measure::openness_profile_1) + i);
        const Estimate* value = value_of(reading, measure);
        if (!value) return std::nullopt;
        bands[i] = *value;
    }
    return bands;
}

std::optional<std::array<double, 10>> mean_profile(const std::vector<const BakeEntry*>& bakes) {
    std::array<double, 10> sum{};
    int slices = 0;
    for (const BakeEntry* bake : bakes)
        for (const journal::LoafEntry& loaf : bake->loaves)
            for (const journal::SliceEntry& slice : loaf.slices) {
                if (!counts(slice)) continue;
                const auto bands = profile_of(*slice.reading);
                if (!bands) continue;
                for (std::size_t i = 0; i < sum.size(); ++i)
                    sum[i] += (*bands)[i].value;
                ++slices;
            }
    if (slices == 0) return std::nullopt;
    for (double& band : sum)
        band /= slices;
    return sum;
}

std::optional<std::string> where_different(const Reading& reading) {
    std::string text;
    const auto add = [&](const std::string& sentence) {
        text += (text.empty() ? "" : " ") + sentence;
    };
    if (const auto parts = parts_of(reading)) add(lean_words(*parts));
    if (dense_at_base(reading))
        add("A dense layer" + over(reading, Measure::dense_base) + " at the base.");
    if (lifted(reading))
        add("The top crust stands off over an opening" +
            over(reading, Measure::crust_separation_width) + ".");
    if (tunnelled(reading)) add("A tunnel" + over(reading, Measure::tunnel_width) + ".");
    const Estimate* cavities = value_of(reading, Measure::large_cavity_share);
    if (cavities && cavities->value >= much_cavity)
        add("Openings of 10 mm and more take " + fixed_text(100 * cavities->value, 0) +
            " % of the crumb.");
    return text.empty() ? std::nullopt : std::optional(text);
}

std::string answer(const std::vector<BakeEntry>& bakes, const Question& question,
                   const std::optional<Usual>& usual) {
    const Measure measure = question.measure;
    if (!usual)
        return "Measured in fewer than " + std::to_string(bakes_for_usual) +
               " bakes: too few to say what is usual here.";
    const std::vector<double> means = means_of(bakes, measure);
    if (means.empty()) return "Measured in none of these bakes.";
    const BakeEntry* newest = newest_with(bakes, measure);
    const double value = bake_mean(*newest, measure)->value;
    std::string text = spread_words(spread_of(means), measure) + " The newest, " +
                       newest->bake.title + ", is " +
                       std::string(question.words[third_of(value, *usual)]) + " with " +
                       number(value, measure) + unit_after(measure);
    if (usual->bakes != means.size())
        text += ", held against the journal's " + std::to_string(usual->bakes) + " bakes";
    return text + ".";
}

std::string where_different(const std::vector<BakeEntry>& bakes) {
    int profiles = 0, crown = 0, base = 0, middle = 0, slices = 0;
    int crusts = 0, tunnels = 0, dense = 0;
    for (const BakeEntry& bake : bakes) {
        if (bake.bake.set_aside) continue;
        for (const journal::LoafEntry& loaf : bake.loaves)
            for (const journal::SliceEntry& slice : loaf.slices) {
                if (!counts(slice)) continue;
                ++slices;
                crusts += lifted(*slice.reading);
                tunnels += tunnelled(*slice.reading);
                dense += dense_at_base(*slice.reading);
                const auto parts = parts_of(*slice.reading);
                if (!parts) continue;
                ++profiles;
                crown += parts->lean() == Lean::crown;
                base += parts->lean() == Lean::base;
                middle += parts->lean() == Lean::middle;
            }
    }
    if (slices == 0) return "No slice was measured.";
    std::string text;
    if (profiles > 0) {
        std::vector<std::string> leans;
        const auto add = [&](int n, const std::string& where) {
            if (n > 0) leans.push_back(std::to_string(n) + " more open " + where);
        };
        add(crown, "towards the crown");
        add(base, "at the base");
        add(middle, "in the middle");
        const int none = profiles - crown - base - middle;
        if (none > 0)
            leans.push_back(std::to_string(none) + " without a difference that can be told");
        text = "From base to crown, of " + std::to_string(profiles) +
               (profiles == 1 ? " slice: " : " slices: ") + joined(leans) + ". ";
    }
    std::vector<std::string> kinds;
    count_into(kinds, crusts, "a crust that stands off");
    count_into(kinds, tunnels, "a tunnel");
    count_into(kinds, dense, "a dense layer of 5 mm or more at the base");
    return text + (kinds.empty() ? "None has a crust that stands off, a tunnel or a dense layer of "
                                   "5 mm or more at the base."
                                 : "Of " + std::to_string(slices) + ", " + joined(kinds) + ".");
}

}  // namespace loafmark::insight
