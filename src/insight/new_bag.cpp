#include "insight/new_bag.h"

#include <cmath>

#include "insight/bags.h"
#include "insight/compare_words.h"
#include "insight/control_loaf.h"
#include "insight/recipe.h"
#include "statistics/prediction.h"
#include "statistics/quantiles.h"

namespace loafmark::insight {
namespace {

std::optional<journal::BagId> only_bag(const journal::BakeEntry& bake) {
    const journal::FlourShare* flour = main_flour(bake);
    const auto bags = flour ? bags_of(bake, flour->flour) : std::vector<journal::BagId>{};
    return bags.size() == 1 ? std::optional(bags.front()) : std::nullopt;
}

std::vector<double> values_of(const std::vector<ControlDay>& days) {
    std::vector<double> values;
    for (const ControlDay& day : days)
        values.push_back(day.value);
    return values;
}

BagVerdict verdict_of(const NewBag& bag) {
    if (!bag.expected) return BagVerdict::cannot_tell;
    if (bag.value < bag.expected->low || bag.value > bag.expected->high)
        return BagVerdict::different;
    const double half = (bag.expected->high - bag.expected->low) / 2;
    return half <= change_worth_notice * std::abs(bag.before) ? BagVerdict::as_before
                                                              : BagVerdict::cannot_tell;
}

std::string sentence_of(const NewBag& bag, Measure measure) {
    std::string text = "bag " + std::to_string(bag.bag.value) + ", " + bag.recipe + ": " +
                       std::string(info_of(measure).name) + " " + measured_text(bag.value, measure);
    if (!bag.expected)
        return text +
               "; no one can tell yet whether it bakes as the bags before, which wants 4 "
               "days of this loaf from them (there are " +
               std::to_string(bag.days_before) + ")";
    text += ", " + measured_text(bag.expected->low, measure) + " to " +
            measured_text(bag.expected->high, measure) + " was to be expected from " +
            std::to_string(bag.days_before) + " days with the bags before (95 %): ";
    switch (bag.verdict) {
        case BagVerdict::as_before:
            return text + "as before";
        case BagVerdict::different:
            return text +
                   "different; bake this loaf once more from it before the recipe is changed, "
                   "since the day may have done it";
        case BagVerdict::cannot_tell:
            return text + "not told apart, but so wide that a change of " +
                   std::to_string(static_cast<int>(100 * change_worth_notice)) +
                   " % need not show: bake this loaf once more from it";
    }
    return text;
}

}  // namespace

std::string_view name_of(BagVerdict verdict) {
    switch (verdict) {
        case BagVerdict::as_before:
            return "as before";
        case BagVerdict::different:
            return "different";
        case BagVerdict::cannot_tell:
            return "cannot tell";
    }
    return "";
}

std::optional<NewBag> judge_new_bag(const std::vector<journal::BakeEntry>& bakes, Measure measure,
                                    EndSlices ends) {
    const std::vector<ControlBake> control = control_loaf(bakes, measure, ends);
    if (control.empty()) return std::nullopt;
    const auto newest = only_bag(*control.back().entry);
    if (!newest) return std::nullopt;
    std::vector<ControlBake> of_new;
    std::vector<ControlBake> of_old;
    for (const ControlBake& bake : control) {
        if (const auto bag = only_bag(*bake.entry))
            (*bag == *newest ? of_new : of_old).push_back(bake);
    }
    if (of_old.empty()) return std::nullopt;
    const std::vector<double> now = values_of(by_day(of_new));
    const std::vector<double> before = values_of(by_day(of_old));
    NewBag bag;
    bag.recipe = recipe_words(*control.back().entry);
    bag.bag = *newest;
    bag.value = *statistics::mean(now);
    bag.days = static_cast<int>(now.size());
    bag.before = *statistics::mean(before);
    bag.days_before = static_cast<int>(before.size());
    bag.expected = statistics::prediction_interval(before, bag.days);
    bag.verdict = verdict_of(bag);
    bag.sentence = sentence_of(bag, measure);
    return bag;
}

}  // namespace loafmark::insight
