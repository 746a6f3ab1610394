#include "journal/slices.h"

#include <map>

#include "journal/checks.h"
#include "journal/id_list.h"
#include "journal/readings.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

struct PhotoTag;
using PhotoId = Id<PhotoTag>;

PhotoId photo_row(Store& store, const StoredPhoto& photo) {
    auto known = prepared(store.db, "SELECT id FROM photo WHERE hash = ?", photo.hash);
    if (known.executeStep()) return Row(known).take<PhotoId>();
    return insert<PhotoId>(
        store.db, "INSERT INTO photo (hash, extension, size_bytes, created_at) VALUES (?, ?, ?, ?)",
        photo.hash, photo.extension, photo.size_bytes, store.now());
}

void check(const CrumbSample& crumb) {
    if (!(crumb.mass > Grams(0)))
        throw Error("the crumb's mass is " + to_text(crumb.mass) + ", not above zero");
    if (crumb.plug_diameter.has_value() != (crumb.plugs > 0))
        throw Error("plugs of crumb want both their number and their diameter");
    if (crumb.plug_diameter && !(*crumb.plug_diameter > Millimetres(0)))
        throw Error("the plugs' diameter is " + to_text(*crumb.plug_diameter) + ", not above zero");
}

void check(const Store& store, const NewSlice& slice) {
    auto loaf = prepared(store.db, "SELECT 1 FROM loaf WHERE id = ?", slice.loaf);
    if (!loaf.executeStep())
        throw NotFound("there is no loaf " + std::to_string(slice.loaf.value), {});
    if (slice.index_in_photo < 1)
        throw Error("slices of a photo are numbered from 1, not " +
                    std::to_string(slice.index_in_photo));
    for (const Millimetres thickness : slice.thickness)
        if (!(thickness > Millimetres(0)))
            throw Error("the slice's thickness is " + to_text(thickness) + ", not above zero");
    check_word(slice.place, slice_places, "a slice's place");
    check_word(slice.cut, cut_directions, "a slice's cut");
    check_mass(slice.mass, "the slice's mass");
    if (slice.crumb) check(*slice.crumb);
    if (slice.since_oven && !(*slice.since_oven >= Hours(0)))
        throw Error("the slice was cut before it left the oven");
}

void refuse_twice(const Store& store, PhotoId photo, const std::string& photo_name,
                  const NewSlice& slice) {
    auto same = prepared(
        store.db,
        "SELECT slice.id, bake.id, slice.dropped_at FROM slice JOIN loaf ON loaf.id = slice.loaf "
        "JOIN bake ON bake.id = loaf.bake "
        "WHERE slice.loaf = ? AND photo = ? AND index_in_photo = ?",
        slice.loaf, photo, slice.index_in_photo);
    if (same.executeStep())
        throw Error(photo_name + " is filed under bake " + same.getColumn(1).getString() +
                    " already, as slice " + same.getColumn(0).getString() +
                    (same.getColumn(2).isNull() ? "" : ", which is in the bin"));
}

SliceId add_slice(Store& store, PhotoId photo, const std::string& photo_name,
                  const NewSlice& slice) {
    check(store, slice);
    refuse_twice(store, photo, photo_name, slice);
    const auto id = insert<SliceId>(
        store.db,
        "INSERT INTO slice (uid, loaf, photo, photo_name, index_in_photo, place, "
        "cut_direction, mass_g, since_oven_h, crumb_mass_g, plug_diameter_mm, plug_count, "
        "created_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        store.new_uid(), slice.loaf, photo, photo_name, slice.index_in_photo, slice.place,
        slice.cut, slice.mass, slice.since_oven,
        slice.crumb ? std::optional(slice.crumb->mass) : std::nullopt,
        slice.crumb ? slice.crumb->plug_diameter : std::nullopt,
        slice.crumb && slice.crumb->plugs > 0 ? std::optional(slice.crumb->plugs) : std::nullopt,
        store.now());
    int position = 0;
    for (const Millimetres thickness : slice.thickness)
        execute(store.db,
                "INSERT INTO slice_thickness (slice, position, thickness_mm) VALUES (?, ?, ?)", id,
                ++position, thickness);
    if (slice.reading) (void)add_reading(store, id, *slice.reading);
    return id;
}

