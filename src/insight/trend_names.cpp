#include <array>
#include <utility>

#include "insight/trend.h"

namespace loafmark::insight {
namespace {

struct AgainstNames {
    Against id;
    std::string_view name;   // as commands and documents write it
    std::string_view plain;  // as people say it
    std::string_view unit;
};
constexpr std::string_view degrees = "\u00b0C";
constexpr std::array names{
    AgainstNames{Against::hydration, "hydration", "water", "%"},
    AgainstNames{Against::date, "date", "date", "days since 1970-01-01"},
    AgainstNames{Against::share, "share", "share of the main flour", "%"},
    AgainstNames{Against::protein, "protein", "protein", "%"},
    AgainstNames{Against::dough_temperature, "dough-temperature", "dough temperature", degrees},
    AgainstNames{Against::room_temperature, "room-temperature", "room temperature", degrees},
    AgainstNames{Against::proof, "proof", "final proof", "min"},
    AgainstNames{Against::proof_at_25c, "proof-at-25C", "final proof as at 25 \u00b0C", "min"},
};

const AgainstNames& names_of(Against against) {
    return names[static_cast<std::size_t>(against)];
}

}  // namespace

std::string_view name_of(Against against) {
    return names_of(against).name;
}

std::optional<Against> against_of_name(std::string_view name) {
    for (const AgainstNames& one : names)
        if (one.name == name) return one.id;
    return std::nullopt;
}

std::string_view plain_name_of(Against against) {
    return names_of(against).plain;
}

std::string_view unit_of(Against against) {
    return names_of(against).unit;
}

std::string_view name_of(TrendModel model) {
    switch (model) {
        case TrendModel::line:
            return "line";
        case TrendModel::common_slope:
            return "common slope";
        case TrendModel::own_slope:
            return "own slope";
    }
    return "";
}

FlourKinds kinds_of(const std::vector<journal::Flour>& flours) {
    FlourKinds kinds;
    for (const journal::Flour& flour : flours) {
        std::string name = flour.grade.value_or("");
        if (!name.empty()) name += " ";
        kinds[flour.id] = {name + flour.grain.value_or("grain not noted"), flour.protein_basis};
    }
    return kinds;
}

}  // namespace loafmark::insight
