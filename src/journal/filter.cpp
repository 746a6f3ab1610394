#include "journal/filter.h"

#include <algorithm>
#include <set>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "journal/bakes.h"
#include "journal/conditions.h"
#include "journal/fields.h"
#include "journal/parts_conditions.h"

namespace loafmark::journal {
namespace {

[[noreturn]] void refuse_key(const std::string& key) {
    std::vector<std::string> known;
    for (const MeasureInfo& measure : measure_catalogue)
        known.emplace_back(measure.key);
    for (const FieldSource& source : field_sources())
        known.emplace_back(source.field.key);
    throw NotFound("there is no measure or field '" + key + "'", near_names(key, known));
}

void add_where(Conditions& of_bake, const Condition& condition) {
    if (is_of_parts(condition.key)) return;
    const FieldSource* const source = source_of(condition.key);
    if (!source) refuse_key(condition.key);
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

// What is asked of the bake itself and its day.
Conditions conditions_of_bake(const Filter& filter) {
    Conditions all;
    all.add("bake.dropped_at IS NULL");
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
    for (const Condition& condition : filter.where)
        add_where(all, condition);
    return all;
}

bool by_measure(const Filter& filter) {
    return filter.order && measure_in_readings(filter.order->key);
}

bool by_date(const Filter& filter) {
    return !filter.order || filter.order->key == "date";
}

struct Asked {
    Conditions conditions;
    bool few = false;  // bakes at most
};

// A page in an order that there is an index of is filled by looking at one bake after the other,
// unless few fit one of the conditions: then those are looked at, and no others.
Asked asked_of(const Store& store, const Filter& filter, int few_bakes) {
    Asked asked{conditions_of_bake(filter), false};
    const bool a_page = filter.limit && (by_date(filter) || by_measure(filter));
    for (const PartsCondition& parts : parts_conditions(store, filter, few_bakes)) {
        const auto few =
            a_page && !asked.few ? listed_if_few(store, parts, few_bakes) : std::nullopt;
        if (few) {
            std::string list;
            for (const BakeId bake : *few)
                list += (list.empty() ? "" : ",") + std::to_string(bake.value);
            asked.conditions.add("bake.id IN (" + list + ")");
            asked.few = true;
        } else if (a_page) {
            add_one_by_one(asked.conditions, parts);
        } else {
            add_as_list(asked.conditions, parts);
        }
    }
    return asked;
}

constexpr const char* tables =
    "bake JOIN bake_day ON bake_day.id = bake.bake_day "
    "LEFT JOIN bake_figures AS figures ON figures.bake = bake.id";
// From day to day: a page that many fit is full after a few days. SQLite, which cannot know how
// many will fit, is not asked.
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
                           const Asked& asked, std::int64_t limit, std::size_t skip) {
    const std::string first =
        order && !(order->key == "date" && !order->descending)
            ? order_expression(*order) +
                  (order->descending ? " DESC NULLS LAST, " : " ASC NULLS LAST, ")
            : "";
    const bool day_by_day = limit >= 0 && !asked.few && (!order || order->key == "date");
    SQLite::Statement statement(store.db, std::string("SELECT bake.id FROM ") +
                                              (day_by_day ? tables_by_day : tables) + " WHERE " +
                                              asked.conditions.sql() + " ORDER BY " + first +
                                              "bake_day.date, bake.id LIMIT ? OFFSET ?");
    const int next = asked.conditions.bind(statement);
    bind_value(statement, next, limit);
    bind_value(statement, next + 1, skip);
    return statement;
}

// Those of which the measure is not known come last.
std::vector<BakeId> page_by_measure(const Store& store, const Filter& filter, const Asked& asked) {
    const std::size_t wanted = filter.limit ? filter.skip + *filter.limit : SIZE_MAX;
    std::set<BakeId> seen;
    std::vector<BakeId> ids;
    const auto take = [&](SQLite::Statement statement) {
        while (ids.size() < wanted && statement.executeStep())
            if (const auto id = Row(statement).take<BakeId>(); seen.insert(id).second)
                ids.push_back(id);
    };
    take(in_order_of_measure(store, *filter.order, asked.conditions));
    if (ids.size() < wanted) take(in_order(store, std::nullopt, asked, -1, 0));
    ids.erase(ids.begin(),
              ids.begin() + static_cast<std::ptrdiff_t>(std::min(filter.skip, ids.size())));
    return ids;
}

SQLite::Statement page(const Store& store, const Filter& filter, const Asked& asked) {
    if (by_measure(filter)) return in_order_of_measure(store, *filter.order, asked.conditions);
    return in_order(store, filter.order, asked,
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

std::vector<BakeId> matching_bakes(const Store& store, const Filter& filter, int few) {
    const Asked asked = asked_of(store, filter, few);
    if (by_measure(filter)) return page_by_measure(store, filter, asked);
    SQLite::Statement statement = page(store, filter, asked);
    std::vector<BakeId> ids;
    while (statement.executeStep())
        ids.push_back(Row(statement).take<BakeId>());
    return ids;
}

std::vector<std::string> query_plan(const Store& store, const Filter& filter) {
    SQLite::Statement plan(
        store.db, "EXPLAIN QUERY PLAN " +
                      page(store, filter, asked_of(store, filter, few_bakes)).getExpandedSQL());
    std::vector<std::string> lines;
    while (plan.executeStep())
        lines.push_back(plan.getColumn(3).getString());
    return lines;
}

}  // namespace loafmark::journal
