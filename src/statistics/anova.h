// Analysis of variance by factors taken in turn: each term's sum of squares is what it explains
// beyond the terms before it ("type I"; e.g. Searle, Linear Models, ch. 4). One term is the one-way
// analysis, a block term first and a treatment second the randomised blocks, whole gaps allowed.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace loafmark::statistics {

// A factor: the level of each observation, any whole numbers.
struct Factor {
    std::string name;
    std::vector<int> levels;
};

// The levels of two factors together, for an interaction or for what is nested in another.
[[nodiscard]] Factor crossed(const Factor& a, const Factor& b, std::string name);

struct AnovaLine {
    std::string name;
    int degrees_of_freedom = 0;
    double sum_of_squares = 0;
    // Absent without a degree of freedom.
    std::optional<double> mean_square;
    // Against the residual; absent without residual degrees of freedom or residual scatter, and on
    // the residual's own line.
    std::optional<double> f;
    std::optional<double> p;
    bool operator==(const AnovaLine&) const = default;
};

struct Anova {
    std::vector<AnovaLine> terms;  // in the order given
    AnovaLine residual;
    // The F of one line against another's mean square, where a term has an error of its own (a
    // split plot's whole plots); nothing where either lacks a mean square above zero.
    [[nodiscard]] static std::optional<AnovaLine> against(const AnovaLine& term,
                                                          const AnovaLine& error);
};

// Throws std::invalid_argument when there are no observations, a factor is not as long as `y`, or a
// number is not finite.
[[nodiscard]] Anova anova(const std::vector<Factor>& terms, std::span<const double> y);

}  // namespace loafmark::statistics
