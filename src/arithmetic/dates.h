// Calendar days: read as people write them, checked, printed as ISO 8601 writes them.
#pragma once

#include <compare>
#include <stdexcept>
#include <string>
#include <string_view>

namespace loafmark {

// A day of the Gregorian calendar. Made by parse_date(), or checked with exists(), so that a Date
// that is kept anywhere is always a day that exists. Earlier days compare less.
struct Date {
    int year = 1970;
    int month = 1;  // 1 to 12
    int day = 1;    // 1 to 31
    auto operator<=>(const Date&) const = default;
};

// The text is no date, or names a day that does not exist; `what` quotes it and gives an example.
class DateError : public std::runtime_error {
    using std::runtime_error::runtime_error;
};

// Whether the calendar has this day: 2028-02-29 yes, 2026-02-29 no. Years 1 to 9999.
[[nodiscard]] bool exists(Date date);

// Reads `2026-03-01`, `1 March 2026`, `1 March`, `today` and `yesterday`; English names of months
// or their first three letters, in any case. A day without a year is the latest one that is not
// after `today`. Throws DateError.
[[nodiscard]] Date parse_date(std::string_view text, Date today);

// 2026-03-01. What parse_date() reads back as the same day.
[[nodiscard]] std::string to_text(Date date);

// Whole days from `from` to `to`; negative if `to` is earlier. Both must exist.
[[nodiscard]] int days_between(Date from, Date to);

// The day that many days later, or earlier if negative. `date` must exist.
[[nodiscard]] Date days_after(Date date, int days);

}  // namespace loafmark
