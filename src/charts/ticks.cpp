#include "charts/ticks.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <cmath>
#include <string_view>

namespace loafmark::charts {
namespace {

using std::chrono::days;
using std::chrono::sys_days;
using std::chrono::year_month_day;

constexpr std::array<std::string_view, 12> months = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

double round_step(double span, int wanted) {
    const double rough = span / wanted;
    const double decade = std::pow(10, std::floor(std::log10(rough)));
    for (const double factor : {1.0, 2.0, 5.0})
        if (factor * decade >= rough * 0.999) return factor * decade;
    return 10 * decade;
}

std::string fixed(double value, int decimals) {
    std::array<char, 400> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value,
                                   std::chars_format::fixed, decimals)
                         .ptr;
    return {text.data(), end};
}

year_month_day calendar(double day) {
    return year_month_day(sys_days(days(static_cast<int>(std::floor(day)))));
}

std::string month_name(year_month_day date) {
    return std::string(months[static_cast<unsigned>(date.month()) - 1]);
}

std::string year_text(year_month_day date) {
    return std::to_string(static_cast<int>(date.year()));
}

std::vector<Tick> ticks_by_days(double low, double high, int step) {
    std::vector<Tick> ticks;
    for (double day = std::ceil(low); day <= high; day += step) {
        const year_month_day date = calendar(day);
        ticks.push_back(
            {day, std::to_string(static_cast<unsigned>(date.day())) + " " + month_name(date)});
    }
    return ticks;
}

// On firsts of a month; `step` divides 12 or is a multiple of it.
std::vector<Tick> ticks_by_months(double low, double high, int step) {
    std::vector<Tick> ticks;
    const year_month_day first = calendar(low);
    int month = static_cast<int>(first.year()) * 12 +
                static_cast<int>(static_cast<unsigned>(first.month())) - 1;
    month -= month % step;
    for (;; month += step) {
        const year_month_day date(std::chrono::year(month / 12),
                                  std::chrono::month(static_cast<unsigned>(month % 12 + 1)),
                                  std::chrono::day(1));
        const auto day = static_cast<double>(sys_days(date).time_since_epoch().count());
        if (day > high) return ticks;
        if (day < low) continue;
        const bool names_year = ticks.empty() || month % 12 == 0;
        ticks.push_back({day, step >= 12   ? year_text(date)
                              : names_year ? month_name(date) + " " + year_text(date)
                                           : month_name(date)});
    }
}

}  // namespace

std::string short_number(double value) {
    std::array<char, 64> text{};
    const auto end =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::general, 6)
            .ptr;
    return {text.data(), end};
}

TickedRange number_ticks(double low, double high, int wanted) {
    if (!(high > low)) {
        const double margin = low == 0 ? 1 : std::abs(low) * 0.1;
        low -= margin;
        high += margin;
    }
    const double step = round_step(high - low, wanted);
    const int decimals = std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9)));
    const auto first = static_cast<long long>(std::floor(low / step + 1e-9));
    const auto last = static_cast<long long>(std::ceil(high / step - 1e-9));
    TickedRange range{static_cast<double>(first) * step, static_cast<double>(last) * step, {}};
    for (long long i = first; i <= last; ++i) {
        const double value = static_cast<double>(i) * step;
        range.ticks.push_back({value, fixed(i == 0 ? 0.0 : value, decimals)});
    }
    return range;
}

TickedRange date_ticks(double low, double high, int wanted) {
    const double margin = std::max(1.0, (high - low) * 0.04);
    TickedRange range{low - margin, high + margin, {}};
    const double span = range.high - range.low;
    for (const int step : {1, 2, 7, 14})
        if (span / step <= wanted) {
            range.ticks = ticks_by_days(range.low, range.high, step);
            return range;
        }
    constexpr double days_in_month = 30.44;
    int step = 12;
    for (const int months_apart : {6, 3, 2, 1})
        if (span / (days_in_month * months_apart) <= wanted) step = months_apart;
    while (span / (days_in_month * step) > wanted)
        step += 12;
    range.ticks = ticks_by_months(range.low, range.high, step);
    return range;
}

std::vector<Tick> log_ticks(double low, double high) {
    const bool short_range = high / low < 8;
    std::vector<Tick> ticks;
    for (int decade = static_cast<int>(std::floor(std::log10(low))); std::pow(10, decade) <= high;
         ++decade)
        for (int digit = 1; digit <= 9; ++digit) {
            if (!short_range && digit != 1 && digit != 2 && digit != 5) continue;
            const double value = digit * std::pow(10, decade);
            if (value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9))
                ticks.push_back({value, short_number(value)});
        }
    return ticks;
}

TickedRange ratio_ticks(double low, double high) {
    constexpr double beyond = 1.06;
    constexpr double short_range = 3;
    TickedRange range{low / beyond, high * beyond, {}};
    if (range.high / range.low < 1.3) range = {low / 1.2, high * 1.2, {}};
    if (range.high / range.low > short_range) {
        range.ticks = log_ticks(range.low, range.high);
        return range;
    }
    for (const Tick& tick : number_ticks(range.low, range.high, 6).ticks)
        if (tick.value >= range.low && tick.value <= range.high) range.ticks.push_back(tick);
    return range;
}

}  // namespace loafmark::charts
