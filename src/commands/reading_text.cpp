#include "commands/reading_text.h"

#include <algorithm>
#include <cstdio>
#include <set>
#include <vector>

#include "commands/remedies.h"
#include "documents/text_table.h"

namespace loafmark::commands {
namespace {

std::string fixed(double value, int decimals) {
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", decimals, value);
    return text;
}

std::string shortest(double value) {
    char text[64];
    std::snprintf(text, sizeof text, "%.3g", value);
    return text;
}

std::string people_unit(std::string_view unit) {
    if (unit == "mm2") return "mm²";
    if (unit == "1/cm2") return "/cm²";
    if (unit == "deg") return "°";
    return std::string(unit);
}

std::string scale_text(const Scale& scale) {
    if (!scale.mm_per_pixel) return "no scale";
    std::string text = "scale: " + std::string(source_name(scale.source)) + ", " +
                       shortest(scale.mm_per_pixel->value) + " mm a pixel";
    if (scale.plane_height_mm)
        text += ", cut face " + fixed(scale.plane_height_mm->value, 0) + " mm above the target";
    return text;
}

bool concerns_slices_to_come(const Warning& warning) {
    return warning.code == WarningCode::not_yet;
}

std::string warnings_text(const PhotoReading& reading) {
    std::string text;
    std::set<std::string> said;
    std::size_t to_come = 0;
    for (const Warning& warning : reading.warnings) {
        if (concerns_slices_to_come(warning)) {
            to_come += warning.concerns.empty() ? 1 : warning.concerns.size();
            continue;
        }
        std::string line = "! ";
        if (warning.slice && reading.slices.size() > 1)
            line += "slice " + std::to_string(*warning.slice) + ": ";
        line += warning.message + "\n  -> " + std::string(remedy_for(warning.code)) + "\n";
        if (said.insert(line).second) text += line;
    }
    if (to_come > 0) text += "Further measures are not built yet; --json names them.\n";
    return text;
}

bool is_profile(Measure measure) {
    return measure >= Measure::openness_profile_1 && measure <= Measure::openness_profile_10;
}

std::string span_text(double low, double high, int decimals) {
    return fixed(low, decimals) + " to " + fixed(high, decimals);
}

bool tells_of_other_cuts(const MeasureValues& values) {
    return std::any_of(values.begin(), values.end(), [](const auto& entry) {
        return entry.second.loaf_low && entry.second.loaf_high;
    });
}

// "openness from base to crown, in ten bands: 0.31 0.44 ..."
std::string profile_text(const MeasureValues& values) {
    std::string text;
    bool any = false;
    for (int i = static_cast<int>(Measure::openness_profile_1);
         i <= static_cast<int>(Measure::openness_profile_10); ++i) {
        const auto found = values.find(static_cast<Measure>(i));
        any = any || found != values.end();
        text += found == values.end() ? " -" : " " + fixed(found->second.value, 2);
    }
    return any ? "openness from base to crown, in ten bands:" + text + "\n" : "";
}

// That there is no wide opening is an answer, too.
std::string wide_text(const MeasureValues& values) {
    if (!values.contains(Measure::openness_profile_5)) return "";
    const bool lifted = values.contains(Measure::crust_separation_share_of_width);
    const bool tunnel = values.contains(Measure::tunnel_share_of_width);
    if (lifted && tunnel) return "";
    return std::string(lifted   ? "no tunnel"
                       : tunnel ? "no lifted crust"
                                : "no lifted crust, no tunnel") +
           " of a quarter of the loaf's width\n";
}

}  // namespace

std::string value_text(const MeasureValues& values, Measure measure, const std::string& nothing) {
    const auto found = values.find(measure);
    return found == values.end() ? nothing : fixed(found->second.value, info_of(measure).decimals);
}

std::string limit_text(const MeasureValues& values) {
    const auto limit = values.find(Measure::resolved_limit);
    if (limit == values.end()) return "of cells of four pixels of the photo and up";
    return "of cells of " + shortest(limit->second.value) + " mm and up";
}

std::string measures_text(const MeasureValues& values) {
    std::vector<std::vector<std::string>> rows;
    const bool other_cuts = tells_of_other_cuts(values);
    for (const auto& [measure, estimate] : values) {
        if (measure == Measure::resolved_limit || is_profile(measure)) continue;
        const MeasureInfo& info = info_of(measure);
        rows.push_back({std::string(info.name), fixed(estimate.value, info.decimals),
                        people_unit(info.unit),
                        span_text(estimate.low, estimate.high, info.decimals)});
        if (other_cuts)
            rows.back().push_back(
                estimate.loaf_low && estimate.loaf_high
                    ? span_text(*estimate.loaf_low, *estimate.loaf_high, info.decimals)
                    : "");
    }
    std::vector<documents::Column> columns = {
        {"measure"}, {"value", documents::Align::right}, {""}, {"95 % interval"}};
    if (other_cuts) columns.push_back({"another cut"});
    return documents::text_table(columns, rows) + profile_text(values) + wide_text(values) +
           limit_text(values) + "\n";
}

std::string photo_text(const PhotoReading& reading) {
    std::string text = reading.photo + " (" + scale_text(reading.scale) + ")\n";
    for (std::size_t i = 0; i < reading.slices.size(); ++i) {
        if (reading.slices.size() > 1)
            text += "\nSlice " + std::to_string(i + 1) + " of " +
                    std::to_string(reading.slices.size()) + "\n";
        text += measures_text(reading.slices[i].values);
    }
    const std::string warnings = warnings_text(reading);
    return warnings.empty() ? text : text + "\n" + warnings;
}

}  // namespace loafmark::commands
