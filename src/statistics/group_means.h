// Means of groups with what is needed to compare them: of plain groups, or within blocks (days).
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace loafmark::statistics {

struct GroupMeans {
    std::vector<double> means;  // one a group; with blocks, as if each group stood in every block
    std::vector<int> sizes;     // observations of each
    // Of the means, row by row, over the residual variance.
    std::vector<double> unscaled_covariance;
    int degrees_of_freedom = 0;  // of the residual; at least 1
    double residual_sd = 0;

    // Variance of mean i less mean j, over the residual variance.
    [[nodiscard]] double unscaled_variance_of_difference(std::size_t i, std::size_t j) const;
    [[nodiscard]] double unscaled_covariance_of(std::size_t i, std::size_t j) const;
};

// Nothing where no group has two observations. Throws std::invalid_argument for fewer than two
// groups, an empty one, or a number that is not finite.
[[nodiscard]] std::optional<GroupMeans> group_means(const std::vector<std::vector<double>>& groups);

struct BlockedValue {
    int group = 0;  // 0 to groups - 1
    int block = 0;  // any whole number
    double value = 0;
};

// Groups and blocks add up (least squares; with every group once in every block, the randomised
// blocks of the textbooks). Nothing where blocks do not tie the groups together or no degree of
// freedom is left. Throws std::invalid_argument for a group outside 0 to `groups` - 1 or without a
// value.
[[nodiscard]] std::optional<GroupMeans> blocked_group_means(const std::vector<BlockedValue>& values,
                                                            int groups);

}  // namespace loafmark::statistics
