#include "journal/filter.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <variant>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "journal/bakes.h"
#include "journal/fields.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

// Conditions of one WHERE, with their parameters in order.
class Conditions {
  public:
    template <class... Values>
    void add(const std::string& condition, const Values&... values) {
        sql_ += (sql_.empty() ? "" : " AND ") + condition;
        (values_.emplace_back(values), ...);
    }
    // `before`, the others, `after`.
    void add_enclosed(const std::string& before, const Conditions& others,
                      const std::string& after) {
        add(before + others.sql_ + after);
        values_.insert(values_.end(), others.values_.begin(), others.values_.end());
    }
    // The expression within the range. Its ends give way a hair, so that a hydration worked out as
    // 65.99999999999999 is one of 66 % and up.
    void add_range(const std::string& expression, std::optional<double> low,
                   std::optional<double> high) {
        constexpr double hair = 1e-9;
        if (low) add(expression + " >= ?", *low - hair * std::max(1.0, std::abs(*low)));
        if (high) add(expression + " <= ?", *high + hair * std::max(1.0, std::abs(*high)));
        if (!low && !high) add(expression + " IS NOT NULL");
    }

    [[nodiscard]] bool empty() const { return sql_.empty(); }
    [[nodiscard]] const std::string& sql() const { return sql_; }
    // From parameter `index` on; the next free one.
    int bind(SQLite::Statement& statement, int index = 1) const {
        for (const auto& value : values_)
            std::visit([&](const auto& v) { bind_value(statement, index++, v); }, value);
        return index;
    }

  private:
    std::string sql_;
    std::vector<std::variant<std::int64_t, double, std::string>> values_;
};

[[noreturn]] void refuse_key(const std::string& key) {
    std::vector<std::string> known;
    for (const MeasureInfo& measure : measure_catalogue)
        known.emplace_back(measure.key);
    for (const FieldSource& source : field_sources())
        known.emplace_back(source.field.key);
    throw NotFound("there is no measure or field '" + key + "'", near_names(key, known));
}

// What must hold together for one slice of a bake. Measures come first: the values of the newest
// readings lie in an index by key and value, from which slice and bake are read too.
class OfSlice {
  public:
    void add(const std::string& key, const Range& range) {
        Conditions of_value;
        of_value.add("key = ?", key);
        of_value.add_range("value", range.low, range.high);
        if (measures_++ == 0)
            conditions_.add_enclosed("", of_value, "");
        else
            conditions_.add_enclosed("v0.slice IN (SELECT slice FROM slice_value WHERE ", of_value,
                                     ")");
    }
    void add(const FieldSource& source, const Condition& condition) {
        (source.level == Level::slice ? with_slice_ : with_loaf_) = true;
        if (condition.word)
            fields_.add(std::string("instr(folded(") + source.sql + "), ?)",
                        folded(*condition.word));
        else
            fields_.add_range(source.sql, condition.range.low, condition.range.high);
    }
    void add_to(Conditions& all) {
        if (measures_ == 0 && !with_slice_ && !with_loaf_) return;
        std::string from = "slice_value AS v0";
        if (measures_ > 0) {
            if (with_slice_ || with_loaf_) from += " JOIN slice ON slice.id = v0.slice";
            if (with_loaf_) from += " JOIN loaf ON loaf.id = slice.loaf";
        } else {
            from = "loaf";
            if (with_slice_)
                from += " LEFT JOIN slice ON slice.loaf = loaf.id AND slice.dropped_at IS NULL";
        }
        if (!fields_.empty()) conditions_.add_enclosed("", fields_, "");
        all.add_enclosed(std::string("bake.id IN (SELECT ") +
                             (measures_ > 0 ? "v0.bake" : "loaf.bake") + " FROM " + from +
                             " WHERE ",
                         conditions_, ")");
    }

  private:
    int measures_ = 0;
    bool with_slice_ = false;
    bool with_loaf_ = false;
    Conditions conditions_;
    Conditions fields_;
};

void add_where(Conditions& of_bake, OfSlice& of_slice, const Condition& condition) {
    if (measure_of_key(condition.key)) return of_slice.add(condition.key, condition.range);
    const FieldSource* const source = source_of(condition.key);
    if (!source) refuse_key(condition.key);
    if (source->level == Level::loaf || source->level == Level::slice)
        return of_slice.add(*source, condition);
    if (condition.word)
        of_bake.add(std::string("instr(folded(") + source->sql + "), ?)", folded(*condition.word));
    else
        of_bake.add_range(source->sql, condition.range.low, condition.range.high);
}

// Code points of UTF-8.
std::size_t length_of(std::string_view text) {
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char c) { return (c & 0xC0) != 0x80; }));
}

