#include "statistics/least_squares.h"

#include <Eigen/Dense>
#include <cmath>
#include <cstddef>
#include <stdexcept>

namespace loafmark::statistics {
namespace {

void check(const std::vector<std::vector<double>>& columns, std::span<const double> y) {
    if (columns.empty()) throw std::invalid_argument("least_squares: no column");
    for (const double value : y)
        if (!std::isfinite(value))
            throw std::invalid_argument("least_squares: y holds a number that is not finite");
    for (const std::vector<double>& column : columns) {
        if (column.size() != y.size())
            throw std::invalid_argument("least_squares: a column is not as long as y");
        for (const double value : column)
            if (!std::isfinite(value))
                throw std::invalid_argument(
                    "least_squares: a column holds a number that is not finite");
    }
}

// Columns brought to length 1, so that their units have no say in what counts as dependent.
struct ScaledDesign {
    Eigen::MatrixXd x;
    Eigen::VectorXd lengths;
};

ScaledDesign scaled_design(const std::vector<std::vector<double>>& columns, Eigen::Index rows) {
    ScaledDesign design{Eigen::MatrixXd(rows, std::ssize(columns)),
                        Eigen::VectorXd(std::ssize(columns))};
    for (Eigen::Index j = 0; j < design.x.cols(); ++j) {
        design.x.col(j) = Eigen::Map<const Eigen::VectorXd>(columns[j].data(), rows);
        design.lengths[j] = design.x.col(j).stableNorm();
        if (design.lengths[j] > 0) design.x.col(j) /= design.lengths[j];
    }
    return design;
}

Coefficient coefficient(double value, double unscaled_variance, const LeastSquaresFit& fit) {
    Coefficient result{value, std::nullopt, std::nullopt};
    if (!fit.residual_sd) return result;
    result.standard_error = *fit.residual_sd * std::sqrt(unscaled_variance);
    if (fit.degrees_of_freedom < least_degrees_for_interval) return result;
    const double half = t_critical(fit.degrees_of_freedom) * *result.standard_error;
    result.interval = Interval{value - half, value + half};
    return result;
}

}  // namespace

std::optional<double> LeastSquaresFit::standard_error_at(std::span<const double> row) const {
    const std::size_t n = coefficients.size();
    if (row.size() != n)
        throw std::invalid_argument("standard_error_at: the row wants one number a coefficient");
    if (!residual_sd) return std::nullopt;
    double sum = 0;
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j)
            sum += row[i] * unscaled_covariance[i * n + j] * row[j];
    return *residual_sd * std::sqrt(std::max(sum, 0.0));
}

std::optional<LeastSquaresFit> least_squares(const std::vector<std::vector<double>>& columns,
                                             std::span<const double> y) {
    check(columns, y);
    const Eigen::Index rows = std::ssize(y);
    const Eigen::Index width = std::ssize(columns);
    if (rows < width) return std::nullopt;
    const ScaledDesign design = scaled_design(columns, rows);
    const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(design.x);
    if (qr.rank() < width) return std::nullopt;

    const Eigen::Map<const Eigen::VectorXd> observed(y.data(), rows);
    const Eigen::VectorXd scaled = qr.solve(observed);
    const Eigen::MatrixXd r_inverse =
        qr.matrixQR().topRows(width).triangularView<Eigen::Upper>().solve(
            Eigen::MatrixXd::Identity(width, width));
    const Eigen::MatrixXd half = qr.colsPermutation() * r_inverse;
    const Eigen::MatrixXd covariance = half * half.transpose();

    LeastSquaresFit fit;
    fit.degrees_of_freedom = static_cast<int>(rows - width);
    fit.residual_sum_of_squares = (observed - design.x * scaled).squaredNorm();
    if (fit.degrees_of_freedom > 0)
        fit.residual_sd = std::sqrt(fit.residual_sum_of_squares / fit.degrees_of_freedom);
    for (Eigen::Index i = 0; i < width; ++i) {
        for (Eigen::Index j = 0; j < width; ++j)
            fit.unscaled_covariance.push_back(covariance(i, j) /
                                              (design.lengths[i] * design.lengths[j]));
        const double variance = covariance(i, i) / (design.lengths[i] * design.lengths[i]);
        fit.coefficients.push_back(coefficient(scaled[i] / design.lengths[i], variance, fit));
    }
    return fit;
}

}  // namespace loafmark::statistics
