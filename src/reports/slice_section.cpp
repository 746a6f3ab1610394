#include "reports/slice_section.h"

#include <array>
#include <cmath>

#include "charts/chart.h"
#include "insight/cell_sizes.h"
#include "insight/plain_numbers.h"
#include "insight/questions.h"
#include "reports/crumb_map.h"
#include "reports/pictures.h"
#include "reports/plain_words.h"

namespace loafmark::reports {
namespace {

using journal::Reading;
using kainjow::mustache::data;

// In the order of the table. Of the rows of one place the first that was had is shown: without a
// scale, sizes against the loaf's height.
struct Row {
    Measure measure;
    std::optional<Measure> instead = std::nullopt;
    bool only_if_had = false;  // most slices have none, or older readings know nothing of it
};
constexpr std::array<Row, 17> rows = {
    {{Measure::loaf_height},
     {Measure::loaf_width},
     {Measure::cross_section_area},
     {Measure::openness},
     {Measure::openness_fine, {}, true},
     {Measure::coarseness, Measure::cell_diameter_relative_area_d50},
     {Measure::cells_per_cm2},
     {Measure::mean_free_path, {}, true},
     {Measure::unevenness, {}, true},
     {Measure::unevenness_expected, {}, true},
     {Measure::crust_separation_width, Measure::crust_separation_share_of_width, true},
     {Measure::tunnel_width, Measure::tunnel_share_of_width, true},
     {Measure::dense_base, {}, true},
     {Measure::cell_diameter_3d_volume_d50, {}, true},
     {Measure::cell_diameter_number_d10, Measure::cell_diameter_relative_number_d10},
     {Measure::cell_diameter_number_d50, Measure::cell_diameter_relative_number_d50},
     {Measure::cell_diameter_number_d90, Measure::cell_diameter_relative_number_d90}}};

bool scaled(const Reading& reading) {
    return reading.scale_source != "none";
}

std::string limit_text(const Reading& reading) {
    const auto found = reading.values.find(Measure::resolved_limit);
    if (found == reading.values.end()) return "of cells of four pixels of the photo and up";
    return "of cells of " + insight::fixed_text(found->second.value, 1) + " mm and up";
}

auto value_of(const Row& row, const Reading& reading) {
    const auto found = reading.values.find(row.measure);
    return found == reading.values.end() && row.instead ? reading.values.find(*row.instead) : found;
}

data row_data(const Row& row, const Reading& reading) {
    const auto found = value_of(row, reading);
    const bool had = found != reading.values.end() && std::isfinite(found->second.value);
    const MeasureInfo& info = info_of(had ? found->first : row.measure);
    data line;
    // "cell diameter d10, by number": what follows the comma stands small below.
    const std::string name = raised(info.name);
    const std::size_t comma = name.find(", ");
    line.set("measure", name.substr(0, comma));
    line.set("remark", info.id == Measure::openness ? data(limit_text(reading))
                       : comma != std::string::npos ? data(name.substr(comma + 2))
                                                    : data(false));
    line.set("value", had ? value_text(found->second.value, info) : "not had");
    line.set("interval",
             had ? span_text(found->second.low, found->second.high, info.decimals) : "");
    const bool loaf = had && found->second.loaf_low && found->second.loaf_high;
    line.set("loaf_interval", loaf ? data(span_text(*found->second.loaf_low,
                                                    *found->second.loaf_high, info.decimals))
                                   : data(false));
    return line;
}

bool any_loaf_interval(const Reading& reading) {
    for (const auto& [measure, estimate] : reading.values)
        if (estimate.loaf_low && estimate.loaf_high) return true;
    return false;
}

void set_readings(data& slice, const Reading& reading) {
    data lines{data::type::list};
    for (const Row& row : rows)
        if (!row.only_if_had || value_of(row, reading) != reading.values.end())
            lines.push_back(row_data(row, reading));
    slice.set("readings", lines);
    slice.set("has_loaf_interval", any_loaf_interval(reading));
    slice.set("limit_note",
              std::string("All crumb measures are ").append(limit_text(reading)) + ".");
    data warnings{data::type::list};
    for (const std::string& code : reading.warnings)
        if (const auto words = warning_words(code)) {
            data warning;
            warning.set("words", *words);
            warnings.push_back(warning);
        }
    slice.set("has_warnings", warnings.is_non_empty_list());
    slice.set("warnings", warnings);
}

charts::Histogram histogram_of(const Reading& reading) {
    const bool mm = scaled(reading);
    const std::vector<double> areas = insight::relative_areas(reading.cell_diameters);
    charts::Histogram histogram;
    histogram.title = "Share of all opening by cell size";
    histogram.description = "How much of the opening lies in small and in large cells.";
    histogram.x = {"cell diameter", mm ? "mm" : "of the loaf's height", charts::AxisKind::number};
    histogram.y = {"share of all opening", "%", charts::AxisKind::number};
    histogram.classes = charts::log_classes(reading.cell_diameters, areas);
    histogram.median = insight::half_of_opening(reading.cell_diameters);
    if (histogram.median)
        histogram.median_name = "half of it up to " +
                                insight::fixed_text(*histogram.median, mm ? 1 : 3) +
                                (mm ? " mm" : "");
    return histogram;
}

void set_histogram(data& slice, const Reading& reading) {
    const charts::Histogram histogram = histogram_of(reading);
    slice.set("has_histogram", !histogram.classes.empty());
    if (histogram.classes.empty()) return;
    const int decimals = scaled(reading) ? 2 : 4;
    data classes{data::type::list};
    for (const charts::HistogramClass& c : histogram.classes) {
        data line;
        line.set("span", span_text(c.low, c.high, decimals));
        line.set("share", insight::fixed_text(100 * c.share, 1) + " %");
        line.set("count", std::to_string(c.count));
        classes.push_back(line);
    }
    slice.set("histogram", charts::histogram_svg(histogram, charts::Embedding::in_page));
    slice.set("size_heading", histogram.x.name + ", " + histogram.x.unit);
    slice.set("classes", classes);
}

// "Slice of loaf 2, middle, 15 mm thick, 20 h after the oven"
std::string title_of(const journal::BakeEntry& bake, const journal::Loaf& loaf,
                     const journal::Slice& slice) {
    std::string title = "Slice";
    if (bake.loaves.size() > 1) title.append(" of loaf ").append(std::to_string(loaf.number));
    if (slice.place) title.append(", ").append(*slice.place);
    if (slice.cut) title.append(", cut ").append(*slice.cut);
    for (const Millimetres thickness : slice.thickness)
        title.append(", ").append(insight::fixed_text(thickness.count(), 0)).append(" mm thick");
    if (slice.since_oven)
        title.append(", ")
            .append(insight::fixed_text(slice.since_oven->count(), 0))
            .append(" h after the oven");
    return title;
}

// Openness from base to crown, with its interval.
void set_profile(data& section, const Reading& reading) {
    const auto bands = insight::profile_of(reading);
    section.set("has_profile", bands.has_value());
    if (!bands) return;
    charts::Series series;
    data lines{data::type::list};
    for (std::size_t band = 0; band < bands->size(); ++band) {
        const Estimate& value = (*bands)[band];
        series.line.push_back({10.0 * static_cast<double>(band) + 5, value.value,
                               charts::Interval(value.low, value.high)});
        data row;
        const int low = 10 * static_cast<int>(band);
        row.set("band", span_text(low, low + 10, 0));
        row.set("value", value_text(value.value, info_of(Measure::openness)));
        row.set("interval", span_text(value.low, value.high, 3));
        lines.push_back(row);
    }
    charts::ScatterChart chart;
    chart.title = "Openness from base to crown";
    chart.description = insight::where_different(reading).value_or("");
    chart.x = {"height within the loaf, base to crown", "%", charts::AxisKind::number};
    chart.y = {"openness", "", charts::AxisKind::number};
    chart.series = {series};
    section.set("profile", charts::scatter_svg(chart, charts::Embedding::in_page));
    section.set("bands", lines);
}

void set_pictures(data& section, const journal::BakeEntry& bake, const journal::SliceId id,
                  const SlicePictures& pictures) {
    const std::string face = cut_face_of(bake);
    section.set("cut_out", pictures.slice ? data(cut_out(*pictures.slice, id, face)) : data(false));
    section.set("has_overlay", pictures.overlay.has_value());
    if (pictures.overlay)
        section.set("overlay", picture_data(*pictures.overlay,
                                            face + ", with its outline, base line and cells drawn "
                                                   "in"));
    section.set("has_pictures", pictures.slice || pictures.overlay);
    section.set("has_scale", (!pictures.slice || has_scale(*pictures.slice)) &&
                                 (!pictures.overlay || has_scale(*pictures.overlay)));
}

}  // namespace

data slice_data(const journal::BakeEntry& bake, const journal::Loaf& loaf,
                const journal::SliceEntry& slice, const SlicePictures& pictures,
                const Usuals& usuals) {
    data section;
    section.set("mark_id", is_on_the_map(bake, slice) ? data(mark_id(slice)) : data(false));
    section.set("slice_title", title_of(bake, loaf, slice.slice));
    set_pictures(section, bake, slice.slice.id, pictures);
    section.set("has_reading", slice.reading.has_value());
    if (slice.reading) {
        set_readings(section, *slice.reading);
        set_histogram(section, *slice.reading);
        set_profile(section, *slice.reading);
        data answers = answers_data(*slice.reading, usuals);
        section.set("has_answers", answers.is_non_empty_list());
        section.set("answers", answers);
    }
    return section;
}

}  // namespace loafmark::reports
