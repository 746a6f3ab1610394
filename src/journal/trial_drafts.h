// Trials and tastings that are handed to the journal to be kept.
#pragma once

#include "journal/trial_records.h"

namespace loafmark::journal {

struct NewTrial {
    std::string name;  // differs from every other trial's, whatever the case
    std::string question = "same recipe";
    std::string factor = "flour";
    std::vector<std::string> variants;  // the control first; two and more, all different
    std::vector<TrialSetting> settings;
    std::optional<std::string> notes;
};

struct NewTasting {
    BakeId bake;
    int loaf = 1;
    std::string taster;
    Date date;
    std::optional<Hours> since_oven;
    std::optional<std::string> kept;
    TasteScores scores;
};

struct NewSitting {
    Date date;
    std::int64_t seed = 0;
    std::vector<Serving> servings;
};

}  // namespace loafmark::journal
