// Bakes for tests of what reads a journal: invented values, ids counted from 1.
#pragma once

#include <cmath>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "journal/records.h"

namespace loafmark::made_up {

// An estimate with an interval of 5 % to either side.
inline Estimate about(double value) {
    Estimate estimate;
    estimate.value = value;
    estimate.low = value - 0.05 * std::abs(value);
    estimate.high = value + 0.05 * std::abs(value);
    return estimate;
}

inline journal::SliceEntry slice(std::int64_t id, MeasureValues values) {
    journal::SliceEntry entry;
    entry.slice.id = {id};
    entry.slice.photo_name = "slice-" + std::to_string(id) + ".jpg";
    entry.slice.photo_hash = std::string(64, 'a');
    journal::Reading reading;
    reading.id = {id};
    reading.slice = {id};
    reading.analysis_version = "classical 1";
    reading.made_at = "2026-03-01T18:20:00Z";
    reading.scale_source = "mat";
    reading.values = std::move(values);
    entry.reading = reading;
    return entry;
}

inline journal::FlourShare flour(std::int64_t id, const std::string& name, double share) {
    journal::FlourShare flour;
    flour.flour = {id};
    flour.name = name;
    flour.share = Fraction(share);
    return flour;
}

// One flour, one loaf, one slice with that openness.
inline journal::BakeEntry bake(std::int64_t id, Date date, const std::string& flour_name,
                               std::int64_t flour_id, double hydration_percent, double openness) {
    journal::BakeEntry entry;
    entry.bake.id = {id};
    entry.bake.date = date;
    entry.bake.title = "Bake " + std::to_string(id);
    entry.formula_name = "Everyday loaf";
    entry.flours = {made_up::flour(flour_id, flour_name, 1)};
    entry.flours[0].grain = "wheat";
    entry.hydration = fraction_from_percent(hydration_percent);
    journal::LoafEntry loaf;
    loaf.loaf.id = {id};
    loaf.loaf.bake = {id};
    loaf.slices = {slice(id, {{Measure::openness, about(openness)}})};
    entry.loaves = {loaf};
    return entry;
}

// The bake's flour of this number came from this bag.
inline void draw(journal::BakeEntry& bake, std::int64_t flour_id, std::int64_t bag) {
    journal::MixedAmount flour;
    flour.kind = IngredientKind::flour;
    flour.name = "flour";
    flour.flour = journal::FlourId{flour_id};
    flour.bag = journal::BagId{bag};
    flour.mass = Grams(500);
    flour.flour_fraction = Fraction(1);
    bake.bake.mixed.push_back(flour);
}

}  // namespace loafmark::made_up