// The words of three letters and more, as the index of texts is asked for them; "" where none is so
// long. It finds a superset of what holds the text as it stands, blanks and all.
std::string index_query(const std::string& text) {
    std::string query;
    std::string word;
    for (const char c : text + " ") {
        if (c != ' ') {
            word += c == '"' ? "\"\"" : std::string(1, c);
            continue;
        }
        if (length_of(word) >= 3) query += (query.empty() ? "\"" : " AND \"") + word + "\"";
        word.clear();
    }
    return query;
}

void add_text(Conditions& conditions, const std::string& text) {
    const std::string wanted = folded(text);
    const auto as_it_stands = [](const std::string& bake) {
        return "instr(folded(" + bake + ".title), ?) OR instr(folded(" + bake +
               ".notes), ?) OR instr(folded(" + bake + ".handling), ?)";
    };
    const std::string or_formula =
        " OR bake.formula_version IN (SELECT v.id FROM formula JOIN formula_version AS v "
        "ON v.formula = formula.id WHERE instr(formula.name_folded, ?)))";
    const std::string query = index_query(wanted);
    if (query.empty())
        conditions.add("(" + as_it_stands("bake") + or_formula, wanted, wanted, wanted, wanted);
    else if (wanted.find(' ') == std::string::npos)
        conditions.add(
            "(bake.id IN (SELECT rowid FROM bake_text WHERE bake_text MATCH ?)" + or_formula, query,
            wanted);
    else
        conditions.add(
            "(bake.id IN (SELECT b.id FROM bake_text AS t JOIN bake AS b ON b.id = t.rowid "
            "WHERE t.bake_text MATCH ? AND (" +
                as_it_stands("b") + "))" + or_formula,
            query, wanted, wanted, wanted, wanted);
}

void add_share(Conditions& all, const ShareCondition& condition) {
    Conditions share;
    const auto end = [](std::optional<Fraction> fraction) {
        return fraction ? std::optional(fraction->count()) : std::nullopt;
    };
    share.add_range("sum(m.mass_g * m.flour_fraction) / f.flour_g", end(condition.share.low),
                    end(condition.share.high));
    all.add_enclosed(
        "bake.id IN (SELECT m.bake FROM mixed_amount AS m JOIN bake_figures AS f "
        "ON f.bake = m.bake WHERE m.flour = " +
            std::to_string(condition.flour.value) + " GROUP BY m.bake HAVING ",
        share, ")");
}

Conditions conditions_of(const Filter& filter) {
    Conditions all;
    all.add("bake.dropped_at IS NULL");
    if (filter.flour)
        all.add(
            "bake.id IN (SELECT m.bake FROM mixed_amount AS m "
            "WHERE m.flour = ? AND m.mass_g * m.flour_fraction > 0)",
            filter.flour->value);
    if (filter.grain)
        all.add(
            "bake.id IN (SELECT m.bake FROM mixed_amount AS m WHERE m.flour IN "
            "(SELECT id FROM flour WHERE folded(grain) = ?) AND m.mass_g * m.flour_fraction > 0)",
            folded(*filter.grain));
    if (filter.bag)
        all.add("bake.id IN (SELECT m.bake FROM mixed_amount AS m WHERE m.bag = ?)",
                filter.bag->value);
    for (const ShareCondition& share : filter.shares)
        add_share(all, share);
    if (filter.formula)
        all.add("bake.formula_version IN (SELECT id FROM formula_version WHERE formula = ?)",
                filter.formula->value);
    if (filter.since) all.add("bake_day.date >= ?", to_text(*filter.since));
    if (filter.until) all.add("bake_day.date <= ?", to_text(*filter.until));
    if (filter.text) add_text(all, *filter.text);
    if (const auto& hydration = filter.hydration) {
        const auto in_percent = [](std::optional<Fraction> end) {
            return end ? std::optional(percent(*end)) : std::nullopt;
        };
        all.add_range("+figures.hydration_percent", in_percent(hydration->low),
                      in_percent(hydration->high));
    }
    OfSlice of_slice;
    for (const Condition& condition : filter.where)
        add_where(all, of_slice, condition);
    of_slice.add_to(all);
    return all;
}

constexpr const char* tables =
    "bake JOIN bake_day ON bake_day.id = bake.bake_day "
    "LEFT JOIN bake_figures AS figures ON figures.bake = bake.id";
// From day to day: a page that many fit is full after a few days, and one that few fit costs no
// more than looking at each bake once. SQLite, which cannot know how many will fit, is not asked.
constexpr const char* tables_by_day =
    "bake_day CROSS JOIN bake ON bake.bake_day = bake_day.id "
    "LEFT JOIN bake_figures AS figures ON figures.bake = bake.id";

