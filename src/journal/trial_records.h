// Trials and tastings as plain values.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "journal/records.h"

namespace loafmark::journal {

using TrialId = Id<struct TrialTag>;
using SittingId = Id<struct SittingTag>;
using TastingId = Id<struct TastingTag>;

// ---- Trials ----

// What a trial asks: what the factor does with all else equal, or what each variant can be.
inline constexpr std::array<std::string_view, 2> question_words{"same recipe", "each at its best"};

// The settings that the journal can look up in a bake, and so can tell whether they were held. A
// trial's factor is one of them.
inline constexpr std::array<std::string_view, 20> setting_words{"flour",
                                                                "water",
                                                                "salt",
                                                                "leaven",
                                                                "leaven amount",
                                                                "tin",
                                                                "dough mass",
                                                                "room",
                                                                "dough temperature",
                                                                "mixing",
                                                                "folds",
                                                                "handling",
                                                                "bulk",
                                                                "proof",
                                                                "readiness",
                                                                "scoring",
                                                                "oven place",
                                                                "steam",
                                                                "oven temperature",
                                                                "bake time"};

// Held: the same for all. Fitted: set for each variant by a stated rule. Free: left open.
inline constexpr std::array<std::string_view, 3> setting_states{"held", "fitted", "free"};

struct TrialSetting {
    std::string setting;              // of setting_words
    std::string state;                // of setting_states
    std::optional<std::string> rule;  // of a fitted one only
    bool operator==(const TrialSetting&) const = default;
};

struct TrialBake {
    BakeId bake;
    int variant = 0;  // 0: the control
    bool operator==(const TrialBake&) const = default;
};

struct Trial {
    TrialId id;
    std::string name;
    std::string question;               // of question_words
    std::string factor;                 // of setting_words
    std::vector<std::string> variants;  // the control first
    std::vector<TrialSetting> settings;
    std::vector<TrialBake> bakes;  // by number of the bake
    std::optional<std::string> notes;
    bool operator==(const Trial&) const = default;
};

// ---- Tastings ----

// A line between two words; a score is a place on it, 0 at the first word and 10 at the second.
struct TastingLine {
    std::string_view key;  // of options, files and the database
    std::string_view low;
    std::string_view high;
};
inline constexpr std::array<TastingLine, 9> tasting_lines{{
    {"close-open", "close", "open"},
    {"soft-firm", "soft", "firm"},
    {"short-chewy", "short", "chewy"},
    {"crumbly-holds", "crumbly", "holds together"},
    {"dry-moist", "dry", "moist"},
    {"clean-gummy", "clean", "gummy"},
    {"mild-strong", "mild", "strong grain"},
    {"sweet-sour", "sweet", "sour"},
    {"crust", "crust crisp", "crust leathery"},
}};
inline constexpr double end_of_line = 10;

// What a taster says of a slice; whatever is left out was not asked.
struct TasteScores {
    std::map<std::string, double> lines;  // by key
    std::optional<double> liking;         // 0 to 10, apart from the lines: it says nothing of bread
    std::optional<std::string> words;     // "good for soup"
    bool operator==(const TasteScores&) const = default;
};

struct Tasting {
    TastingId id;
    BakeId bake;
    int loaf = 1;
    std::string taster;
    Date date;
    std::optional<Hours> since_oven;
    std::optional<std::string> kept;  // "paper bag"
    TasteScores scores;
    // Of a blind sitting: which, the taster's first, second... slice, and the number it goes by.
    std::optional<SittingId> sitting;
    std::optional<int> turn;
    std::optional<int> code;
    bool scored = true;  // false: served in a sitting that is not over
    bool operator==(const Tasting&) const = default;
};

// One slice of a blind sitting, before it is tasted.
struct Serving {
    BakeId bake;
    int loaf = 1;
    std::string taster;
    int turn = 1;    // from 1, of this taster
    int code = 100;  // three digits, once in a sitting
    std::optional<Hours> since_oven;
    std::optional<std::string> kept;
};

struct Sitting {
    SittingId id;
    Date date;
    std::int64_t seed = 0;
    std::vector<Tasting> tastings;  // by taster, then turn
    // Whether every slice was scored: only then may it be told which bread was which.
    [[nodiscard]] bool over() const {
        for (const Tasting& tasting : tastings)
            if (!tasting.scored) return false;
        return true;
    }
};

}  // namespace loafmark::journal
