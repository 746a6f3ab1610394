#include "documents/find_document.h"

#include "documents/csv.h"
#include "documents/json_values.h"
#include "documents/number_text.h"

namespace loafmark::documents {
namespace {

Json flours_json(const std::vector<journal::FlourShare>& flours) {
    Json list = Json::array();
    for (const journal::FlourShare& flour : flours)
        list.push_back({{"name", flour.name},
                        {"grain", text(flour.grain)},
                        {"share", number(flour.share.count())}});
    return list;
}

// What was read of a slice, weighed of it, and weighed of its loaf.
MeasureValues known_of(const journal::LoafEntry& loaf, const journal::SliceEntry& slice) {
    MeasureValues values = slice.reading ? slice.reading->values : MeasureValues{};
    values.insert(slice.weighed.begin(), slice.weighed.end());
    values.insert(loaf.weighed.begin(), loaf.weighed.end());
    return values;
}

Json slices_json(const std::vector<journal::LoafEntry>& loaves) {
    Json list = Json::array();
    for (const journal::LoafEntry& loaf : loaves)
        for (const journal::SliceEntry& slice : loaf.slices)
            list.push_back(
                {{"id", slice.slice.id.value},
                 {"photo", slice.slice.photo_name},
                 {"reading", slice.reading ? measures(known_of(loaf, slice)) : Json(nullptr)}});
    return list;
}

// Of a loaf without slices it is told here only.
Json loaves_json(const std::vector<journal::LoafEntry>& loaves) {
    Json list = Json::array();
    for (const journal::LoafEntry& loaf : loaves)
        list.push_back({{"number", loaf.loaf.number}, {"weighed", weighed(loaf.weighed)}});
    return list;
}

Json hydration_json(const journal::BakeEntry& bake) {
    return bake.hydration ? number(percent(*bake.hydration)) : Json(nullptr);
}

Json bake_json(const journal::BakeEntry& bake) {
    return {{"id", bake.bake.id.value},
            {"date", to_text(bake.bake.date)},
            {"title", bake.bake.title},
            {"formula", bake.formula_name},
            {"formula_version", bake.formula_version},
            {"flours", flours_json(bake.flours)},
            {"hydration_percent", hydration_json(bake)},
            {"set_aside", text(bake.bake.set_aside)},
            {"loaves", loaves_json(bake.loaves)},
            {"slices", slices_json(bake.loaves)}};
}

std::string header_row() {
    std::vector<std::string> fields = {"bake",      "date",   "title",
                                       "formula",   "flours", "hydration_percent",
                                       "set_aside", "slice",  "photo"};
    for (const MeasureInfo& info : measure_catalogue) {
        if (info.state != MeasureState::built) continue;
        const std::string key(info.key);
        fields.insert(fields.end(), {key, key + ".low", key + ".high"});
    }
    return csv_row(fields);
}

// "rye 60 %; wheat 40 %"
std::string flours_text(const std::vector<journal::FlourShare>& flours) {
    std::string list;
    for (const journal::FlourShare& flour : flours) {
        if (!list.empty()) list += "; ";
        list += flour.name + " " + short_text(percent(flour.share), 4) + " %";
    }
    return list;
}

std::vector<std::string> bake_fields(const journal::BakeEntry& bake) {
    return {std::to_string(bake.bake.id.value),
            to_text(bake.bake.date),
            csv_text(bake.bake.title),
            csv_text(bake.formula_name),
            csv_text(flours_text(bake.flours)),
            bake.hydration ? short_text(percent(*bake.hydration)) : "",
            csv_text(bake.bake.set_aside.value_or(""))};
}

struct SliceOfLoaf {
    const journal::LoafEntry* loaf = nullptr;
    const journal::SliceEntry* slice = nullptr;  // null: the bake has none
};

std::vector<std::string> slice_fields(const SliceOfLoaf& row) {
    const journal::SliceEntry* const slice = row.slice;
    std::vector<std::string> fields = {slice ? std::to_string(slice->slice.id.value) : "",
                                       slice ? csv_text(slice->slice.photo_name) : ""};
    const MeasureValues values = slice ? known_of(*row.loaf, *slice) : MeasureValues{};
    for (const MeasureInfo& info : measure_catalogue) {
        if (info.state != MeasureState::built) continue;
        const auto found = values.find(info.id);
        if (found == values.end())
            fields.insert(fields.end(), 3, "");
        else
            for (const double v : {found->second.value, found->second.low, found->second.high})
                fields.push_back(short_text(v));
    }
    return fields;
}

}  // namespace

std::string find_document(const std::vector<journal::BakeEntry>& bakes) {
    Json list = Json::array();
    for (const journal::BakeEntry& bake : bakes)
        list.push_back(bake_json(bake));
    return printed({{"schema", 1}, {"bakes", list}});
}

std::string find_csv(const std::vector<journal::BakeEntry>& bakes) {
    std::string csv = header_row();
    for (const journal::BakeEntry& bake : bakes) {
        std::vector<SliceOfLoaf> slices;
        for (const journal::LoafEntry& loaf : bake.loaves)
            for (const journal::SliceEntry& slice : loaf.slices)
                slices.push_back({&loaf, &slice});
        if (slices.empty()) slices.emplace_back();
        for (const SliceOfLoaf& slice : slices) {
            std::vector<std::string> fields = bake_fields(bake);
            const std::vector<std::string> rest = slice_fields(slice);
            fields.insert(fields.end(), rest.begin(), rest.end());
            csv += csv_row(fields);
        }
    }
    return csv;
}

}  // namespace loafmark::documents
