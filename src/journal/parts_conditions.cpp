#include "journal/parts_conditions.h"

#include <algorithm>

#include "arithmetic/near_names.h"
#include "journal/fields.h"

namespace loafmark::journal {
namespace {

PartsCondition of_flour(std::string tables, const Conditions& where) {
    const PartsCondition::Place place{std::move(tables), "m.bake"};
    return {.to_list = place, .of_a_bake = place, .where = where, .having = {}};
}

constexpr const char* amounts = "mixed_amount AS m";

PartsCondition with_flour(FlourId flour) {
    Conditions where;
    where.add("m.flour = ? AND m.mass_g * m.flour_fraction > 0", flour.value);
    return of_flour(amounts, where);
}

PartsCondition with_grain(const std::string& grain) {
    Conditions where;
    where.add(
        "m.flour IN (SELECT id FROM flour WHERE folded(grain) = ?) "
        "AND m.mass_g * m.flour_fraction > 0",
        folded(grain));
    return of_flour(amounts, where);
}

PartsCondition with_bag(BagId bag) {
    Conditions where;
    where.add("m.bag = ?", bag.value);
    return of_flour(amounts, where);
}

PartsCondition with_share(const ShareCondition& asked) {
    const auto end = [](std::optional<Fraction> fraction) {
        return fraction ? std::optional(fraction->count()) : std::nullopt;
    };
    Conditions where;
    where.add("m.flour = ?", asked.flour.value);
    PartsCondition condition =
        of_flour("mixed_amount AS m JOIN bake_figures AS f ON f.bake = m.bake", where);
    condition.having.add_range("sum(m.mass_g * m.flour_fraction) / f.flour_g", end(asked.share.low),
                               end(asked.share.high));
    return condition;
}

PartsCondition in_trial(TrialId trial) {
    const PartsCondition::Place place{"trial_bake AS t", "t.bake"};
    Conditions where;
    where.add("t.trial = ?", trial.value);
    return {.to_list = place, .of_a_bake = place, .where = where, .having = {}};
}

// What must hold together for one slice of a bake.
class OfSlice {
  public:
    void add(const std::string& key, const Range& range) { measures_.push_back({key, range}); }
    void add(const FieldSource& source, const Condition& condition) {
        (source.level == Level::slice ? with_slice_ : with_loaf_) = true;
        if (condition.word)
            fields_.add(std::string("instr(folded(") + source.sql + "), ?)",
                        folded(*condition.word));
        else
            fields_.add_range(source.sql, condition.range.low, condition.range.high);
    }
    [[nodiscard]] bool asks() const { return !measures_.empty() || with_slice_ || with_loaf_; }

    [[nodiscard]] PartsCondition condition(const Store& store, int few) {
        PartsCondition all = measures_.empty() ? of_fields() : of_measures(store, few);
        if (!fields_.empty()) all.where.add_enclosed("", fields_, "");
        return all;
    }

  private:
    struct OfMeasure {
        std::string key;
        Range range;
        int fitting = 0;  // slices, counted up to one more than a few
        [[nodiscard]] Conditions where(const std::string& table) const {
            Conditions where;
            where.add(table + ".key = ?", key);
            where.add_range(table + ".value", range.low, range.high);
            return where;
        }
    };

    [[nodiscard]] PartsCondition of_fields() const {
        PartsCondition all;
        all.to_list = {with_slice_ ? "loaf LEFT JOIN slice ON slice.loaf = loaf.id "
                                     "AND slice.dropped_at IS NULL"
                                   : "loaf",
                       "loaf.bake"};
        all.of_a_bake = all.to_list;
        return all;
    }

