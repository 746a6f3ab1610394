#include "reports/shelf.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "insight/bake_values.h"
#include "reports/pictures.h"
#include "reports/plain_words.h"

namespace loafmark::reports {
namespace {

using kainjow::mustache::data;

// From these numbers of slices on the shelf is drawn smaller, then without words.
constexpr std::size_t many = 48;
constexpr std::size_t crowd = 240;

struct Standing {
    const journal::BakeEntry* bake;
    const journal::SliceEntry* slice;
    const journal::ReadingPicture* picture;
    std::size_t by_flour = 0;  // its place when flours stand together, each by water
    std::size_t by_water = 0;
};

std::vector<Standing> standing_of(const ReportInput& input, std::size_t& without_picture) {
    std::vector<Standing> list;
    for (const journal::BakeEntry& bake : input.bakes)
        for (const journal::LoafEntry& loaf : bake.loaves)
            for (const journal::SliceEntry& slice : loaf.slices) {
                const auto found = input.pictures.find(slice.slice.id);
                if (found == input.pictures.end() || !found->second.slice)
                    ++without_picture;
                else
                    list.push_back({&bake, &slice, &*found->second.slice});
            }
    return list;
}

double water_of(const Standing& one) {
    return one.bake->hydration ? one.bake->hydration->count() : 2;  // unknown stands last
}

std::string flour_of(const Standing& one) {
    const journal::FlourShare* flour = insight::main_flour(*one.bake);
    return flour ? flour->name : "\x7f";
}

// Gives each its place among the others by `key`; of equals, by date.
template <class Key>
void set_places(std::vector<Standing>& list, std::size_t Standing::*place, Key key) {
    std::vector<Standing*> order;
    for (Standing& one : list)
        order.push_back(&one);
    std::ranges::stable_sort(
        order, [&](const Standing* a, const Standing* b) { return key(*a) < key(*b); });
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i]->*place = i;
}

// "70 % water, 83 mm"
std::string label_of(const Standing& one) {
    std::string label = one.bake->hydration ? percent_text(*one.bake->hydration) + " water" : "";
    const auto add = [&](const std::string& part) { label += (label.empty() ? "" : ", ") + part; };
    if (one.slice->reading)
        if (const auto height = one.slice->reading->values.find(Measure::loaf_height);
            height != one.slice->reading->values.end())
            add(std::to_string(std::lround(height->second.value)) + " mm");
    if (one.bake->bake.set_aside) add("set aside");
    return label;
}

data slice_of(const Standing& one) {
    const std::string date = long_date(one.bake->bake.date);
    data slice;
    slice.set("cut_out", cut_out_again(*one.picture, one.slice->slice.id,
                                       cut_face_of(*one.bake) + ", " + label_of(one)));
    slice.set("bake_id", std::to_string(one.bake->bake.id.value));
    slice.set("bake_title", one.bake->bake.title);
    slice.set("date", date);
    slice.set("label", label_of(one));
    slice.set("by_flour", std::to_string(one.by_flour));
    slice.set("by_water", std::to_string(one.by_water));
    return slice;
}

// What the pictures' colours are worth.
std::string colours_of(const std::vector<Standing>& list) {
    const auto balanced =
        std::ranges::count_if(list, [](const Standing& one) { return one.picture->balanced; });
    if (balanced == 0) return "Colours are the camera's own.";
    const auto others = list.size() - static_cast<std::size_t>(balanced);
    if (others == 0) return "Colours are balanced on the target's white paper.";
    return "Colours are balanced on the target's white paper, but for " +
           counted(others, "slice", "slices") + " whose photo shows none.";
}

// Of slices that have no outline to be cut out along.
std::string in_rectangles(const std::vector<Standing>& list) {
    const auto whole = std::ranges::count_if(
        list, [](const Standing& one) { return one.picture->outline.empty(); });
    if (whole == 0) return "";
    return " " + counted(static_cast<std::size_t>(whole), "slice stands", "slices stand") +
           " in a rectangle, measured by an early version: loafmark slice remeasure --all mends "
           "that.";
}

double tallest_mm(const std::vector<Standing>& list) {
    double tallest = 50;
    for (const Standing& one : list)
        if (has_scale(*one.picture)) tallest = std::max(tallest, height_mm(*one.picture));
    return tallest;
}

}  // namespace

void set_shelf(data& page, const ReportInput& input) {
    std::size_t without_picture = 0;
    std::vector<Standing> list = standing_of(input, without_picture);
    set_places(list, &Standing::by_flour,
               [](const Standing& one) { return std::tuple(flour_of(one), water_of(one)); });
    set_places(list, &Standing::by_water, water_of);
    data scaled{data::type::list};
    data unscaled{data::type::list};
    for (const Standing& one : list)
        (has_scale(*one.picture) ? scaled : unscaled).push_back(slice_of(one));
    page.set("has_shelf", scaled.is_non_empty_list());
    page.set("has_unscaled", unscaled.is_non_empty_list());
    page.set("shelf_size", list.size() >= crowd ? " crowd" : list.size() >= many ? " many" : "");
    page.set("shelf_colours", list.empty() ? "" : colours_of(list) + in_rectangles(list));
    page.set("upright_ruler", upright_ruler(tallest_mm(list)));
    page.set("shelf_note",
             without_picture > 0
                 ? data(counted(without_picture, "slice has", "slices have") + " no picture.")
             : list.empty() ? data("No slice is filed yet.")
                            : data(false));
    page.set("shelf", scaled);
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
