#include "journal/readings.h"

#include <array>
#include <bit>
#include <charconv>
#include <cmath>

#include "journal/checks.h"
#include "journal/id_list.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

// Doubles as eight bytes each, the least significant first, on whatever machine.
std::vector<std::uint8_t> packed(const std::vector<double>& numbers) {
    std::vector<std::uint8_t> bytes;
    bytes.reserve(numbers.size() * 8);
    for (const double number : numbers) {
        const auto bits = std::bit_cast<std::uint64_t>(number);
        for (int shift = 0; shift < 64; shift += 8)
            bytes.push_back(static_cast<std::uint8_t>(bits >> shift));
    }
    return bytes;
}

std::vector<double> unpacked(const std::vector<std::uint8_t>& bytes) {
    std::vector<double> numbers;
    numbers.reserve(bytes.size() / 8);
    for (std::size_t begin = 0; begin + 8 <= bytes.size(); begin += 8) {
        std::uint64_t bits = 0;
        for (std::size_t i = 0; i < 8; ++i)
            bits |= std::uint64_t{bytes[begin + i]} << (8 * i);
        numbers.push_back(std::bit_cast<double>(bits));
    }
    return numbers;
}

// "12.5,3 13,4"; nothing for no point.
std::optional<std::string> text_of(const std::vector<PicturePoint>& outline) {
    if (outline.empty()) return std::nullopt;
    std::string text;
    std::array<char, 32> number{};
    const auto add = [&](double value) {
        const auto end = std::to_chars(number.data(), number.data() + number.size(), value).ptr;
        text.append(number.data(), end);
    };
    for (const PicturePoint& point : outline) {
        if (!text.empty()) text += ' ';
        add(point.x);
        text += ',';
        add(point.y);
    }
    return text;
}

std::vector<PicturePoint> outline_of(const std::string& text) {
    std::vector<PicturePoint> outline;
    const char* at = text.data();
    const char* const end = at + text.size();
    while (at < end) {
        PicturePoint point;
        const auto x = std::from_chars(at, end, point.x);
        if (x.ec != std::errc{} || x.ptr == end || *x.ptr != ',') break;
        const auto y = std::from_chars(x.ptr + 1, end, point.y);
        if (y.ec != std::errc{}) break;
        outline.push_back(point);
        at = y.ptr == end ? end : y.ptr + 1;
    }
    return outline;
}

NotFound no_reading(ReadingId id) {
    return {"there is no reading " + std::to_string(id.value), {}};
}

void check(const NewReading& reading) {
    (void)not_empty(reading.analysis_version, "the analysis's version");
    (void)not_empty(reading.scale_source, "the source of the scale");
    for (const auto& [measure, estimate] : reading.values)
        for (const double number : {estimate.value, estimate.low, estimate.high})
            if (!std::isfinite(number))
                throw Error("the value of " + std::string(info_of(measure).key) +
                            " is not a number");
    for (const auto& [kind, picture] : reading.pictures)
        if (picture.width_px <= 0 || picture.height_px <= 0 || picture.bytes.empty())
            throw Error("the reading's " + std::string(name_of(kind)) + " picture is empty");
}

void add_values(Store& store, ReadingId id, const NewReading& reading) {
    for (const auto& [measure, estimate] : reading.values)
        execute(store.db,
                "INSERT INTO reading_value (reading, key, value, low, high, loaf_low, loaf_high) "
                "VALUES (?, ?, ?, ?, ?, ?, ?)",
                id, info_of(measure).key, estimate.value, estimate.low, estimate.high,
                estimate.loaf_low, estimate.loaf_high);
    int position = 0;
    for (const std::string& code : reading.warnings)
        execute(store.db, "INSERT INTO reading_warning (reading, position, code) VALUES (?, ?, ?)",
                id, ++position, code);
}

void add_pictures(Store& store, ReadingId id, const NewReading& reading) {
    for (const auto& [kind, picture] : reading.pictures)
        execute(store.db,
                "INSERT INTO reading_picture (reading, kind, media_type, mm_per_pixel, width_px, "
                "height_px, bytes, outline_px, balanced_on_paper, small_bytes) "
                "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                id, kind, picture.media_type, picture.mm_per_pixel, picture.width_px,
                picture.height_px, picture.bytes, text_of(picture.outline), picture.balanced,
                picture.small_bytes.empty() ? std::nullopt : std::optional(picture.small_bytes));
}

// Calls take(reading, row) for each row of a table that hangs on readings; `columns` follow the
// reading's number.
template <class Take>
void for_each_of(const Store& store, std::map<ReadingId, Reading>& readings,
                 const std::string& columns, const std::string& table, const std::string& order,
                 const std::string& ids, Take take) {
    auto statement = prepared(store.db,
                              "SELECT reading, " + columns + " FROM " + table +
                                  " WHERE reading IN (SELECT value FROM json_each(?)) "
                                  "ORDER BY reading, " +
                                  order,
                              ids);
    while (statement.executeStep()) {
        Row row(statement);
        Reading& reading = readings.at(row.take<ReadingId>());
        take(reading, row);
    }
}

