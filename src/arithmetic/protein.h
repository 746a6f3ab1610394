// Protein contents that are stated on different bases, brought to one so that they can be compared.
#pragma once

#include <optional>

#include "analysis/units.h"

namespace loafmark {

// What a protein content is a part of, and how nitrogen was turned into protein:
//   pack_eu   of the flour as it lies in the bag, nitrogen x 6.25 (Regulation (EU) 1169/2011)
//   pack_us   of the flour as it lies in the bag, nitrogen x 5.7, as US composition tables take
//             wheat; a label rounded to whole grams a serving of 30 g is good to 1.7 % only
//   mill_14_percent_moisture   of flour brought to 14 % moisture, nitrogen x 5.7, as mills state it
//   dry       of the flour's dry matter, nitrogen x 5.7
enum class ProteinBasis { pack_eu, pack_us, mill_14_percent_moisture, dry };

// The same on the mill's basis. `moisture` is that of the flour in the bag; where it is unknown,
// 14 % is assumed, which is wrong by a hundredth of the value for each percent that it is off.
// Conversion between moistures: AACC 44-15 / 46-12, x (100 - 14) / (100 - M).
[[nodiscard]] Fraction protein_at_14_percent_moisture(Fraction protein, ProteinBasis basis,
                                                      std::optional<Fraction> moisture);

}  // namespace loafmark
