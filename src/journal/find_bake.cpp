#include <charconv>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "journal/bakes.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

struct Listed {
    BakeId id;
    Date date;
    std::string title;
};

// By date, then number.
template <class... Values>
std::vector<Listed> listed(const Store& store, const std::string& condition,
                           const Values&... values) {
    auto statement = prepared(store.db,
                              "SELECT bake.id, bake_day.date, title FROM bake "
                              "JOIN bake_day ON bake_day.id = bake.bake_day "
                              "WHERE dropped_at IS NULL AND " +
                                  condition + " ORDER BY bake_day.date, bake.id",
                              values...);
    std::vector<Listed> bakes;
    while (statement.executeStep()) {
        Row row(statement);
        Listed& bake = bakes.emplace_back();
        row.into(bake.id);
        row.into(bake.date);
        row.into(bake.title);
    }
    return bakes;
}

BakeId only_one(const std::vector<Listed>& bakes, std::string_view text) {
    if (bakes.size() == 1) return bakes.front().id;
    std::vector<std::string> lines;
    for (const Listed& bake : bakes)
        lines.push_back(std::to_string(bake.id.value) + ": " + to_text(bake.date) + " " +
                        bake.title);
    throw NotFound("several bakes fit '" + std::string(text) + "'", lines);
}

std::optional<std::int64_t> whole_number(std::string_view text) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (text.empty() || error != std::errc() || end != text.data() + text.size() || text[0] == '-')
        return std::nullopt;
    return number;
}

// How many bakes before the last: 0 for `last`, 2 for `last-2`.
std::optional<std::int64_t> places_before_last(std::string_view text) {
    const std::string lower = ascii_lower(text);
    if (lower == "last") return 0;
    if (!lower.starts_with("last-")) return std::nullopt;
    return whole_number(std::string_view(lower).substr(5));
}

BakeId before_last(const Store& store, std::string_view text, std::int64_t places) {
    auto statement = prepared(store.db,
                              "SELECT id FROM bake WHERE dropped_at IS NULL "
                              "ORDER BY id DESC LIMIT 1 OFFSET ?",
                              places);
    if (statement.executeStep()) return Row(statement).take<BakeId>();
    const int count =
        store.db.execAndGet("SELECT count(*) FROM bake WHERE dropped_at IS NULL").getInt();
    if (count == 0) throw NotFound("the journal has no bakes yet", {});
    throw NotFound(
        "there is no bake '" + std::string(text) + "'; the journal has " + std::to_string(count),
        {});
}

std::optional<Date> date_in(std::string_view text, Date today) {
    try {
        return parse_date(text, today);
    } catch (const DateError&) {
        return std::nullopt;  // then it may be part of a title
    }
}

BakeId by_title(const Store& store, std::string_view text) {
    const std::string target = folded(text);
    if (const auto whole = listed(store, "folded(title) = ?", target); !whole.empty())
        return only_one(whole, text);
    if (const auto part = listed(store, "instr(folded(title), ?) > 0", target);
        !part.empty() && !target.empty())
        return only_one(part, text);
    std::vector<std::string> titles;
    auto statement = prepared(store.db,
                              "SELECT DISTINCT title FROM bake "
                              "WHERE dropped_at IS NULL ORDER BY title");
    while (statement.executeStep())
        titles.push_back(Row(statement).take<std::string>());
    throw NotFound("there is no bake '" + std::string(text) + "'", near_names(text, titles));
}

}  // namespace

BakeId find_bake(const Store& store, std::string_view given, Date today) {
    const std::string_view text = trimmed(given);
    if (const auto places = places_before_last(text)) return before_last(store, text, *places);
    if (const auto number = whole_number(text))
        if (const auto bakes = listed(store, "bake.id = ?", *number); !bakes.empty())
            return bakes.front().id;
    if (const auto date = date_in(text, today)) {
        if (const auto bakes = listed(store, "bake_day.date = ?", *date); !bakes.empty())
            return only_one(bakes, text);
    }
    return by_title(store, text);
}

}  // namespace loafmark::journal
