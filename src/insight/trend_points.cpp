#include "insight/trend_points.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "insight/bags.h"
#include "insight/reading_notes.h"

namespace loafmark::insight {
namespace {

// Of all flour, by share; nothing unless every flour states it, all of one kind and basis.
std::optional<double> protein_of(const journal::BakeEntry& bake, const FlourKinds& kinds) {
    double protein = 0;
    double shares = 0;
    const FlourKind* kind = nullptr;
    for (const journal::FlourShare& flour : bake.flours) {
        const auto found = kinds.find(flour.flour);
        if (!flour.protein || found == kinds.end()) return std::nullopt;
        if (kind && *kind != found->second) return std::nullopt;
        kind = &found->second;
        protein += flour.share.count() * percent(*flour.protein);
        shares += flour.share.count();
    }
    return shares > 0 ? std::optional(protein / shares) : std::nullopt;
}

std::optional<double> degrees(const std::optional<Celsius>& temperature) {
    return temperature ? std::optional(temperature->degrees()) : std::nullopt;
}

// What belongs to the dough as a whole.
std::optional<double> x_of(const journal::BakeEntry& bake, const TrendQuestion& question) {
    switch (question.against) {
        case Against::hydration:
            if (!bake.hydration) return std::nullopt;
            return percent(*bake.hydration);
        case Against::date:
            return days_between(Date{1970, 1, 1}, bake.bake.date);
        case Against::share:
            return percent(main_flour(bake)->share);
        case Against::protein:
            return protein_of(bake, question.kinds);
        case Against::dough_temperature:
            return degrees(bake.bake.dough_temperature);
        case Against::room_temperature:
            return degrees(bake.bake.room_temperature);
        case Against::proof:
        case Against::proof_at_25c:
            break;
    }
    return std::nullopt;
}

// Over water, date or share.
std::optional<double> x_of(const journal::MeasuredBake& bake, Against against) {
    if (against == Against::date) return days_between(Date{1970, 1, 1}, bake.date);
    if (against == Against::share) return percent(bake.main_share);
    return bake.hydration ? std::optional(percent(*bake.hydration)) : std::nullopt;
}

TrendPoint point_of(const journal::BakeEntry& bake, double x, const BakeMean& y) {
    TrendPoint point;
    point.bake = bake.bake.id;
    point.date = bake.bake.date;
    point.title = bake.bake.title;
    point.x = x;
    point.y = y.value;
    point.slices = y.slices;
    return point;
}

std::vector<TrendPoint> point_of_dough(const journal::BakeEntry& bake,
                                       const TrendQuestion& question) {
    const auto x = x_of(bake, question);
    const auto y = x ? bake_mean(bake, question.measure, question.ends) : std::nullopt;
    if (!y) return {};
    return {point_of(bake, *x, *y)};
}

// Loaves proved alike were proved together: one point.
class PointsOfLoaves {
  public:
    explicit PointsOfLoaves(Trend& trend) : trend_(trend) {}

    std::vector<TrendPoint> of(const journal::BakeEntry& bake) {
        std::map<double, std::vector<std::pair<int, BakeMean>>> by_minutes;
        for (const journal::LoafEntry& loaf : bake.loaves) {
            const auto y = loaf_mean(loaf, trend_.question.measure, trend_.question.ends);
            if (!y) continue;
            if (const auto x = minutes_of(bake, loaf.loaf))
                by_minutes[*x].emplace_back(loaf.loaf.number, *y);
        }
        std::vector<TrendPoint> points;
        for (const auto& [minutes, loaves] : by_minutes) {
            std::vector<BakeMean> means;
            for (const auto& [number, mean] : loaves)
                means.push_back(mean);
            TrendPoint point = point_of(bake, minutes, *mean_of(means));
            for (const auto& [number, mean] : loaves)
                point.loaves.push_back(number);
            point.split_dough = by_minutes.size() > 1;
            points.push_back(std::move(point));
        }
        return points;
    }

  private:
    std::optional<double> minutes_of(const journal::BakeEntry& bake, const journal::Loaf& loaf) {
        const auto proof = proof_of(bake, loaf);
        if (!proof) return std::nullopt;
        if (trend_.question.against == Against::proof) return proof->lasted.count();
        if (!proof->temperature_known()) return std::nullopt;
        const ProofDoubling doubling = doubling_for(trend_.question.doublings, leaven_of(bake));
        const auto weighted = at_common_temperature(*proof, doubling.degrees);
        if (!weighted) {
            ++trend_.outside_temperature;
            return std::nullopt;
        }
        if (std::ranges::find(trend_.doublings, doubling.leaven, &ProofDoubling::leaven) ==
            trend_.doublings.end())
            trend_.doublings.push_back(doubling);
        return weighted->count();
    }

