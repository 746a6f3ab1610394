#include "insight/typical_flours.h"

#include <algorithm>
#include <array>

#include "arithmetic/near_names.h"

namespace loafmark::insight {
namespace {

constexpr TypicalFlour row(std::string_view kind, std::string_view grain, std::string_view grade,
                           std::string_view source, double protein, double moisture, double ash,
                           double fibre, std::string_view absorption = "") {
    return {kind,
            grain,
            grade,
            source,
            fraction_from_percent(protein),
            fraction_from_percent(moisture),
            fraction_from_percent(ash),
            fraction_from_percent(fibre),
            absorption};
}

// Absorption: farinograph values on 14 % moisture as handbooks give them, from memory.
constexpr std::array flours{
    row("wheat bread", "wheat", "white", "USDA SR26 20083", 11.98, 13.36, 0.47, 2.4,
        "58 to 66 % (handbook values, from memory)"),
    row("wheat all-purpose", "wheat", "white", "USDA SR26 20081", 10.33, 11.92, 0.47, 2.7,
        "56 to 60 % (handbook values, from memory)"),
    row("wheat cake", "wheat", "white", "USDA SR26 20084", 8.2, 12.51, 0.39, 1.7,
        "50 to 55 % (handbook values, from memory)"),
    row("wheat wholemeal", "wheat", "wholemeal", "USDA SR26 20080", 13.21, 10.74, 1.58, 10.7,
        "64 to 75 % (handbook values, from memory)"),
    row("durum semolina", "durum", "white", "USDA SR26 20066", 12.68, 12.67, 0.77, 3.9,
        "60 to 68 % (handbook values, from memory)"),
    row("spelt wholemeal", "spelt", "wholemeal", "USDA SR26 20140 (whole grain)", 14.57, 11.02,
        1.78, 10.7),
    row("khorasan wholemeal", "khorasan", "wholemeal", "USDA SR26 20138 (whole grain)", 14.54,
        11.07, 1.67, 11.1),
    row("rye light", "rye", "white", "USDA SR26 20065", 9.82, 11.4, 0.78, 8),
    row("rye medium", "rye", "brown", "USDA SR26 20064", 10.88, 10.97, 1.2, 11.8),
    row("rye dark", "rye", "wholemeal", "USDA SR26 20063", 15.91, 10.75, 2.5, 23.8),
    row("triticale wholemeal", "triticale", "wholemeal", "USDA SR26 20070", 13.18, 10.01, 1.85,
        14.6),
    row("barley", "barley", "wholemeal", "USDA SR26 20130", 10.5, 12.11, 1.28, 10.1),
    row("oat", "oat", "wholemeal", "USDA SR26 20132", 14.66, 8.55, 1.97, 6.5),
    row("buckwheat", "buckwheat", "wholemeal", "USDA SR26 20011", 12.62, 11.15, 2.54, 10),
    row("maize", "maize", "wholemeal", "USDA SR26 20016", 6.93, 10.91, 1.45, 7.3),
    row("rice white", "rice", "white", "USDA SR26 20061", 5.95, 11.89, 0.61, 2.4)};

constexpr std::array<std::string_view, 8> wheat_family{
    "wheat", "durum", "spelt", "emmer", "einkorn", "khorasan", "common wheat", "dinkel"};

bool among(std::span<const std::string_view> words, std::string_view word) {
    return std::ranges::find(words, word) != words.end();
}

}  // namespace

std::span<const TypicalFlour> typical_flours() {
    return flours;
}

const TypicalFlour* typical_flour(std::string_view kind) {
    const std::string wanted = folded(kind);
    const auto found = std::ranges::find(flours, wanted, &TypicalFlour::kind);
    return found == flours.end() ? nullptr : &*found;
}

bool is_of_wheat_family(std::string_view grain) {
    return among(wheat_family, folded(grain));
}

}  // namespace loafmark::insight