std::map<ReadingId, Reading> reading_rows(const Store& store, const std::string& ids) {
    auto statement = prepared(store.db,
                              "SELECT id, slice, analysis_version, made_at, scale_source, taken "
                              "FROM reading WHERE id IN (SELECT value FROM json_each(?))",
                              ids);
    std::map<ReadingId, Reading> rows;
    while (statement.executeStep()) {
        Row row(statement);
        Reading reading;
        row.into(reading.id);
        row.into(reading.slice);
        row.into(reading.analysis_version);
        row.into(reading.made_at);
        row.into(reading.scale_source);
        row.into(reading.taken);
        rows.emplace(reading.id, std::move(reading));
    }
    return rows;
}

void take_value(Reading& reading, Row& row) {
    const auto measure = measure_of_key(row.take<std::string>());
    if (!measure) return;  // of a measure that this version no longer has
    Estimate& estimate = reading.values[*measure];
    row.into(estimate.value);
    row.into(estimate.low);
    row.into(estimate.high);
    row.into(estimate.loaf_low);
    row.into(estimate.loaf_high);
}

}  // namespace

ReadingId add_reading(Store& store, SliceId slice, const NewReading& reading) {
    check(reading);
    const auto id = insert<ReadingId>(
        store.db,
        "INSERT INTO reading (uid, slice, analysis_version, made_at, scale_source, taken, "
        "document) VALUES (?, ?, ?, ?, ?, ?, ?)",
        store.new_uid(), slice, reading.analysis_version, store.now(), reading.scale_source,
        reading.taken, reading.document);
    add_values(store, id, reading);
    execute(store.db, "INSERT INTO reading_cells (reading, diameters) VALUES (?, ?)", id,
            packed(reading.cell_diameters));
    add_pictures(store, id, reading);
    return id;
}

std::vector<Reading> readings(const Store& store, const std::vector<ReadingId>& ids) {
    const std::string list = id_list(ids);
    std::map<ReadingId, Reading> rows = reading_rows(store, list);
    for_each_of(store, rows, "key, value, low, high, loaf_low, loaf_high", "reading_value", "key",
                list, take_value);
    for_each_of(
        store, rows, "code", "reading_warning", "position", list,
        [](Reading& reading, Row& row) { reading.warnings.push_back(row.take<std::string>()); });
    for_each_of(store, rows, "diameters", "reading_cells", "reading", list,
                [](Reading& reading, Row& row) {
                    reading.cell_diameters = unpacked(row.take<std::vector<std::uint8_t>>());
                });
    std::vector<Reading> result;
    for (auto& [id, reading] : rows)
        result.push_back(std::move(reading));
    return result;
}

std::vector<ReadingId> readings_of(const Store& store, SliceId slice) {
    auto statement =
        prepared(store.db, "SELECT id FROM reading WHERE slice = ? ORDER BY id", slice);
    std::vector<ReadingId> ids;
    while (statement.executeStep())
        ids.push_back(Row(statement).take<ReadingId>());
    return ids;
}

std::vector<ReadingId> newest_readings(const Store& store, const std::vector<SliceId>& slices) {
    auto statement = prepared(store.db,
                              "SELECT max(id) FROM reading "
                              "WHERE slice IN (SELECT value FROM json_each(?)) GROUP BY slice",
                              id_list(slices));
    std::vector<ReadingId> ids;
    while (statement.executeStep())
        ids.push_back(Row(statement).take<ReadingId>());
    return ids;
}

std::map<PictureKind, ReadingPicture> pictures_of(const Store& store, ReadingId id,
                                                  PictureSize size) {
    if (!prepared(store.db, "SELECT 1 FROM reading WHERE id = ?", id).executeStep())
        throw no_reading(id);
    const bool small = size == PictureSize::small;
    auto statement = prepared(store.db,
                              std::string("SELECT kind, media_type, ") +
                                  (small ? "coalesce(small_bytes, bytes)" : "bytes") +
                                  ", mm_per_pixel, width_px, height_px, coalesce(outline_px, ''), "
                                  "coalesce(balanced_on_paper, 0), " +
                                  (small ? "x''" : "coalesce(small_bytes, x'')") +
                                  " FROM reading_picture WHERE reading = ?",
                              id);
    std::map<PictureKind, ReadingPicture> pictures;
    while (statement.executeStep()) {
        Row row(statement);
        ReadingPicture& picture = pictures[row.take<PictureKind>()];
        row.into(picture.media_type);
        row.into(picture.bytes);
        row.into(picture.mm_per_pixel);
        row.into(picture.width_px);
        row.into(picture.height_px);
        picture.outline = outline_of(row.take<std::string>());
        picture.balanced = row.take<int>() == 1;
        row.into(picture.small_bytes);
    }
    return pictures;
}

std::string document_of(const Store& store, ReadingId id) {
    auto statement = prepared(store.db, "SELECT document FROM reading WHERE id = ?", id);
    if (!statement.executeStep()) throw no_reading(id);
    return Row(statement).take<std::string>();
}

}  // namespace loafmark::journal
