// How steady a kitchen is, as text: for programs and for a terminal.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "insight/drift.h"
#include "insight/new_bag.h"
#include "insight/steadiness.h"

namespace loafmark::documents {

struct SteadyFindings {
    insight::Steadiness steadiness;
    std::optional<insight::Drift> drift;
    std::optional<insight::NewBag> new_bag;
    std::vector<std::string> notes;
};

// `steady --json`, indented, with a line's end.
[[nodiscard]] std::string steady_document(const SteadyFindings& findings);

// For people at a terminal: a table of the kinds of scatter, then sentences.
[[nodiscard]] std::string steady_text(const SteadyFindings& findings);

}  // namespace loafmark::documents
