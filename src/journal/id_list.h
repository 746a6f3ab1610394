// Several row numbers as one parameter: `... WHERE id IN (SELECT value FROM json_each(?))`.
#pragma once

#include <string>
#include <vector>

#include "journal/records.h"

namespace loafmark::journal {

template <class Tag>
[[nodiscard]] std::string id_list(const std::vector<Id<Tag>>& ids) {
    std::string text = "[";
    for (const Id<Tag> id : ids) {
        if (text.size() > 1) text += ',';
        text += std::to_string(id.value);
    }
    return text + "]";
}

}  // namespace loafmark::journal
