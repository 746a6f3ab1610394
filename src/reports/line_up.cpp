#include "reports/line_up.h"

#include <algorithm>

#include "reports/pictures.h"
#include "reports/plain_words.h"

namespace loafmark::reports {
namespace {

using kainjow::mustache::data;

std::string label_of(const journal::BakeEntry& bake) {
    std::string label = bake.hydration ? percent_text(*bake.hydration) + " water" : "";
    if (bake.bake.set_aside) label.append(label.empty() ? "" : ", ").append("set aside");
    return label;
}

data slice_data(const journal::BakeEntry& bake, const journal::ReadingPicture& picture) {
    const std::string date = long_date(bake.bake.date);
    data slice = picture_data(
        picture, std::string("Cut face of ").append(bake.bake.title).append(", ").append(date));
    slice.set("bake_id", std::to_string(bake.bake.id.value));
    slice.set("bake_title", bake.bake.title);
    slice.set("date", date);
    slice.set("label", label_of(bake));
    return slice;
}

}  // namespace

void set_line_up(data& page, const ReportInput& input) {
    data scaled{data::type::list};
    data unscaled{data::type::list};
    std::size_t without_picture = 0;
    for (const journal::BakeEntry& bake : input.bakes)
        for (const journal::LoafEntry& loaf : bake.loaves)
            for (const journal::SliceEntry& slice : loaf.slices) {
                const auto found = input.pictures.find(slice.slice.id);
                if (found == input.pictures.end() || !found->second.slice)
                    ++without_picture;
                else
                    (has_scale(*found->second.slice) ? scaled : unscaled)
                        .push_back(slice_data(bake, *found->second.slice));
            }
    page.set("has_line_up", scaled.is_non_empty_list());
    page.set("has_unscaled", unscaled.is_non_empty_list());
    const bool nothing = !scaled.is_non_empty_list() && !unscaled.is_non_empty_list();
    page.set("line_up_note",
             without_picture > 0
                 ? data(counted(without_picture, "slice has", "slices have") + " no picture.")
             : nothing ? data("No slice is filed yet.")
                       : data(false));
    page.set("line_up", scaled);
    page.set("unscaled", unscaled);
}

double widest_picture_mm(const ReportInput& input) {
    double widest = 100;
    for (const auto& [id, pictures] : input.pictures)
        for (const auto& picture : {pictures.slice, pictures.overlay})
            if (picture && has_scale(*picture)) widest = std::max(widest, width_mm(*picture));
    return widest;
}

}  // namespace loafmark::reports
