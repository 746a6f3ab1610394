// What a comparison says, in plain words.
#pragma once

#include <string>
#include <vector>

#include "insight/compare.h"
#include "insight/steadiness.h"

namespace loafmark::insight {

// "loaf height of emmer, 70 % water is 12.1 mm lower than the control's (-16 %), 95 % interval 8.2
// to 16.0 mm: more than chance".
[[nodiscard]] std::string sentence_of(const MeasuredDifference& difference,
                                      const MeasureComparison& comparison,
                                      const std::vector<Contender>& contenders);

// What the differences of one measure rest on.
[[nodiscard]] std::string basis_sentence(const MeasureComparison& comparison,
                                         const Steadiness& steadiness, bool same_day);

// A word where the doughs of a loaf of control and variant differ by more than 2 % on average,
// since more dough makes a taller loaf.
[[nodiscard]] std::vector<std::string> dough_mass_notes(const std::vector<Contender>& contenders);

// Everything that is off between control and variants, and what their readings lack.
[[nodiscard]] std::vector<std::string> confounding_of(const std::vector<Contender>& contenders);
[[nodiscard]] std::vector<std::string> reading_notes(const std::vector<Contender>& contenders);

// A number with its unit: "74.2 mm", "0.312".
[[nodiscard]] std::string measured_text(double value, Measure measure);

}  // namespace loafmark::insight
