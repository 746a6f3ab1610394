#pragma once

#include <array>
#include <kainjow/mustache.hpp>
#include <optional>
#include <vector>

#include "insight/questions.h"
#include "journal/records.h"

namespace loafmark::reports {

// What is usual in a journal, a place for each of insight::questions.
using Usuals = std::array<std::optional<insight::Usual>, insight::questions.size()>;
[[nodiscard]] Usuals usuals_of(const std::vector<journal::BakeEntry>& journal);

// The five questions over all bakes, for {{#questions}} of page.mustache: words, a strip of slices
// by flour for each measure and the profile for the last, and the numbers behind them.
[[nodiscard]] kainjow::mustache::data questions_data(const std::vector<journal::BakeEntry>& bakes,
                                                     const Usuals& usuals);

// The same of one slice, for {{#answers}} of bake.mustache.
[[nodiscard]] kainjow::mustache::data answers_data(const journal::Reading& reading,
                                                   const Usuals& usuals);

}  // namespace loafmark::reports