std::vector<SliceEntry> slice_rows(const Store& store, const std::string& ids) {
    auto statement =
        prepared(store.db,
                 "SELECT slice.id, loaf, photo.hash, photo_name, index_in_photo, place, "
                 "cut_direction, mass_g, since_oven_h, crumb_mass_g, plug_diameter_mm, "
                 "coalesce(plug_count, 0) FROM slice JOIN photo ON photo.id = slice.photo "
                 "WHERE slice.id IN (SELECT value FROM json_each(?)) ORDER BY loaf, slice.id",
                 ids);
    std::vector<SliceEntry> entries;
    while (statement.executeStep()) {
        Row row(statement);
        Slice& slice = entries.emplace_back().slice;
        row.into(slice.id);
        row.into(slice.loaf);
        row.into(slice.photo_hash);
        row.into(slice.photo_name);
        row.into(slice.index_in_photo);
        row.into(slice.place);
        row.into(slice.cut);
        row.into(slice.mass);
        row.into(slice.since_oven);
        const auto crumb_mass = row.take<std::optional<Grams>>();
        const auto plug_diameter = row.take<std::optional<Millimetres>>();
        const auto plugs = row.take<int>();
        if (crumb_mass) slice.crumb = CrumbSample{*crumb_mass, plug_diameter, plugs};
    }
    return entries;
}

}  // namespace

std::optional<std::string> photo_filed_as(const Store& store, const std::string& hash) {
    auto statement = prepared(store.db, "SELECT extension FROM photo WHERE hash = ?", hash);
    if (!statement.executeStep()) return std::nullopt;
    return Row(statement).take<std::string>();
}

std::vector<SliceId> add_slices(Store& store, const StoredPhoto& photo,
                                const std::string& photo_name,
                                const std::vector<NewSlice>& slices) {
    if (slices.empty()) throw Error("no slice of " + photo_name + " was given");
    const PhotoId photo_id = photo_row(store, photo);
    std::vector<SliceId> ids;
    for (const NewSlice& slice : slices)
        ids.push_back(add_slice(store, photo_id, photo_name, slice));
    return ids;
}

std::vector<SliceEntry> slice_entries(const Store& store, const std::vector<SliceId>& ids) {
    const std::string list = id_list(ids);
    std::vector<SliceEntry> entries = slice_rows(store, list);
    std::map<SliceId, SliceEntry*> by_id;
    for (SliceEntry& entry : entries)
        by_id[entry.slice.id] = &entry;

    auto statement = prepared(store.db,
                              "SELECT slice, thickness_mm FROM slice_thickness "
                              "WHERE slice IN (SELECT value FROM json_each(?)) "
                              "ORDER BY slice, position",
                              list);
    while (statement.executeStep()) {
        Row row(statement);
        Slice& slice = by_id.at(row.take<SliceId>())->slice;
        slice.thickness.push_back(row.take<Millimetres>());
    }
    for (Reading& reading : readings(store, newest_readings(store, ids))) {
        SliceEntry& entry = *by_id.at(reading.slice);
        entry.reading = std::move(reading);
    }
    return entries;
}

SliceEntry slice_entry(const Store& store, SliceId id) {
    check_slice_exists(store, id);
    return slice_entries(store, {id}).front();
}

void check_slice_exists(const Store& store, SliceId id) {
    auto statement = prepared(store.db, "SELECT 1 FROM slice WHERE id = ?", id);
    if (!statement.executeStep())
        throw NotFound("there is no slice " + std::to_string(id.value), {});
}

}  // namespace loafmark::journal