// The expression that bakes are ordered by, for all but measures.
std::string order_expression(const Order& order) {
    if (order.key == "date") return "bake_day.date";
    if (order.key == "number") return "bake.id";
    if (order.key == "title") return "folded(bake.title)";
    const FieldSource* const source = source_of(order.key);
    if (!source || source->field.words) refuse_key(order.key);
    const std::string first = order.descending ? "max(" : "min(";
    switch (source->level) {
        case Level::loaf:
            return "(SELECT " + first + source->sql + ") FROM loaf WHERE loaf.bake = bake.id)";
        case Level::slice:
            return "(SELECT " + first + source->sql +
                   ") FROM loaf JOIN slice ON slice.loaf = loaf.id WHERE loaf.bake = bake.id "
                   "AND slice.dropped_at IS NULL)";
        default:
            return source->sql;
    }
}

// Along the index of values, which has a row a slice, so that a page needs no sorting of all.
SQLite::Statement in_order_of_measure(const Store& store, const Order& order,
                                      const Conditions& conditions) {
    SQLite::Statement statement(
        store.db,
        "SELECT v.bake FROM slice_value AS v INDEXED BY slice_value_key "
        "CROSS JOIN bake ON bake.id = v.bake CROSS JOIN bake_day ON bake_day.id = bake.bake_day "
        "LEFT JOIN bake_figures AS figures ON figures.bake = bake.id WHERE v.key = ? AND " +
            conditions.sql() + " ORDER BY v.value" + (order.descending ? " DESC" : ""));
    bind_value(statement, 1, order.key);
    conditions.bind(statement, 2);
    return statement;
}

// `order` none: by date, then number.
SQLite::Statement in_order(const Store& store, const std::optional<Order>& order,
                           const Conditions& conditions, std::int64_t limit, std::size_t skip) {
    const std::string first =
        order && !(order->key == "date" && !order->descending)
            ? order_expression(*order) +
                  (order->descending ? " DESC NULLS LAST, " : " ASC NULLS LAST, ")
            : "";
    const bool day_by_day = limit >= 0 && (!order || order->key == "date");
    SQLite::Statement statement(store.db, std::string("SELECT bake.id FROM ") +
                                              (day_by_day ? tables_by_day : tables) + " WHERE " +
                                              conditions.sql() + " ORDER BY " + first +
                                              "bake_day.date, bake.id LIMIT ? OFFSET ?");
    const int next = conditions.bind(statement);
    bind_value(statement, next, limit);
    bind_value(statement, next + 1, skip);
    return statement;
}

// Those of which the measure is not known come last.
std::vector<BakeId> page_by_measure(const Store& store, const Filter& filter,
                                    const Conditions& conditions) {
    const std::size_t wanted = filter.limit ? filter.skip + *filter.limit : SIZE_MAX;
    std::set<BakeId> seen;
    std::vector<BakeId> ids;
    const auto take = [&](SQLite::Statement statement) {
        while (ids.size() < wanted && statement.executeStep())
            if (const auto id = Row(statement).take<BakeId>(); seen.insert(id).second)
                ids.push_back(id);
    };
    take(in_order_of_measure(store, *filter.order, conditions));
    if (ids.size() < wanted) take(in_order(store, std::nullopt, conditions, -1, 0));
    ids.erase(ids.begin(),
              ids.begin() + static_cast<std::ptrdiff_t>(std::min(filter.skip, ids.size())));
    return ids;
}

bool by_measure(const Filter& filter) {
    return filter.order && measure_of_key(filter.order->key);
}

SQLite::Statement page(const Store& store, const Filter& filter, const Conditions& conditions) {
    if (by_measure(filter)) return in_order_of_measure(store, *filter.order, conditions);
    return in_order(store, filter.order, conditions,
                    filter.limit ? static_cast<std::int64_t>(*filter.limit) : -1, filter.skip);
}

}  // namespace

Condition parse_condition(std::string_view text) {
    const std::string_view rest = trimmed(text);
    const std::size_t blank = rest.find_first_of(" \t");
    if (blank == std::string_view::npos)
        throw QuantityError("'" + std::string(rest) +
                            "' is not a condition; write it like 'openness 0.3..'");
    Condition condition{.key = std::string(rest.substr(0, blank)), .range = {}, .word = {}};
    const FieldSource* const source = source_of(condition.key);
    if (source && source->field.words)
        condition.word = std::string(trimmed(rest.substr(blank)));
    else
        condition.range = parse_range(rest.substr(blank));
    return condition;
}

std::vector<BakeId> matching_bakes(const Store& store, const Filter& filter) {
    const Conditions conditions = conditions_of(filter);
    if (by_measure(filter)) return page_by_measure(store, filter, conditions);
    SQLite::Statement statement = page(store, filter, conditions);
    std::vector<BakeId> ids;
    while (statement.executeStep())
        ids.push_back(Row(statement).take<BakeId>());
    return ids;
}

std::vector<std::string> query_plan(const Store& store, const Filter& filter) {
    SQLite::Statement plan(
        store.db,
        "EXPLAIN QUERY PLAN " + page(store, filter, conditions_of(filter)).getExpandedSQL());
    std::vector<std::string> lines;
    while (plan.executeStep())
        lines.push_back(plan.getColumn(3).getString());
    return lines;
}

}  // namespace loafmark::journal
