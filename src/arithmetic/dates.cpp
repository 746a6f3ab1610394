#include "arithmetic/dates.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <cstdio>
#include <optional>
#include <vector>

#include "arithmetic/numbers.h"

namespace loafmark {
namespace {

constexpr std::array<std::string_view, 12> month_names{
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

std::chrono::year_month_day calendar(Date date) {
    return {std::chrono::year(date.year), std::chrono::month(static_cast<unsigned>(date.month)),
            std::chrono::day(static_cast<unsigned>(date.day))};
}

int days_in(int year, int month) {
    const std::chrono::year_month_day_last last(
        std::chrono::year(year),
        std::chrono::month_day_last(std::chrono::month(static_cast<unsigned>(month))));
    return static_cast<int>(static_cast<unsigned>(last.day()));
}

std::optional<int> whole_number(std::string_view text, std::size_t most_digits) {
    int number = 0;
    const char* const end = text.data() + text.size();
    const auto [stopped, error] = std::from_chars(text.data(), end, number);
    if (text.empty() || text.size() > most_digits || error != std::errc() || stopped != end ||
        number < 0)
        return std::nullopt;
    return number;
}

// "March" or "mar" is 3.
std::optional<int> month_of_name(std::string_view name) {
    const std::string lower = ascii_lower(name);
    for (std::size_t i = 0; i < month_names.size(); ++i) {
        const std::string month = ascii_lower(month_names[i]);
        if (lower == month || lower == month.substr(0, 3)) return static_cast<int>(i) + 1;
    }
    return std::nullopt;
}

std::vector<std::string_view> split(std::string_view text, char at) {
    std::vector<std::string_view> parts;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find(at, begin), text.size());
        if (end > begin || at != ' ') parts.push_back(text.substr(begin, end - begin));
        begin = end + 1;
    }
    return parts;
}

// The three numbers of a date, not yet checked; no year where none was written.
struct Written {
    std::optional<int> year;
    int month = 0;
    int day = 0;
};

std::optional<Written> read_iso(std::string_view text) {
    const auto parts = split(text, '-');
    if (parts.size() != 3 || parts[0].size() != 4) return std::nullopt;
    const auto year = whole_number(parts[0], 4);
    const auto month = whole_number(parts[1], 2);
    const auto day = whole_number(parts[2], 2);
    if (!year || !month || !day) return std::nullopt;
    return Written{year, *month, *day};
}

std::optional<Written> read_named(std::string_view text) {
    const auto parts = split(text, ' ');
    if (parts.size() != 2 && parts.size() != 3) return std::nullopt;
    const auto day = whole_number(parts[0], 2);
    const auto month = month_of_name(parts[1]);
    if (!day || !month) return std::nullopt;
    if (parts.size() == 2) return Written{std::nullopt, *month, *day};
    const auto year = whole_number(parts[2], 4);
    if (!year || parts[2].size() != 4) return std::nullopt;
    return Written{year, *month, *day};
}

// The latest year in which the day is not after today; leap days may lie eight years back.
Date latest(int month, int day, Date today) {
    for (int year = today.year; year > today.year - 9; --year)
        if (const Date date{year, month, day}; exists(date) && date <= today) return date;
    return {today.year, month, day};  // no such day in any year
}

[[noreturn]] void refuse_day(std::string_view text, Date date) {
    std::string why;
    if (date.year < 1)
        why = "years begin at 1";
    else if (date.month < 1 || date.month > 12)
        why = "months are 1 to 12";
    else
        why = std::string(month_names[static_cast<std::size_t>(date.month - 1)]) + " " +
              std::to_string(date.year) + " has days 1 to " +
              std::to_string(days_in(date.year, date.month));
    throw DateError("'" + std::string(text) + "' is not a day of the calendar; " + why);
}

}  // namespace

bool exists(Date date) {
    return date.year >= 1 && date.year <= 9999 && date.month >= 1 && date.month <= 12 &&
           date.day >= 1 && date.day <= days_in(date.year, date.month);
}

Date parse_date(std::string_view text, Date today) {
    const std::string_view trimmed_text = trimmed(text);
    const std::string lower = ascii_lower(trimmed_text);
    if (lower == "today") return today;
    if (lower == "yesterday") return days_after(today, -1);
    auto written = read_iso(trimmed_text);
    if (!written) written = read_named(trimmed_text);
    if (!written)
        throw DateError("'" + std::string(trimmed_text) +
                        "' is not a date; write it like 2026-03-01, 1 March, today or yesterday");
    const Date date = written->year ? Date{*written->year, written->month, written->day}
                                    : latest(written->month, written->day, today);
    if (!exists(date)) refuse_day(trimmed_text, date);
    return date;
}

std::string to_text(Date date) {
    std::array<char, 40> buffer{};
    const int length = std::snprintf(buffer.data(), buffer.size(), "%04d-%02d-%02d", date.year,
                                     date.month, date.day);
    return {buffer.data(), static_cast<std::size_t>(length)};
}

int days_between(Date from, Date to) {
    return static_cast<int>(
        (std::chrono::sys_days(calendar(to)) - std::chrono::sys_days(calendar(from))).count());
}

Date days_after(Date date, int days) {
    const std::chrono::year_month_day later(std::chrono::sys_days(calendar(date)) +
                                            std::chrono::days(days));
    return {static_cast<int>(later.year()), static_cast<int>(static_cast<unsigned>(later.month())),
            static_cast<int>(static_cast<unsigned>(later.day()))};
}

}  // namespace loafmark
