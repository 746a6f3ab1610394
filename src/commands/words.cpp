#include "commands/words.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <stdexcept>

#include "arithmetic/near_names.h"
#include "arithmetic/quantities.h"
#include "commands/text.h"
#include "journal/records.h"

namespace loafmark::commands {
namespace {

struct Spelling {
    std::string_view written;
    std::string_view step;
};
constexpr std::array spellings{Spelling{"mixed", "mix"},
                               Spelling{"mixing", "mix"},
                               Spelling{"autolyse", "rest"},
                               Spelling{"rested", "rest"},
                               Spelling{"kneaded", "knead"},
                               Spelling{"kneading", "knead"},
                               Spelling{"folded", "fold"},
                               Spelling{"folds", "fold"},
                               Spelling{"bulk", "bulk fermentation"},
                               Spelling{"first rise", "bulk fermentation"},
                               Spelling{"divided", "divide"},
                               Spelling{"shaped", "shape"},
                               Spelling{"shaping", "shape"},
                               Spelling{"proof", "final proof"},
                               Spelling{"proving", "final proof"},
                               Spelling{"proofing", "final proof"},
                               Spelling{"second rise", "final proof"},
                               Spelling{"scored", "score"},
                               Spelling{"slashed", "score"},
                               Spelling{"baked", "bake"},
                               Spelling{"in the oven", "bake"},
                               Spelling{"cooled", "cool"},
                               Spelling{"out of the oven", "cool"},
                               Spelling{"sliced", "cut"}};

}  // namespace

std::string words_in_a_row(std::span<const std::string_view> words) {
    std::string text;
    for (const std::string_view word : words)
        text.append(text.empty() ? "" : word == words.back() ? " or " : ", ").append(word);
    return text;
}

std::string parse_word(const std::string& text, std::span<const std::string_view> words,
                       const char* what) {
    const std::string word = folded(text);
    if (std::ranges::find(words, word) != words.end()) return word;
    throw std::runtime_error("'" + text + "' is " + what + "; write " + words_in_a_row(words));
}

int parse_count(const std::string& text, int lowest, const char* what) {
    const bool digits = !text.empty() && text.size() <= 3 &&
                        std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
    const int count = digits ? std::stoi(text) : -1;
    if (count < lowest) throw std::runtime_error("'" + text + "' is " + what + "; write 2");
    return count;
}

Grams read_mass(const std::string& text) {
    return parse_mass(text);
}
Grams more_than_nothing(const std::string& text) {
    const Grams mass = parse_mass(text);
    if (mass > Grams(0)) return mass;
    throw std::runtime_error("'" + text + "' is nothing; give more than 0g");
}
Fraction read_percentage(const std::string& text) {
    return parse_percentage(text);
}
Celsius read_temperature(const std::string& text) {
    return parse_temperature(text);
}
Millimetres read_length(const std::string& text) {
    return parse_length(text);
}
Millilitres read_volume(const std::string& text) {
    return parse_volume(text);
}
Hours read_hours(const std::string& text) {
    return hours_from(parse_duration(text));
}

Celsius read_core_temperature(const std::string& text) {
    const Celsius core = parse_temperature(text);
    if (core.degrees() <= 100) return core;
    const std::string as_fahrenheit = number_text(core.degrees(), 0) + "F";
    throw std::runtime_error("'" + text +
                             "' cannot be: no core passes 100 C, since it holds water; did you "
                             "mean " +
                             as_fahrenheit + "?");
}

Celsius read_dough_temperature(const std::string& text) {
    const Celsius dough = parse_temperature(text);
    if (dough.degrees() >= 0 && dough.degrees() <= 50) return dough;
    const bool was_fahrenheit = folded(text).ends_with('f');
    const double number = was_fahrenheit ? fahrenheit(dough) : dough.degrees();
    const std::string other = number_text(number) + (was_fahrenheit ? "C" : "F");
    const Celsius meant = parse_temperature(other);
    throw std::runtime_error("'" + text + "' is no dough's temperature; " +
                             (meant.degrees() >= 0 && meant.degrees() <= 50
                                  ? "did you mean " + other + "?"
                                  : "write it like 25C or 77F"));
}

std::string read_moment(const std::string& text, Date day) {
    const auto blank = text.rfind(' ');
    const std::string clock = blank == std::string::npos ? text : text.substr(blank + 1);
    const Date date = blank == std::string::npos ? day : parse_date(text.substr(0, blank), day);
    int hour = -1;
    int minute = -1;
    int read = 0;
    const bool good = std::sscanf(clock.c_str(), "%2d:%2d%n", &hour, &minute, &read) == 2 &&
                      read == static_cast<int>(clock.size()) && hour >= 0 && hour < 24 &&
                      minute >= 0 && minute < 60;
    if (!good)
        throw std::runtime_error("'" + text +
                                 "' is no time of day; write it like 18:20, from "
                                 "00:00 to 23:59");
    std::array<char, 8> shown{};
    std::snprintf(shown.data(), shown.size(), "%02d:%02d", hour % 24, minute % 60);
    return to_text(date) + " " + shown.data();
}

std::string read_step(const std::string& text) {
    const std::string word = folded(text);
    const auto known = std::ranges::find(spellings, word, &Spelling::written);
    return known != spellings.end() ? std::string(known->step)
                                    : parse_word(text, journal::step_words, "no step");
}

}  // namespace loafmark::commands
