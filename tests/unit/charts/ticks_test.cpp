#include "charts/ticks.h"

#include "catch.h"

using namespace loafmark::charts;

namespace {

std::vector<std::string> labels(const std::vector<Tick>& ticks) {
    std::vector<std::string> all;
    for (const Tick& tick : ticks)
        all.push_back(tick.label);
    return all;
}

using Labels = std::vector<std::string>;

}  // namespace

TEST_CASE("numbers have ticks at round steps that hold all values") {
    CHECK(labels(number_ticks(61, 79, 5).ticks) == Labels{"60", "65", "70", "75", "80"});
    CHECK(labels(number_ticks(0.12, 0.41, 5).ticks) == Labels{"0.1", "0.2", "0.3", "0.4", "0.5"});
    CHECK(labels(number_ticks(-3, 4, 4).ticks) == Labels{"-4", "-2", "0", "2", "4"});
    CHECK(labels(number_ticks(0.001, 0.0034, 5).ticks) ==
          Labels{"0.0010", "0.0015", "0.0020", "0.0025", "0.0030", "0.0035"});
}

TEST_CASE("equal values get an axis too") {
    const TickedRange range = number_ticks(70, 70, 5);
    CHECK(range.low < 70);
    CHECK(range.high > 70);
    CHECK(number_ticks(0, 0, 5).high > 0);
}

TEST_CASE("every axis holds its data and has two ticks or more") {
    const double low = GENERATE(-1e6, -3.7, 0.0, 1e-9, 2.2, 5e8);
    const double span = GENERATE(1e-6, 0.3, 1.0, 42.0, 1e7);
    const TickedRange range = number_ticks(low, low + span, 5);
    CHECK(range.low <= low + 1e-3 * span);
    CHECK(range.high >= low + 0.999 * span);
    CHECK(range.ticks.size() >= 2);
    CHECK(range.ticks.size() <= 9);
}

TEST_CASE("dates have ticks by days, weeks, months or years") {
    // 20513 is 2026-03-01.
    CHECK(labels(date_ticks(20513, 20515, 5).ticks) ==
          Labels{"28 Feb", "1 Mar", "2 Mar", "3 Mar", "4 Mar"});
    CHECK(labels(date_ticks(20513, 20613, 5).ticks) == Labels{"Mar 2026", "Apr", "May", "Jun"});
    CHECK(labels(date_ticks(20513, 20913, 5).ticks) ==
          Labels{"Apr 2026", "Jul", "Oct", "Jan 2027", "Apr"});
    CHECK(labels(date_ticks(20513, 20513 + 3000, 5).ticks) ==
          Labels{"2026", "2028", "2030", "2032", "2034"});
    CHECK_FALSE(date_ticks(20513, 20513, 5).ticks.empty());
}

TEST_CASE("logarithmic ticks stand at 1, 2 and 5") {
    CHECK(labels(log_ticks(0.5, 20)) == Labels{"0.5", "1", "2", "5", "10", "20"});
    CHECK(labels(log_ticks(0.8, 4)) == Labels{"0.8", "0.9", "1", "2", "3", "4"});
}

TEST_CASE("a ratio axis has logarithmic ticks, and even ones where it is short") {
    CHECK(labels(ratio_ticks(1, 6).ticks) == Labels{"1", "2", "3", "4", "5", "6"});
    CHECK(labels(ratio_ticks(0.5, 20).ticks) == Labels{"0.5", "1", "2", "5", "10", "20"});
    CHECK(labels(ratio_ticks(1.1, 1.9).ticks) == Labels{"1.2", "1.4", "1.6", "1.8", "2.0"});
    const TickedRange one = ratio_ticks(2, 2);
    CHECK(one.low < 2);
    CHECK(one.high > 2);
    CHECK_FALSE(one.ticks.empty());
}
