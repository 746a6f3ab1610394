// Which shares of several flours make a dough as strong as wished and spare a scarce flour.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "analysis/measures.h"
#include "journal/records.h"

namespace loafmark::insight {

struct BlendFlour {
    std::string name;
    std::optional<Grams> stock;  // none: as much as is needed
    Fraction least{0};           // of all flour
    Fraction most{1};
    double strength = 0;              // of a dough of this flour alone, in the wish's unit
    std::optional<Fraction> protein;  // at 14 % moisture; shown, never optimised
};

struct BlendWish {
    Grams flour;                     // all that is needed, more than zero
    std::size_t spared = 0;          // which of the flours is to be used as little as can be
    std::optional<double> strength;  // at least so much; none: any
};

struct Blend {
    std::vector<Fraction> shares;     // of all flour, in the flours' order; sum to 1
    double strength = 0;              // sum of share x strength
    std::optional<Fraction> protein;  // nothing where one flour's is unknown
};

// What stands in the way, as a sentence without its full stop.
struct NoBlend {
    std::string why;
};

// By a linear programme: the least share of the spared flour with all shares within stock and
// limits. Of blends that spare it equally, one that draws on full bags rather than on empty ones.
// `unit` is what the strength counts in words: "%" or "mm". Throws std::invalid_argument for no
// flours, no flour needed, or a `spared` that there is not.
[[nodiscard]] std::variant<Blend, NoBlend> blend(const std::vector<BlendFlour>& flours,
                                                 const BlendWish& wish, const std::string& unit);

// How much of a flour's protein counts as strength: all of white flour of the wheat family, half of
// other grades (bran weakens), none of rye, oat, maize, buckwheat and the like. Common practice, no
// source. Nothing where grain or, for wheat, grade is unknown.
[[nodiscard]] std::optional<Fraction> share_of_protein_that_counts(
    const std::optional<std::string>& grain, const std::optional<std::string>& grade);

// Strength learnt from bakes: what a loaf of each flour alone would measure by the linear mixture
// model, measure = sum of share x coefficient. Only bakes of these flours and no others count,
// those set aside not. Nothing with fewer than three bakes more than flours, or where the shares
// were too alike to tell the flours apart.
struct MixtureModel {
    std::vector<double> coefficients;  // in the measure's unit, in the flours' order
    int bakes = 0;
    double residual_sd = 0;
};
enum class StrengthMeasure { loaf_height_mm, specific_volume_ml_per_g };
[[nodiscard]] std::optional<MixtureModel> mixture_model(
    const std::vector<journal::FlourId>& flours, const std::vector<journal::BakeEntry>& bakes,
    StrengthMeasure measure);

}  // namespace loafmark::insight
