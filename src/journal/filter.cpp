#include "journal/filter.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <variant>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "journal/bakes.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

// What a field is asked of, and how: an SQL expression over the rows bake and bake_day, or loaf, or
// slice.
enum class Level { bake, slice };
struct FieldSource {
    Field field;
    Level level;
    const char* sql;
};

constexpr const char* hydration_percent_sql =
    "(SELECT 100 * sum(m.mass_g * m.water_fraction) / sum(m.mass_g * m.flour_fraction) "
    "FROM mixed_amount AS m WHERE m.bake = bake.id)";

constexpr std::array field_sources{
    FieldSource{
        {"hydration_percent", "hydration as mixed", "%"}, Level::bake, hydration_percent_sql},
    FieldSource{{"prefermented_flour_percent", "pre-fermented flour", "%"},
                Level::bake,
                "(SELECT 100 * sum(m.mass_g * m.flour_fraction * (m.kind = 'leaven')) / "
                "sum(m.mass_g * m.flour_fraction) FROM mixed_amount AS m WHERE m.bake = bake.id)"},
    FieldSource{{"salt_percent", "salt on all flour", "%"},
                Level::bake,
                "(SELECT 100 * sum(m.mass_g * (m.kind = 'salt')) / "
                "sum(m.mass_g * m.flour_fraction) FROM mixed_amount AS m WHERE m.bake = bake.id)"},
    FieldSource{
        {"room_temperature", "room temperature", "C"}, Level::bake, "bake_day.room_temperature_c"},
    FieldSource{
        {"dough_temperature", "dough temperature", "C"}, Level::bake, "bake.dough_temperature_c"},
    FieldSource{{"dough_mass", "the loaf's dough mass", "g"}, Level::slice, "loaf.dough_mass_g"},
    FieldSource{{"baked_mass", "the loaf's baked mass", "g"}, Level::slice, "loaf.baked_mass_g"},
    FieldSource{{"slice_mass", "slice mass", "g"}, Level::slice, "slice.mass_g"},
    FieldSource{{"slice_thickness", "slice thickness, mean", "mm"},
                Level::slice,
                "(SELECT avg(t.thickness_mm) FROM slice_thickness AS t WHERE t.slice = slice.id)"},
    FieldSource{
        {"hours_since_oven", "hours since the oven", "h"}, Level::slice, "slice.since_oven_h"},
};

constexpr auto field_table = [] {
    std::array<Field, field_sources.size()> table{};
    for (std::size_t i = 0; i < table.size(); ++i)
        table[i] = field_sources[i].field;
    return table;
}();

constexpr const char* measure_sql =
    "(SELECT v.value FROM reading_value AS v WHERE v.key = ? AND v.reading = "
    "(SELECT max(r.id) FROM reading AS r WHERE r.slice = slice.id))";

// Conditions of one WHERE, with their parameters in order.
class Conditions {
  public:
    template <class... Values>
    void add(const std::string& condition, const Values&... values) {
        sql_ += (sql_.empty() ? "" : " AND ") + condition;
        (values_.emplace_back(values), ...);
    }
    void add(const Conditions& others) {
        if (others.sql_.empty()) return;
        sql_ += (sql_.empty() ? "" : " AND ") + others.sql_;
        values_.insert(values_.end(), others.values_.begin(), others.values_.end());
    }
    // The expression within the range. Its ends give way a hair, so that a hydration worked out as
    // 65.99999999999999 is one of 66 % and up.
    template <class... Values>
    void add_range(const std::string& expression, std::optional<double> low,
                   std::optional<double> high, const Values&... values) {
        constexpr double hair = 1e-9;
        if (low) add(expression + " >= ?", values..., *low - hair * std::max(1.0, std::abs(*low)));
        if (high)
            add(expression + " <= ?", values..., *high + hair * std::max(1.0, std::abs(*high)));
    }

    [[nodiscard]] bool empty() const { return sql_.empty(); }
    [[nodiscard]] std::string sql() const { return sql_.empty() ? "1" : sql_; }
    void enclose(const std::string& before, const std::string& after) {
        sql_ = before + sql_ + after;
    }
    void bind(SQLite::Statement& statement) const {
        int index = 0;
        for (const auto& value : values_)
            std::visit([&](const auto& v) { bind_value(statement, ++index, v); }, value);
    }

