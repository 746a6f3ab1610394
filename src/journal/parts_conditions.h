// What find() asks of a bake's parts: of its flours, its loaves and slices, its trials.
#pragma once

#include <string>
#include <vector>

#include "journal/conditions.h"
#include "journal/filter.h"
#include "journal/store.h"

namespace loafmark::journal {

// Can be asked in two ways, which find the same bakes: by listing all that fit, which is quick
// where few do, or of one bake after the other, which is quick where many do and a page is wanted.
struct PartsCondition {
    struct Place {
        std::string tables;
        std::string bake;  // the column that says of which bake a row is
    };
    Place to_list;
    Place of_a_bake;
    Conditions where;
    Conditions having;         // of all rows of a bake together; may be empty
    bool many_at_any = false;  // known: more than a few slices fit each of its measures alone
};

// `few`: counting goes up to that and one more.
[[nodiscard]] std::vector<PartsCondition> parts_conditions(const Store& store, const Filter& filter,
                                                           int few);
// Whether it is a key that parts_conditions() sees to: a measure's, or a field's of loaf or slice.
[[nodiscard]] bool is_of_parts(const std::string& key);

// The bakes that fit, where they are not more than a few.
[[nodiscard]] std::optional<std::vector<BakeId>> listed_if_few(const Store& store,
                                                               const PartsCondition& condition,
                                                               int few);

void add_as_list(Conditions& all, const PartsCondition& condition);
void add_one_by_one(Conditions& all, const PartsCondition& condition);

}  // namespace loafmark::journal
