#include "statistics/group_means.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <stdexcept>

#include "statistics/least_squares.h"

namespace loafmark::statistics {
namespace {

// Blocks numbered from 0.
std::map<int, std::size_t> block_numbers(const std::vector<BlockedValue>& values) {
    std::map<int, std::size_t> numbers;
    for (const BlockedValue& value : values)
        numbers.try_emplace(value.block, numbers.size());
    return numbers;
}

// A column of ones and zeros a group, then the blocks but the last, which is less the sum of the
// others: so the groups' coefficients are means over all blocks alike.
std::vector<std::vector<double>> design(const std::vector<BlockedValue>& values, int groups) {
    const auto blocks = block_numbers(values);
    const std::size_t last = blocks.size() - 1;
    const auto first_block = static_cast<std::size_t>(groups);
    std::vector<std::vector<double>> columns(first_block + last,
                                             std::vector<double>(values.size(), 0.0));
    for (std::size_t row = 0; row < values.size(); ++row) {
        columns[static_cast<std::size_t>(values[row].group)][row] = 1;
        const std::size_t block = blocks.at(values[row].block);
        if (block < last)
            columns[first_block + block][row] = 1;
        else
            for (std::size_t b = 0; b < last; ++b)
                columns[first_block + b][row] = -1;
    }
    return columns;
}

std::vector<int> sizes_of(const std::vector<BlockedValue>& values, int groups) {
    if (groups < 2) throw std::invalid_argument("group means: two groups at least");
    std::vector<int> sizes(static_cast<std::size_t>(groups), 0);
    for (const BlockedValue& value : values) {
        if (value.group < 0 || value.group >= groups)
            throw std::invalid_argument("group means: no such group");
        ++sizes[static_cast<std::size_t>(value.group)];
    }
    if (std::ranges::find(sizes, 0) != sizes.end())
        throw std::invalid_argument("group means: a group has no value");
    return sizes;
}

}  // namespace

double GroupMeans::unscaled_covariance_of(std::size_t i, std::size_t j) const {
    return unscaled_covariance.at(i * means.size() + j);
}

double GroupMeans::unscaled_variance_of_difference(std::size_t i, std::size_t j) const {
    return unscaled_covariance_of(i, i) + unscaled_covariance_of(j, j) -
           2 * unscaled_covariance_of(i, j);
}

std::optional<GroupMeans> blocked_group_means(const std::vector<BlockedValue>& values, int groups) {
    GroupMeans result;
    result.sizes = sizes_of(values, groups);
    std::vector<double> y;
    for (const BlockedValue& value : values)
        y.push_back(value.value);
    const auto fit = least_squares(design(values, groups), y);
    if (!fit || !fit->residual_sd) return std::nullopt;
    const std::size_t width = fit->coefficients.size();
    for (std::size_t i = 0; i < result.sizes.size(); ++i) {
        result.means.push_back(fit->coefficients[i].value);
        for (std::size_t j = 0; j < result.sizes.size(); ++j)
            result.unscaled_covariance.push_back(fit->unscaled_covariance[i * width + j]);
    }
    result.degrees_of_freedom = fit->degrees_of_freedom;
    result.residual_sd = *fit->residual_sd;
    return result;
}

std::optional<GroupMeans> group_means(const std::vector<std::vector<double>>& groups) {
    std::vector<BlockedValue> values;
    for (std::size_t g = 0; g < groups.size(); ++g)
        for (const double value : groups[g])
            values.push_back({static_cast<int>(g), 0, value});
    return blocked_group_means(values, static_cast<int>(groups.size()));
}

}  // namespace loafmark::statistics
