#include "documents/json_values.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <string_view>

#include "documents/number_text.h"

namespace loafmark::documents {
namespace {

// Above this, doubles no longer hold every whole number.
constexpr double whole_numbers_end = 9007199254740992.0;

// The place of a dotted key, made on the way: a part that is a number counts the elements of an
// array from 1, any other is a key of an object.
Json& place(Json& object, std::string_view key) {
    Json* at = &object;
    while (true) {
        const std::size_t dot = key.find('.');
        const std::string part(key.substr(0, dot));
        const bool counts = part.find_first_not_of("0123456789") == std::string::npos;
        at = counts ? &(*at)[static_cast<std::size_t>(std::stoul(part)) - 1] : &(*at)[part];
        if (dot == std::string_view::npos) return *at;
        key.remove_prefix(dot + 1);
    }
}

// Openings that a loaf may do without: null itself says that there is none.
constexpr std::array<const char*, 2> null_is_an_answer = {"crust_separation", "tunnel"};

// A value that is no number was not had.
const Estimate* had(const MeasureValues& values, Measure measure) {
    const auto found = values.find(measure);
    return found != values.end() && std::isfinite(found->second.value) ? &found->second : nullptr;
}

bool all_null(const Json& object) {
    return std::all_of(object.begin(), object.end(),
                       [](const Json& part) { return part.is_null(); });
}

}  // namespace

Json number(double value, int significant_digits) {
    if (!std::isfinite(value)) return nullptr;
    const double tidy = rounded(value, significant_digits);
    if (tidy == std::trunc(tidy) && std::abs(tidy) < whole_numbers_end)
        return static_cast<std::int64_t>(tidy);
    return tidy;
}

Json number(const std::optional<double>& value) {
    return value ? number(*value) : Json(nullptr);
}

Json text(const std::optional<std::string>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json estimate(const Estimate& estimate) {
    Json json = {{"value", number(estimate.value)},
                 {"low", number(estimate.low)},
                 {"high", number(estimate.high)}};
    if (estimate.loaf_low) json["loaf_low"] = number(*estimate.loaf_low);
    if (estimate.loaf_high) json["loaf_high"] = number(*estimate.loaf_high);
    return json;
}

Json estimate(const std::optional<Estimate>& value) {
    return value ? estimate(*value) : Json(nullptr);
}

Json coefficient(const statistics::Coefficient& coefficient) {
    const auto& interval = coefficient.interval;
    return {{"value", number(coefficient.value)},
            {"low", interval ? number(interval->low) : Json(nullptr)},
            {"high", interval ? number(interval->high) : Json(nullptr)}};
}

Json measures(const MeasureValues& values) {
    Json object = Json::object();
    for (const MeasureInfo& info : measure_catalogue) {
        const Estimate* const value = had(values, info.id);
        if (!value && info.origin == MeasureOrigin::kitchen) continue;
        place(object, info.key) = value ? estimate(*value) : Json(nullptr);
    }
    for (const char* key : null_is_an_answer)
        if (all_null(object[key])) object[key] = nullptr;
    return object;
}

Json weighed(const MeasureValues& values) {
    Json object = Json::object();
    for (const MeasureInfo& info : measure_catalogue)
        if (const Estimate* const value = had(values, info.id);
            value && info.origin == MeasureOrigin::kitchen)
            place(object, info.key) = estimate(*value);
    return object;
}

std::string printed(const Json& document) {
    return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string printed_on_one_line(const Json& document) {
    return document.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace loafmark::documents