  private:
    std::string sql_;
    std::vector<std::variant<std::int64_t, double, std::string>> values_;
};

[[noreturn]] void refuse_key(const std::string& key) {
    std::vector<std::string> known;
    for (const MeasureInfo& measure : measure_catalogue)
        known.emplace_back(measure.key);
    for (const Field& field : field_table)
        known.emplace_back(field.key);
    throw NotFound("there is no measure or field '" + key + "'", near_names(key, known));
}

void add_where(Conditions& of_bake, Conditions& of_slice, const Condition& condition) {
    const auto& [low, high] = condition.range;
    if (measure_of_key(condition.key))
        return of_slice.add_range(measure_sql, low, high, condition.key);
    const auto source =
        std::ranges::find(field_sources, condition.key, [](auto& s) { return s.field.key; });
    if (source == field_sources.end()) refuse_key(condition.key);
    (source->level == Level::bake ? of_bake : of_slice).add_range(source->sql, low, high);
}

void add_text(Conditions& conditions, const std::string& text) {
    const std::string wanted = folded(text);
    conditions.add(
        "(instr(folded(bake.title), ?) OR instr(folded(bake.notes), ?) "
        "OR instr(folded(bake.handling), ?) OR instr(formula.name_folded, ?))",
        wanted, wanted, wanted, wanted);
}

Conditions conditions_of(const Filter& filter) {
    Conditions all;
    if (filter.flour)
        all.add(
            "bake.id IN (SELECT m.bake FROM mixed_amount AS m "
            "WHERE m.flour = ? AND m.mass_g * m.flour_fraction > 0)",
            filter.flour->value);
    if (filter.grain)
        all.add(
            "bake.id IN (SELECT m.bake FROM mixed_amount AS m JOIN flour AS f "
            "ON f.id = m.flour WHERE folded(f.grain) = ? AND m.mass_g * m.flour_fraction > 0)",
            folded(*filter.grain));
    if (filter.formula) all.add("formula.id = ?", filter.formula->value);
    if (filter.since) all.add("bake_day.date >= ?", to_text(*filter.since));
    if (filter.until) all.add("bake_day.date <= ?", to_text(*filter.until));
    if (filter.text) add_text(all, *filter.text);
    if (const auto& hydration = filter.hydration) {
        const auto in_percent = [](std::optional<Fraction> end) {
            return end ? std::optional(percent(*end)) : std::nullopt;
        };
        all.add_range(hydration_percent_sql, in_percent(hydration->low),
                      in_percent(hydration->high));
    }
    Conditions of_slice;
    for (const Condition& condition : filter.where)
        add_where(all, of_slice, condition);
    if (!of_slice.empty()) {
        of_slice.enclose(
            "EXISTS (SELECT 1 FROM loaf LEFT JOIN slice ON slice.loaf = loaf.id "
            "WHERE loaf.bake = bake.id AND ",
            ")");
        all.add(of_slice);
    }
    return all;
}

}  // namespace

std::span<const Field> fields() {
    return field_table;
}

Condition parse_condition(std::string_view text) {
    const std::string_view rest = trimmed(text);
    const std::size_t blank = rest.find_first_of(" \t");
    if (blank == std::string_view::npos)
        throw QuantityError("'" + std::string(rest) +
                            "' is not a condition; write it like 'openness 0.3..'");
    return {std::string(rest.substr(0, blank)), parse_range(rest.substr(blank))};
}

std::vector<BakeId> matching_bakes(const Store& store, const Filter& filter) {
    const Conditions conditions = conditions_of(filter);
    SQLite::Statement statement(
        store.db,
        "SELECT bake.id FROM bake JOIN bake_day ON bake_day.id = bake.bake_day "
        "JOIN formula_version ON formula_version.id = bake.formula_version "
        "JOIN formula ON formula.id = formula_version.formula WHERE " +
            conditions.sql());
    conditions.bind(statement);
    std::vector<BakeId> ids;
    while (statement.executeStep())
        ids.push_back(Row(statement).take<BakeId>());
    return ids;
}

}  // namespace loafmark::journal
