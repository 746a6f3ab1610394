#include "insight/tasting.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include "arithmetic/quantities.h"
#include "insight/plain_numbers.h"
#include "insight/shuffle.h"

namespace loafmark::insight {
namespace {

using journal::Tasting;

constexpr int first_code = 100;
constexpr int codes = 900;
constexpr const char* liking_key = "liking";

std::vector<std::string> all_keys() {
    std::vector<std::string> keys;
    for (const journal::TastingLine& line : journal::tasting_lines)
        keys.emplace_back(line.key);
    keys.emplace_back(liking_key);
    return keys;
}

std::optional<double> score_of(const Tasting& tasting, const std::string& key) {
    if (key == liking_key) return tasting.scores.liking;
    const auto found = tasting.scores.lines.find(key);
    return found == tasting.scores.lines.end() ? std::nullopt : std::optional(found->second);
}

// The tastings that may be told of.
std::vector<Tasting> told(const std::vector<Tasting>& tastings, int& hidden) {
    std::set<journal::SittingId> going_on;
    for (const Tasting& tasting : tastings)
        if (tasting.sitting && !tasting.scored) going_on.insert(*tasting.sitting);
    std::vector<Tasting> list;
    for (const Tasting& tasting : tastings)
        if (tasting.sitting && going_on.contains(*tasting.sitting))
            ++hidden;
        else
            list.push_back(tasting);
    return list;
}

using Group = std::vector<journal::BakeId>;

bool is_of(const Tasting& tasting, const Group& group) {
    return std::ranges::find(group, tasting.bake) != group.end();
}

std::optional<double> mean_of(const std::vector<Tasting>& tastings, const Group& group,
                              const std::string& taster, const std::string& key) {
    double sum = 0;
    int count = 0;
    for (const Tasting& tasting : tastings) {
        if (!is_of(tasting, group) || tasting.taster != taster) continue;
        if (const auto score = score_of(tasting, key)) {
            sum += *score;
            ++count;
        }
    }
    return count > 0 ? std::optional(sum / count) : std::nullopt;
}

void add_once(std::vector<std::string>& list, const std::string& text) {
    if (!text.empty() && std::ranges::find(list, text) == list.end()) list.push_back(text);
}

std::string when_of(const Tasting& tasting) {
    std::string text;
    if (tasting.since_oven) text = to_text(minutes_from(*tasting.since_oven)) + " out of the oven";
    if (tasting.kept) text += (text.empty() ? "" : ", ") + ("kept: " + *tasting.kept);
    return text;
}

// Tasters first, so that one who tasted twice weighs no more.
BakeTasting tasting_of(const std::vector<Tasting>& tastings, const Group& group) {
    BakeTasting result;
    result.bakes = group;
    for (const Tasting& tasting : tastings) {
        if (!is_of(tasting, group)) continue;
        add_once(result.tasters, tasting.taster);
        add_once(result.when, when_of(tasting));
        if (tasting.scores.words)
            result.good_for.push_back(tasting.taster + ": " + *tasting.scores.words);
    }
    for (const std::string& key : all_keys()) {
        LineMean mean{key, 0, 0};
        for (const std::string& taster : result.tasters)
            if (const auto own = mean_of(tastings, group, taster, key)) {
                mean.value += *own;
                ++mean.tastings;
            }
        if (mean.tastings == 0) continue;
        mean.value /= mean.tastings;
        result.lines.push_back(mean);
    }
    return result;
}

// Scores that one taster gave one line of one bake in one sitting, where there are several.
std::vector<std::vector<double>> repeats_of(const std::vector<Tasting>& tastings,
                                            const std::string& taster) {
    std::map<std::tuple<std::int64_t, std::int64_t, std::string>, std::vector<double>> sets;
    for (const Tasting& tasting : tastings) {
        if (!tasting.sitting || tasting.taster != taster) continue;
        for (const auto& [key, score] : tasting.scores.lines)
            sets[{tasting.sitting->value, tasting.bake.value, key}].push_back(score);
    }
    std::vector<std::vector<double>> list;
    for (auto& [what, values] : sets)
        if (values.size() > 1) list.push_back(std::move(values));
    return list;
}

std::vector<TasterRepeat> repeats(const std::vector<Tasting>& tastings) {
    std::set<std::string> names;
    for (const Tasting& tasting : tastings)
        names.insert(tasting.taster);
    std::vector<TasterRepeat> list;
    for (const std::string& name : names)
        list.push_back({name, statistics::pooled_repeatability(repeats_of(tastings, name))});
    return list;
}

// Over the tasters who had both, what the mean of their differences exceeds by their own scatter in
// 5 % of cases.
std::optional<double> limit_of(const std::vector<Tasting>& tastings,
                               const std::vector<std::string>& tasters) {
    std::vector<std::vector<double>> sets;
    for (const std::string& taster : tasters)
        for (auto& set : repeats_of(tastings, taster))
            sets.push_back(std::move(set));
    const auto pooled = statistics::pooled_repeatability(sets);
    const int n = static_cast<int>(tasters.size());
    return pooled ? pooled->limit(n, n) : std::nullopt;
}

std::string sentence_of(const TasteDifference& d) {
    const auto line = std::ranges::find(journal::tasting_lines, d.key, &journal::TastingLine::key);
    std::string text = d.key;
    if (line != journal::tasting_lines.end())
        text = std::string("more ") + std::string(d.value >= 0 ? line->high : line->low);
    else
        text = d.value >= 0 ? "liked more" : "liked less";
    text += " by " + fixed_text(std::abs(d.value), 1) + " of 10 (" + std::to_string(d.tasters) +
            (d.tasters == 1 ? " taster)" : " tasters)");
    if (!d.limit) return text + ": whether the tasters can tell is not known, serve a loaf twice";
    if (std::abs(d.value) <= *d.limit)
        return text + ": not told apart (their own repeats differ by up to " +
               fixed_text(*d.limit, 1) + ")";
    return text + ": more than their own repeats differ by (" + fixed_text(*d.limit, 1) + ")";
}

std::vector<TasteDifference> differences(const std::vector<Tasting>& tastings,
                                         const BakeTasting& first, const BakeTasting& other) {
    std::vector<TasteDifference> list;
    for (const std::string& key : all_keys()) {
        TasteDifference d;
        d.key = key;
        std::vector<std::string> both;
        for (const std::string& taster : other.tasters) {
            const auto a = mean_of(tastings, first.bakes, taster, key);
            const auto b = mean_of(tastings, other.bakes, taster, key);
            if (!a || !b) continue;
            d.value += *b - *a;
            both.push_back(taster);
        }
        if (both.empty()) continue;
        d.tasters = static_cast<int>(both.size());
        d.value /= d.tasters;
        d.limit = limit_of(tastings, both);
        d.sentence = sentence_of(d);
        list.push_back(d);
    }
    return list;
}

}  // namespace

std::vector<std::vector<int>> williams_orders(int slices) {
    if (slices < 2) throw std::invalid_argument("an order wants two slices at least");
    // 0, 1, n - 1, 2, n - 2...: neighbours differ by every step once. Shifted around, every slice
    // stands at every place; of an odd number the steps come out even with the reverse orders too.
    std::vector<int> first{0};
    for (int i = 1; static_cast<int>(first.size()) < slices; ++i) {
        first.push_back(i);
        if (static_cast<int>(first.size()) < slices) first.push_back(slices - i);
    }
    std::vector<std::vector<int>> orders;
    for (int shift = 0; shift < slices; ++shift) {
        std::vector<int> order = first;
        for (int& slice : order)
            slice = (slice + shift) % slices;
        orders.push_back(order);
    }
    if (slices % 2 == 1)
        for (int i = 0; i < slices; ++i)
            orders.emplace_back(orders[static_cast<std::size_t>(i)].rbegin(),
                                orders[static_cast<std::size_t>(i)].rend());
    return orders;
}

std::vector<journal::Serving> servings(const std::vector<journal::BakeId>& bakes,
                                       const std::vector<std::string>& tasters,
                                       std::uint64_t seed) {
    if (bakes.empty() || tasters.empty())
        throw std::invalid_argument("a sitting wants a bake and a taster at least");
    const std::size_t each = bakes.size() + 1;
    if (each * tasters.size() > codes / 2)
        throw std::invalid_argument(
            "so many slices for so many tasters leave no three-digit codes");
    Chance chance(seed);
    std::vector<int> numbers(codes);
    for (int i = 0; i < codes; ++i)
        numbers[static_cast<std::size_t>(i)] = first_code + i;
    chance.shuffle(numbers);
    // What stands behind the orders' numbers, the doubled bake at the end.
    std::vector<journal::BakeId> slices = bakes;
    chance.shuffle(slices);
    slices.push_back(slices.front());
    std::vector<std::vector<int>> orders = williams_orders(static_cast<int>(each));
    chance.shuffle(orders);
    std::vector<journal::Serving> list;
    for (std::size_t t = 0; t < tasters.size(); ++t) {
        int turn = 0;
        for (const int slice : orders[t % orders.size()]) {
            journal::Serving serving;
            serving.bake = slices[static_cast<std::size_t>(slice)];
            serving.taster = tasters[t];
            serving.turn = ++turn;
            serving.code = numbers[list.size()];
            list.push_back(serving);
        }
    }
    return list;
}

TasteSummary summary_of(const std::vector<Tasting>& tastings,
                        const std::vector<std::vector<journal::BakeId>>& groups) {
    TasteSummary summary;
    const std::vector<Tasting> open = told(tastings, summary.hidden);
    for (const Group& group : groups)
        summary.bakes.push_back(tasting_of(open, group));
    for (std::size_t i = 1; i < summary.bakes.size(); ++i)
        summary.against_first.push_back(differences(open, summary.bakes.front(), summary.bakes[i]));
    summary.tasters = repeats(open);
    return summary;
}

std::string line_words(const std::string& key) {
    for (const journal::TastingLine& line : journal::tasting_lines)
        if (line.key == key) return std::string(line.low) + " - " + std::string(line.high);
    return key;
}

}  // namespace loafmark::insight
