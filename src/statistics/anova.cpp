#include "statistics/anova.h"

#include <Eigen/Dense>
#include <boost/math/distributions/fisher_f.hpp>
#include <cmath>
#include <cstddef>
#include <map>
#include <stdexcept>
#include <utility>

namespace loafmark::statistics {
namespace {

// A column that keeps less than this share of its length once what stands before is taken out holds
// nothing new.
constexpr double dependent_share = 1e-9;

void check(const std::vector<Factor>& terms, std::span<const double> y) {
    if (y.empty()) throw std::invalid_argument("anova: no observations");
    for (const double value : y)
        if (!std::isfinite(value))
            throw std::invalid_argument("anova: an observation is not finite");
    for (const Factor& term : terms)
        if (term.levels.size() != y.size())
            throw std::invalid_argument("anova: a factor is not as long as y");
}

// One column of zeros and ones a level.
std::vector<Eigen::VectorXd> indicators(const Factor& factor) {
    const Eigen::Index rows = std::ssize(factor.levels);
    std::map<int, Eigen::VectorXd> columns;
    for (Eigen::Index i = 0; i < rows; ++i) {
        const int level = factor.levels[static_cast<std::size_t>(i)];
        columns.try_emplace(level, Eigen::VectorXd::Zero(rows)).first->second[i] = 1;
    }
    std::vector<Eigen::VectorXd> list;
    for (auto& [level, column] : columns)
        list.push_back(std::move(column));
    return list;
}

// Grows an orthonormal basis and takes from `rest` what it explains.
class Sweep {
  public:
    explicit Sweep(Eigen::VectorXd y) : rest_(std::move(y)) {}

    // Whether the column held anything new.
    bool take(Eigen::VectorXd column) {
        const double length = column.norm();
        for (int pass = 0; pass < 2; ++pass)  // twice is enough (Kahan and Parlett)
            for (const Eigen::VectorXd& direction : basis_)
                column -= direction.dot(column) * direction;
        if (column.norm() <= dependent_share * length) return false;
        column.normalize();
        rest_ -= column.dot(rest_) * column;
        basis_.push_back(std::move(column));
        return true;
    }

    [[nodiscard]] double rest() const { return rest_.squaredNorm(); }

  private:
    std::vector<Eigen::VectorXd> basis_;
    Eigen::VectorXd rest_;
};

AnovaLine line(std::string name, int degrees, double sum) {
    AnovaLine result{std::move(name), degrees, std::max(sum, 0.0), {}, {}, {}};
    if (degrees > 0) result.mean_square = result.sum_of_squares / degrees;
    return result;
}

// The mean is taken out first, exactly as sums go, so that leading digits common to all values cost
// nothing.
Eigen::VectorXd centred(std::span<const double> y) {
    Eigen::VectorXd values = Eigen::Map<const Eigen::VectorXd>(y.data(), std::ssize(y));
    values.array() -= y.front();
    values.array() -= values.mean();
    return values;
}

}  // namespace

Factor crossed(const Factor& a, const Factor& b, std::string name) {
    if (a.levels.size() != b.levels.size())
        throw std::invalid_argument("crossed: the factors differ in length");
    std::map<std::pair<int, int>, int> numbers;
    Factor both{std::move(name), {}};
    for (std::size_t i = 0; i < a.levels.size(); ++i)
        both.levels.push_back(
            numbers.try_emplace({a.levels[i], b.levels[i]}, static_cast<int>(numbers.size()))
                .first->second);
    return both;
}

std::optional<AnovaLine> Anova::against(const AnovaLine& term, const AnovaLine& error) {
    if (!term.mean_square || !error.mean_square || !(*error.mean_square > 0)) return std::nullopt;
    AnovaLine tested = term;
    tested.f = *term.mean_square / *error.mean_square;
    const boost::math::fisher_f distribution(term.degrees_of_freedom, error.degrees_of_freedom);
    tested.p = boost::math::cdf(complement(distribution, *tested.f));
    return tested;
}

Anova anova(const std::vector<Factor>& terms, std::span<const double> y) {
    check(terms, y);
    Sweep sweep(centred(y));
    sweep.take(Eigen::VectorXd::Ones(std::ssize(y)));
    Anova table;
    int left = static_cast<int>(y.size()) - 1;
    for (const Factor& term : terms) {
        const double before = sweep.rest();
        int degrees = 0;
        for (Eigen::VectorXd& column : indicators(term))
            degrees += sweep.take(std::move(column)) ? 1 : 0;
        left -= degrees;
        table.terms.push_back(line(term.name, degrees, before - sweep.rest()));
    }
    table.residual = line("residual", left, left > 0 ? sweep.rest() : 0);
    for (AnovaLine& term : table.terms)
        term = Anova::against(term, table.residual).value_or(term);
    return table;
}

}  // namespace loafmark::statistics
