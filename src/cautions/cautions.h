// Every sentence that warns of harm, with what it rests on, in one place. They are shown where they
// belong (bench sheets, flours and what is handed out, tastings) and nowhere else, and defer to
// local food law and licensed advice.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace loafmark::cautions {

struct Caution {
    std::string_view key;     // of docs/cautions.md
    std::string_view text;    // a sentence or two, with its full stop
    std::string_view source;  // who says so; how it was read
};

// All of them, in the order of docs/cautions.md.
[[nodiscard]] std::span<const Caution> all();

// The text of one. Throws std::invalid_argument for no such key.
[[nodiscard]] std::string text_of(std::string_view key);

// ---- By place. Lines, each with its end ----

// Of a bench sheet: raw flour and dough; hot oven, steam, knives.
[[nodiscard]] std::string at_the_bench();

// What is to be said where flour of these grains, or bread of it, is handed out: who must not eat
// it, never that it is free of gluten. A grain left out is unknown.
[[nodiscard]] std::string of_grains(const std::vector<std::optional<std::string>>& grains);

// Before anyone tastes bread of these grains.
[[nodiscard]] std::string before_tasting(const std::vector<std::optional<std::string>>& grains);

// Of bread that is so many calendar days older than its bake day; "" on the bake day itself, which
// is day 1.
[[nodiscard]] std::string of_age(int days_since_baked);

// Whether flour of this grain holds gluten; nothing where that is not known here. Never a proof of
// absence: a mill and a kitchen that handle wheat leave traces.
[[nodiscard]] std::optional<bool> holds_gluten(std::string_view grain);

}  // namespace loafmark::cautions
