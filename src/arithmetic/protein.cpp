#include "arithmetic/protein.h"

namespace loafmark {
namespace {

constexpr double mill_moisture = 0.14;
constexpr double wheat_factor = 5.7;
constexpr double label_factor = 6.25;

}  // namespace

Fraction protein_at_14_percent_moisture(Fraction protein, ProteinBasis basis,
                                        std::optional<Fraction> moisture) {
    const double as_is = moisture ? moisture->count() : mill_moisture;
    const double to_14 = (1 - mill_moisture) / (1 - as_is);
    switch (basis) {
        case ProteinBasis::pack_eu:
            return protein * (wheat_factor / label_factor) * to_14;
        case ProteinBasis::pack_us:
            return protein * to_14;
        case ProteinBasis::dry:
            return protein * (1 - mill_moisture);
        case ProteinBasis::mill_14_percent_moisture:
            break;
    }
    return protein;
}

}  // namespace loafmark