    Trend& trend_;
};

std::string words_of(const std::vector<journal::BagId>& bags, const TrendQuestion& question) {
    std::vector<std::string> parts;
    for (const journal::BagId bag : bags) {
        const auto known = question.bag_words.find(bag);
        parts.push_back(known != question.bag_words.end() ? known->second
                                                          : "bag " + std::to_string(bag.value));
    }
    return parts.empty() ? "bag not noted" : joined(parts);
}

// Groups by what bakes are grouped by: flour, over protein the kind of the flour, or flour and bag.
class Groups {
  public:
    explicit Groups(const TrendQuestion& question) : question_(question) {}

    TrendGroup& of(const journal::BakeEntry& bake, const journal::FlourShare& flour) {
        Key key{flour.flour.value, {}, {}};
        if (question_.against == Against::protein)
            key = {0, question_.kinds.at(flour.flour).name, {}};
        else if (question_.split == Split::bag)
            std::get<2>(key) = bags_of(bake, flour.flour);
        const auto [place, fresh] = groups_.try_emplace(key);
        TrendGroup& group = place->second;
        if (fresh) {
            group.flour = flour.flour;
            group.name = question_.against == Against::protein ? std::get<1>(key) : flour.name;
            if (question_.split == Split::bag && question_.against != Against::protein) {
                group.bags = std::get<2>(key);
                group.bag = words_of(group.bags, question_);
            }
        }
        return group;
    }

    std::vector<TrendGroup> take() {
        std::vector<TrendGroup> list;
        for (auto& [key, group] : groups_)
            list.push_back(std::move(group));
        return list;
    }

  private:
    using Key = std::tuple<std::int64_t, std::string, std::vector<journal::BagId>>;
    const TrendQuestion& question_;
    std::map<Key, TrendGroup> groups_;
};

void put_in_order(std::vector<TrendGroup>& groups) {
    for (TrendGroup& group : groups)
        std::ranges::sort(group.points, {},
                          [](const TrendPoint& p) { return std::tuple(p.x, p.date, p.bake); });
    std::ranges::sort(groups, {}, [](const TrendGroup& group) {
        return std::tuple(-std::ssize(group.points), group.name, group.flour, group.bags);
    });
}

}  // namespace

void collect_points(const std::vector<journal::BakeEntry>& bakes, Trend& trend) {
    const TrendQuestion& question = trend.question;
    Groups groups(question);
    PointsOfLoaves of_loaves(trend);
    ReadingNotes notes;
    for (const journal::BakeEntry& bake : bakes) {
        const journal::FlourShare* flour = main_flour(bake);
        if (question.flour && (!flour || flour->flour != *question.flour)) continue;
        if (bake.bake.set_aside) {
            ++trend.set_aside;
            continue;
        }
        if (question.ends == EndSlices::left_out)
            trend.end_slices += end_slices(bake, question.measure);
        trend.poor_readings += poor_readings(bake);
        const int outside = trend.outside_temperature;
        std::vector<TrendPoint> points = !flour ? std::vector<TrendPoint>{}
                                         : is_of_loaves(question.against)
                                             ? of_loaves.of(bake)
                                             : point_of_dough(bake, question);
        if (points.empty()) {
            if (trend.outside_temperature == outside) ++trend.without_value;
            continue;
        }
        notes.add(bake);
        TrendGroup& group = groups.of(bake, *flour);
        for (TrendPoint& point : points)
            group.points.push_back(std::move(point));
    }
    trend.groups = groups.take();
    put_in_order(trend.groups);
    trend.notes = notes.of_versions();
}

void collect_points(const journal::MeasuredBakes& bakes, Trend& trend) {
    const TrendQuestion& question = trend.question;
    std::map<journal::FlourId, TrendGroup> groups;
    ReadingNotes notes;
    for (const journal::MeasuredBake& bake : bakes.bakes) {
        if (question.flour && bake.main_flour != question.flour) continue;
        if (bake.set_aside) {
            ++trend.set_aside;
            continue;
        }
        const auto slices = bakes.of(bake);
        if (question.ends == EndSlices::left_out)
            trend.end_slices +=
                static_cast<int>(std::ranges::count_if(slices, &journal::MeasuredSlice::at_end));
        trend.poor_readings += bake.left_out;
        const auto mean = bake_mean(slices, question.ends);
        const auto x = x_of(bake, question.against);
        if (!bake.main_flour || !mean || !x) {
            ++trend.without_value;
            continue;
        }
        if (bakes.analysis_versions.size() > 1)
            for (const journal::MeasuredSlice& slice : slices)
                notes.add_version(bakes.analysis_versions[slice.version]);
        TrendGroup& group = groups[*bake.main_flour];
        TrendPoint& point = group.points.emplace_back();
        point.bake = bake.id;
        point.date = bake.date;
        point.title = bake.title;
        point.x = *x;
        point.y = mean->value;
        point.slices = mean->slices;
    }
    for (auto& [flour, group] : groups) {
        group.flour = flour;
        group.name = bakes.flours.at(flour);
        trend.groups.push_back(std::move(group));
    }
    put_in_order(trend.groups);
    trend.notes = notes.of_versions();
}

}  // namespace loafmark::insight
