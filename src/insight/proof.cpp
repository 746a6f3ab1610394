#include "insight/proof.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <set>
#include <tuple>
#include <utility>

#include "arithmetic/dates.h"
#include "insight/plain_numbers.h"
#include "statistics/lines.h"
#include "statistics/repeatability.h"

namespace loafmark::insight {
namespace {

constexpr std::string_view final_proof = "final proof";
// A dent that springs back or collapses says only that it was too early or too late.
constexpr std::array<std::string_view, 2> equally_proved = {"slowly", "stays"};

// Minutes since the epoch of a local time, 2026-03-01 18:20; nothing where it is not one.
std::optional<double> moment(const std::optional<std::string>& text) {
    if (!text || text->size() < 16) return std::nullopt;
    const auto number = [&](std::size_t at, std::size_t digits) {
        int value = -1;
        std::from_chars(text->data() + at, text->data() + at + digits, value);
        return value;
    };
    const Date day{number(0, 4), number(5, 2), number(8, 2)};
    const int hour = number(11, 2);
    const int minute = number(14, 2);
    if (!exists(day) || hour < 0 || minute < 0) return std::nullopt;
    return 1440.0 * days_between(Date{1970, 1, 1}, day) + 60 * hour + minute;
}

// How long a step took that only says when it began.
std::optional<Minutes> until_next(const std::vector<journal::BakeStep>& steps, std::size_t i) {
    const auto began = moment(steps[i].began);
    if (!began) return std::nullopt;
    for (std::size_t next = i + 1; next < steps.size(); ++next)
        if (const auto end = moment(steps[next].began))
            return *end > *began ? std::optional(Minutes(*end - *began)) : std::nullopt;
    return std::nullopt;
}

// Of the dough's steps; nothing where one's time is not known.
std::optional<std::vector<ProofStretch>> stretches_of(const journal::Bake& bake) {
    std::vector<ProofStretch> stretches;
    for (std::size_t i = 0; i < bake.steps.size(); ++i) {
        const journal::BakeStep& step = bake.steps[i];
        if (step.step != final_proof) continue;
        const auto lasted = step.lasted ? step.lasted : until_next(bake.steps, i);
        if (!lasted) return std::nullopt;
        stretches.push_back({*lasted, step.temperature});
    }
    return stretches;
}

// That the dough's steps note, each once, whether their time is known or not.
std::set<double> degrees_of(const journal::Bake& bake) {
    std::set<double> degrees;
    for (const journal::BakeStep& step : bake.steps)
        if (step.step == final_proof && step.temperature)
            degrees.insert(step.temperature->degrees());
    return degrees;
}

Minutes total(const std::vector<ProofStretch>& stretches) {
    Minutes minutes{0};
    for (const ProofStretch& stretch : stretches)
        minutes = Minutes(minutes.count() + stretch.lasted.count());
    return minutes;
}

// Loaves of one formula that a dent found equally proved, x in degrees, y in doublings of minutes.
using Alike = std::map<std::tuple<std::int64_t, std::string>, std::vector<statistics::Point>>;

void add_loaves(const journal::BakeEntry& bake, Alike& alike) {
    // Loaves of one dough that proved together are one proof.
    std::set<std::tuple<std::string, double, double>> seen;
    for (const journal::LoafEntry& loaf : bake.loaves) {
        const auto& dent = loaf.loaf.facts.dent;
        const auto proof = proof_of(bake, loaf.loaf);
        if (!dent || std::ranges::find(equally_proved, *dent) == equally_proved.end()) continue;
        if (!proof || !proof->temperature) continue;
        const double degrees = proof->temperature->degrees();
        const double minutes = proof->lasted.count();
        if (!at_common_temperature(proof->lasted, *proof->temperature, 1)) continue;
        if (seen.emplace(*dent, degrees, minutes).second)
            alike[{bake.bake.formula_version.value, *dent}].push_back(
                {degrees, std::log2(minutes)});
    }
}

std::string leaven_words(const std::string& leaven) {
    return leaven.empty() ? "dough whose leaven is not noted" : leaven + " dough";
}

ProofDoubling by_practice(const std::string& leaven) {
    ProofDoubling doubling;
    doubling.leaven = leaven;
    doubling.sentence = leaven_words(leaven) + " is taken to prove twice as fast for every " +
                        fixed_text(doubling.degrees, 0) +
                        " \u00b0C more (8 to 10, common practice, no source)";
    return doubling;
}

ProofDoubling learnt_from(const std::string& leaven, const Alike& alike) {
    std::vector<std::vector<statistics::Point>> groups;
    int proofs = 0;
    for (const auto& [what, points] : alike) {
        groups.push_back(points);
        proofs += static_cast<int>(points.size());
    }
    const auto lines = groups.empty() ? std::nullopt : statistics::fit_parallel_lines(groups);
    if (!lines || lines->degrees_of_freedom < statistics::least_degrees_to_judge ||
        !(lines->slope.interval->high < 0))
        return by_practice(leaven);
    ProofDoubling doubling;
    doubling.leaven = leaven;
    doubling.degrees = -1 / lines->slope.value;
    doubling.interval = {-1 / lines->slope.interval->low, -1 / lines->slope.interval->high};
    doubling.proofs = proofs;
    doubling.degrees_of_freedom = lines->degrees_of_freedom;
    doubling.sentence = leaven_words(leaven) + " proves twice as fast for every " +
                        fixed_text(doubling.degrees, 1) + " \u00b0C more (95 % interval " +
                        fixed_text(doubling.interval->low, 1) + " to " +
                        fixed_text(doubling.interval->high, 1) + ", learnt from " +
                        std::to_string(proofs) + " proofs to the same dent, " +
                        std::to_string(doubling.degrees_of_freedom) + " df)";
    return doubling;
}

}  // namespace

bool Proof::temperature_known() const {
    return temperature ||
           (!stretches.empty() && std::ranges::all_of(stretches, [](const ProofStretch& stretch) {
               return stretch.temperature.has_value();
           }));
}

std::optional<Proof> proof_of(const journal::BakeEntry& bake, const journal::Loaf& loaf) {
    auto stretches =
        loaf.facts.proof ? std::optional(std::vector<ProofStretch>{}) : stretches_of(bake.bake);
    if (!stretches) return std::nullopt;
    Proof proof{loaf.facts.proof.value_or(total(*stretches)), loaf.facts.proof_temperature};
    if (!(proof.lasted.count() > 0)) return std::nullopt;
    if (proof.temperature) return proof;
    const std::set<double> noted = degrees_of(bake.bake);
    if (noted.size() == 1) proof.temperature = Celsius(*noted.begin());
    if (noted.empty()) proof.temperature = bake.bake.room_temperature;
    if (noted.size() < 2) return proof;
    for (ProofStretch& stretch : *stretches)
        if (!stretch.temperature) stretch.temperature = bake.bake.room_temperature;
    proof.stretches = std::move(*stretches);
    return proof;
}

std::string leaven_of(const journal::BakeEntry& bake) {
    return bake.bake.facts.leaven.value_or("");
}

ProofDoublings proof_doublings(const std::vector<journal::BakeEntry>& bakes) {
    std::map<std::string, Alike> by_leaven;
    for (const journal::BakeEntry& bake : bakes) {
        if (bake.bake.set_aside) continue;
        add_loaves(bake, by_leaven[leaven_of(bake)]);
    }
    ProofDoublings doublings;
    for (const auto& [leaven, alike] : by_leaven)
        doublings.emplace(leaven, learnt_from(leaven, alike));
    return doublings;
}

ProofDoubling doubling_for(const ProofDoublings& doublings, std::string_view leaven) {
    const auto found = doublings.find(leaven);
    return found == doublings.end() ? by_practice(std::string(leaven)) : found->second;
}

std::optional<Minutes> at_common_temperature(Minutes lasted, Celsius temperature, double degrees) {
    const double warmth = temperature.degrees();
    if (warmth < coldest_weighted_proof.degrees() || warmth > warmest_weighted_proof.degrees())
        return std::nullopt;
    return Minutes(lasted.count() *
                   std::exp2((warmth - common_proof_temperature.degrees()) / degrees));
}

std::optional<Minutes> at_common_temperature(const Proof& proof, double degrees) {
    double minutes = 0;
    const auto add = [&](Minutes lasted, const std::optional<Celsius>& temperature) {
        const auto weighted =
            temperature ? at_common_temperature(lasted, *temperature, degrees) : std::nullopt;
        if (weighted) minutes += weighted->count();
        return weighted.has_value();
    };
    const bool all = proof.stretches.empty()
                         ? add(proof.lasted, proof.temperature)
                         : std::ranges::all_of(proof.stretches, [&](const ProofStretch& stretch) {
                               return add(stretch.lasted, stretch.temperature);
                           });
    return all ? std::optional(Minutes(minutes)) : std::nullopt;
}

}  // namespace loafmark::insight
