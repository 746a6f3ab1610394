#include "insight/bags.h"

#include <algorithm>

namespace loafmark::insight {

std::vector<journal::BagId> bags_of(const journal::BakeEntry& bake, journal::FlourId flour) {
    std::vector<journal::BagId> bags;
    for (const journal::MixedAmount& amount : bake.bake.mixed)
        if (amount.bag && amount.flour == flour) bags.push_back(*amount.bag);
    std::ranges::sort(bags);
    const auto again = std::ranges::unique(bags);
    bags.erase(again.begin(), again.end());
    return bags;
}

}  // namespace loafmark::insight
