// What a trend says, in plain words.
#pragma once

#include <string>

#include "insight/trend.h"

namespace loafmark::insight {

// Why the bakes of `trend`, which has no fit, have none.
[[nodiscard]] std::string why_no_trend(const Trend& trend);

// Why a fitted slope has no interval; empty when it has one.
[[nodiscard]] std::string why_no_interval(const TrendFit& fit);

// The loaves of a point over proof: "1, 3".
[[nodiscard]] std::string loaves_text(const TrendPoint& point);

// Trend::sentence, from all else in `trend`.
[[nodiscard]] std::string sentence_of(const Trend& trend);

}  // namespace loafmark::insight