    // The values of the newest readings lie in an index by key and value, from which slice and bake
    // are read too. The measure that the fewest slices fit leads.
    [[nodiscard]] PartsCondition of_measures(const Store& store, int few) {
        for (OfMeasure& measure : measures_)
            measure.fitting = count(store, measure, few);
        std::ranges::stable_sort(measures_, {}, &OfMeasure::fitting);
        PartsCondition all;
        std::string tables = "slice_value AS v";
        if (with_slice_ || with_loaf_) tables += " JOIN slice ON slice.id = v.slice";
        if (with_loaf_) tables += " JOIN loaf ON loaf.id = slice.loaf";
        all.to_list = {tables, "v.bake"};
        all.of_a_bake = {
            "loaf CROSS JOIN slice ON slice.loaf = loaf.id "
            "CROSS JOIN slice_value AS v ON v.slice = slice.id",
            "loaf.bake"};
        all.where = measures_.front().where("v");
        for (auto other = measures_.begin() + 1; other != measures_.end(); ++other)
            all.where.add_enclosed(
                "EXISTS (SELECT 1 FROM slice_value AS w WHERE w.slice = v.slice "
                "AND ",
                other->where("w"), ")");
        all.many_at_any = measures_.front().fitting > few;
        return all;
    }

    static int count(const Store& store, const OfMeasure& measure, int few) {
        const Conditions where = measure.where("v");
        SQLite::Statement counted(
            store.db, "SELECT count(*) FROM (SELECT 1 FROM slice_value AS v WHERE " + where.sql() +
                          " LIMIT " + std::to_string(few + 1) + ")");
        where.bind(counted);
        counted.executeStep();
        return counted.getColumn(0).getInt();
    }

    std::vector<OfMeasure> measures_;
    bool with_slice_ = false;
    bool with_loaf_ = false;
    Conditions fields_;
};

// Behind "WHERE ".
Conditions whole(const PartsCondition& condition, const PartsCondition::Place& place) {
    Conditions whole = condition.where;
    if (!condition.having.empty())
        whole.add_behind(" GROUP BY " + place.bake + " HAVING ", condition.having);
    return whole;
}

std::string listing(const PartsCondition& condition) {
    return "SELECT " + condition.to_list.bake + " FROM " + condition.to_list.tables + " WHERE ";
}

}  // namespace

bool is_of_parts(const std::string& key) {
    if (measure_in_readings(key)) return true;
    const FieldSource* const source = source_of(key);
    return source && (source->level == Level::loaf || source->level == Level::slice);
}

std::vector<PartsCondition> parts_conditions(const Store& store, const Filter& filter, int few) {
    std::vector<PartsCondition> all;
    if (filter.trial) all.push_back(in_trial(*filter.trial));
    if (filter.flour) all.push_back(with_flour(*filter.flour));
    if (filter.grain) all.push_back(with_grain(*filter.grain));
    if (filter.bag) all.push_back(with_bag(*filter.bag));
    for (const ShareCondition& share : filter.shares)
        all.push_back(with_share(share));
    OfSlice of_slice;
    for (const Condition& condition : filter.where) {
        if (!is_of_parts(condition.key)) continue;
        if (measure_in_readings(condition.key))
            of_slice.add(condition.key, condition.range);
        else
            of_slice.add(*source_of(condition.key), condition);
    }
    if (of_slice.asks()) all.push_back(of_slice.condition(store, few));
    return all;
}

std::optional<std::vector<BakeId>> listed_if_few(const Store& store,
                                                 const PartsCondition& condition, int few) {
    if (condition.many_at_any) return std::nullopt;
    const Conditions where = whole(condition, condition.to_list);
    SQLite::Statement list(store.db,
                           listing(condition) + where.sql() + " LIMIT " + std::to_string(few + 1));
    where.bind(list);
    std::vector<BakeId> bakes;
    while (list.executeStep())
        bakes.push_back(Row(list).take<BakeId>());
    if (bakes.size() > static_cast<std::size_t>(few)) return std::nullopt;
    return bakes;
}

void add_as_list(Conditions& all, const PartsCondition& condition) {
    all.add_enclosed("bake.id IN (" + listing(condition), whole(condition, condition.to_list), ")");
}

void add_one_by_one(Conditions& all, const PartsCondition& condition) {
    const PartsCondition::Place& place = condition.of_a_bake;
    all.add_enclosed(
        "EXISTS (SELECT 1 FROM " + place.tables + " WHERE " + place.bake + " = bake.id AND ",
        whole(condition, place), ")");
}

}  // namespace loafmark::journal
