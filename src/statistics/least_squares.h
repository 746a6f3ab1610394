// Linear least squares, y = X b + error with errors of one variance, by Householder QR of X.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "statistics/interval.h"

namespace loafmark::statistics {

struct LeastSquaresFit {
    std::vector<Coefficient> coefficients;  // one a column, in the columns' order
    // (X'X)^-1, row by row; times the residual variance it is the coefficients' covariance.
    std::vector<double> unscaled_covariance;
    int degrees_of_freedom = 0;  // observations less columns
    double residual_sum_of_squares = 0;
    std::optional<double> residual_sd;  // absent without a degree of freedom

    // Standard error of the fitted mean at `row`, one number a column; absent without a degree of
    // freedom.
    [[nodiscard]] std::optional<double> standard_error_at(std::span<const double> row) const;
};

// `columns` are the columns of X, each as long as `y`; a constant term is a column of ones. Nothing
// when the columns do not determine the coefficients (fewer observations than columns, or linearly
// dependent columns). Throws std::invalid_argument when lengths differ, there is no column, or a
// number is not finite.
[[nodiscard]] std::optional<LeastSquaresFit> least_squares(
    const std::vector<std::vector<double>>& columns, std::span<const double> y);

}  // namespace loafmark::statistics
