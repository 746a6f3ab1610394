// What the journal refuses to keep. Each throws Error that names `what`.
#pragma once

#include <algorithm>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "arithmetic/dates.h"
#include "arithmetic/numbers.h"
#include "arithmetic/quantities.h"
#include "journal/error.h"

namespace loafmark::journal {

// The text without blanks at its ends.
[[nodiscard]] inline std::string not_empty(std::string_view text, std::string_view what) {
    const std::string_view rest = trimmed(text);
    if (rest.empty()) throw Error(std::string(what) + " is empty");
    return std::string(rest);
}

// `words`: the only ones that `what` may be.
inline void check_word(const std::optional<std::string>& word,
                       std::span<const std::string_view> words, std::string_view what) {
    if (!word || std::ranges::find(words, *word) != words.end()) return;
    std::string known;
    for (const std::string_view one : words)
        known.append(known.empty() ? "" : ", ").append(one);
    throw Error(std::string(what) + " is one of " + known + ", not '" + *word + "'");
}

inline void check_mass(std::optional<Grams> mass, std::string_view what) {
    if (mass && !(*mass >= Grams(0)))
        throw Error(std::string(what) + " is " + to_text(*mass) + ", below zero");
}

inline void check_fraction(std::optional<Fraction> fraction, std::string_view what) {
    if (fraction && !(*fraction >= Fraction(0) && *fraction <= Fraction(1)))
        throw Error(std::string(what) + " is " + to_text(*fraction) + ", not within 0 to 100%");
}

inline void check_date(std::optional<Date> date, std::string_view what) {
    if (date && !exists(*date))
        throw Error(std::string(what) + " " + to_text(*date) + " is not a day of the calendar");
}

// Water and flour in a thing, as parts of its mass.
inline void check_parts(Fraction water, Fraction flour, const std::string& what) {
    check_fraction(water, "the water in " + what);
    check_fraction(flour, "the flour in " + what);
    if (water + flour > Fraction(1 + 1e-9))
        throw Error("water and flour in " + what + " together are more than it weighs");
}

// What is given anew, or else what was there.
template <class T>
[[nodiscard]] std::optional<T> first_of(const std::optional<T>& anew,
                                        const std::optional<T>& before) {
    return anew ? anew : before;
}

}  // namespace loafmark::journal
