#include "insight/next_bake.h"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

#include "insight/compare_words.h"
#include "insight/next_advice.h"
#include "insight/reading_notes.h"

namespace loafmark::insight {
namespace {

constexpr std::array<std::pair<Vary, std::string_view>, 4> names{
    {{Vary::water, "water"}, {Vary::proof, "proof"}, {Vary::rest, "rest"}, {Vary::share, "share"}}};

void check(const Goal& goal, Vary vary) {
    if (vary == Vary::proof && !goal.most())
        throw std::invalid_argument("a proof is proposed for the tallest loaf only");
    if (vary == Vary::share && goal.control.empty())
        throw std::invalid_argument(
            "a share is proposed against a control only, such as 'as wheat'");
    if (vary == Vary::share &&
        std::ranges::find(kept_measures, goal.measure) == kept_measures.end())
        throw std::invalid_argument(
            "a share keeps the control's loaf_height or specific_volume, "
            "of which more is wanted; not " +
            std::string(info_of(goal.measure).key));
}

bool holds(const journal::BakeEntry& bake, journal::FlourId flour) {
    return std::ranges::find(bake.flours, flour, &journal::FlourShare::flour) != bake.flours.end();
}

}  // namespace

std::string_view name_of(Vary vary) {
    return names[static_cast<std::size_t>(vary)].second;
}

std::optional<Vary> vary_of_name(std::string_view name) {
    for (const auto& [vary, called] : names)
        if (called == name) return vary;
    return std::nullopt;
}

std::optional<Target> target_of(const Goal& goal) {
    if (goal.value) return Target{*goal.value, 0};
    std::vector<BakeMean> means;
    for (const journal::BakeEntry& bake : goal.control)
        if (const auto mean = bake_mean(bake, goal.measure)) means.push_back(*mean);
    const auto mean = mean_of(means);
    return mean ? std::optional(Target{mean->value, static_cast<int>(means.size())}) : std::nullopt;
}

std::string wanted_words(const Goal& goal, const Target& target) {
    const std::string name(info_of(goal.measure).name);
    const std::string value = measured_text(target.value, goal.measure);
    if (goal.value) return name + " of " + value;
    return "the " + name + " of " + goal.control_name + " (" + value + ")";
}

NextBake next_bake(const std::vector<journal::BakeEntry>& journal, journal::FlourId flour,
                   const Goal& goal, Vary vary) {
    check(goal, vary);
    std::vector<journal::BakeEntry> bakes;
    ReadingNotes notes;
    for (const journal::BakeEntry& bake : journal) {
        if (bake.bake.set_aside) continue;
        bakes.push_back(bake);
        if (holds(bake, flour)) notes.add(bake);
    }
    for (const journal::BakeEntry& bake : goal.control)
        notes.add(bake);
    NextBake next;
    if (!goal.control.empty() && !target_of(goal)) {
        next.sentence = "not determined: no bake of " + goal.control_name + " has " +
                        std::string(info_of(goal.measure).name);
    } else {
        switch (vary) {
            case Vary::water:
                next = next_water(bakes, flour, goal);
                break;
            case Vary::proof:
                next = next_proof(bakes, flour, goal);
                break;
            case Vary::rest:
                next = next_rest(bakes, flour, goal);
                break;
            case Vary::share:
                next = next_share(bakes, flour, goal);
                break;
        }
    }
    next.vary = vary;
    next.notes = notes.of_versions();
    return next;
}

}  // namespace loafmark::insight
