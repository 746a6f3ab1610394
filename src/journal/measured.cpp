#include "journal/measured.h"

#include <SQLiteCpp/Exception.h>
#include <sqlite3.h>

#include <algorithm>
#include <memory>
#include <tuple>
#include <utility>

#include "journal/bakes.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

// Rows by the hundred thousand: straight from SQLite, without an object around each value.
class Rows {
  public:
    Rows(const Store& store, const std::string& sql) : handle_(store.db.getHandle()) {
        sqlite3_stmt* made = nullptr;
        check(sqlite3_prepare_v2(handle_, sql.c_str(), -1, &made, nullptr));
        statement_.reset(made);
    }
    void bind(int index, std::string_view text) {
        check(sqlite3_bind_text(statement_.get(), index, text.data(), static_cast<int>(text.size()),
                                SQLITE_TRANSIENT));
    }
    // To be bound anew and run once more.
    void again() { check(sqlite3_reset(statement_.get())); }
    bool next() {
        const int code = sqlite3_step(statement_.get());
        if (code != SQLITE_ROW && code != SQLITE_DONE) check(code);
        return code == SQLITE_ROW;
    }
    [[nodiscard]] std::int64_t whole(int column) const {
        return sqlite3_column_int64(statement_.get(), column);
    }
    [[nodiscard]] std::optional<double> real(int column) const {
        if (sqlite3_column_type(statement_.get(), column) == SQLITE_NULL) return std::nullopt;
        return sqlite3_column_double(statement_.get(), column);
    }
    [[nodiscard]] std::string text(int column) const {
        const void* const bytes = sqlite3_column_text(statement_.get(), column);
        if (!bytes) return "";
        return {static_cast<const char*>(bytes),
                static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column))};
    }

  private:
    void check(int code) const {
        if (code != SQLITE_OK) throw SQLite::Exception(handle_, code);
    }
    struct Finalize {
        void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
    };
    sqlite3* handle_;
    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

bool narrows(const Filter& f) {
    return f.flour || f.grain || f.formula || f.hydration || f.since || f.until || f.text ||
           !f.where.empty() || f.bag || !f.shares.empty() || f.trial || f.limit || f.skip > 0;
}

std::map<std::int64_t, Date> days(const Store& store) {
    std::map<std::int64_t, Date> dates;
    Rows rows(store, "SELECT id, date FROM bake_day");
    while (rows.next())
        dates.emplace(rows.whole(0), parse_date(rows.text(1), {}));
    return dates;
}

// All that are not in the bin, by number.
std::vector<MeasuredBake> all_bakes(const Store& store) {
    const std::map<std::int64_t, Date> dates = days(store);
    std::vector<MeasuredBake> bakes;
    Rows rows(store,
              "SELECT bake.id, bake_day, title, set_aside IS NOT NULL, figures.hydration_percent "
              "FROM bake LEFT JOIN bake_figures AS figures ON figures.bake = bake.id "
              "WHERE dropped_at IS NULL ORDER BY bake.id");
    while (rows.next()) {
        MeasuredBake& bake = bakes.emplace_back();
        bake.id = {rows.whole(0)};
        bake.date = dates.at(rows.whole(1));
        bake.title = rows.text(2);
        bake.set_aside = rows.whole(3) != 0;
        if (const auto percent = rows.real(4)) bake.hydration = fraction_from_percent(*percent);
    }
    return bakes;
}

void keep_only(std::vector<MeasuredBake>& bakes, std::vector<BakeId> wanted) {
    std::ranges::sort(wanted);
    std::erase_if(bakes, [&](const MeasuredBake& bake) {
        return !std::ranges::binary_search(wanted, bake.id);
    });
}

// Walks bakes and rows, both by the bakes' numbers, together.
class InStep {
  public:
    explicit InStep(std::vector<MeasuredBake>& bakes) : at_(bakes.begin()), end_(bakes.end()) {}
    // Null where the bake is not among them. Numbers never fall from call to call.
    MeasuredBake* of(std::int64_t bake) {
        while (at_ != end_ && at_->id.value < bake)
            ++at_;
        return at_ != end_ && at_->id.value == bake ? &*at_ : nullptr;
    }

  private:
    std::vector<MeasuredBake>::iterator at_;
    std::vector<MeasuredBake>::iterator end_;
};

// The masses of one bake's flours, in the order in which they were mixed.
class Flours {
  public:
    void add(std::optional<std::int64_t> flour, double mass) {
        all_ += mass;
        if (!flour) return;
        const auto same =
            std::ranges::find(masses_, *flour, &std::pair<std::int64_t, double>::first);
        if (same == masses_.end())
            masses_.emplace_back(*flour, mass);
        else
            same->second += mass;
    }
    void give_to(MeasuredBake* bake) {
        // max_element keeps the first of equals.
        const auto most =
            std::ranges::max_element(masses_, {}, &std::pair<std::int64_t, double>::second);
        if (bake && most != masses_.end()) {
            bake->main_flour = FlourId{most->first};
            bake->main_share = Fraction(most->second / all_);
        }
        masses_.clear();
        all_ = 0;
    }

  private:
    std::vector<std::pair<std::int64_t, double>> masses_;
    double all_ = 0;
};

void give_main_flours(const Store& store, std::vector<MeasuredBake>& bakes) {
    InStep step(bakes);
    Flours flours;
    std::int64_t bake = 0;
    Rows rows(store,
              "SELECT bake, coalesce(flour, 0), mass_g * flour_fraction FROM mixed_amount "
              "WHERE flour_fraction > 0 AND mass_g > 0 ORDER BY bake, position");
    while (rows.next()) {
        if (rows.whole(0) != bake) flours.give_to(step.of(bake));
        bake = rows.whole(0);
        const std::int64_t flour = rows.whole(1);
        flours.add(flour > 0 ? std::optional(flour) : std::nullopt, *rows.real(2));
    }
    flours.give_to(step.of(bake));
}

// A slice's value on its way to its bake.
struct Value {
    std::int64_t bake = 0;
    std::int64_t slice = 0;
    MeasuredSlice measured;
};

std::vector<Value> values_of(const Store& store, Measure measure) {
    std::vector<Value> values;
    Rows rows(store, "SELECT slice, value, bake FROM slice_value WHERE key = ?");
    rows.bind(1, info_of(measure).key);
    while (rows.next())
        values.push_back({rows.whole(2), rows.whole(0), {{}, *rows.real(1), false, 0}});
    std::ranges::sort(values, {}, &Value::slice);
    Rows slices(store, "SELECT id, loaf, place FROM slice ORDER BY id");
    auto at = values.begin();
    while (at != values.end() && slices.next()) {
        if (slices.whole(0) != at->slice) continue;
        at->measured.loaf = LoafId{slices.whole(1)};
        at->measured.at_end = slices.text(2) == end_of_loaf;
        ++at;
    }
    return values;
}

// Which version read each slice; `values` by slice. Mostly there is one, and the ends of an index
// say so.
std::vector<std::string> give_versions(const Store& store, std::vector<Value>& values) {
    Rows ends(store, "SELECT min(analysis_version), max(analysis_version) FROM reading");
    if (!ends.next() || ends.text(0).empty()) return {};
    if (ends.text(0) == ends.text(1)) return {ends.text(0)};
    std::vector<std::string> versions;
    // With max() the other columns are those of its row.
    Rows rows(store,
              "SELECT slice, analysis_version, max(id) FROM reading GROUP BY slice ORDER BY slice");
    auto at = values.begin();
    while (at != values.end() && rows.next()) {
        if (rows.whole(0) != at->slice) continue;
        const std::string version = rows.text(1);
        const auto known = std::ranges::find(versions, version);
        at->measured.version = static_cast<std::size_t>(known - versions.begin());
        if (known == versions.end()) versions.push_back(version);
        ++at;
    }
    return versions;
}

// Slices whose newest reading has one of the warnings, and their bakes.
std::map<std::int64_t, std::int64_t> poor_slices(const Store& store,
                                                 std::span<const std::string_view> warnings) {
    std::map<std::int64_t, std::int64_t> poor;
    Rows rows(store,
              "SELECT slice.id, loaf.bake FROM reading_warning AS w "
              "JOIN reading ON reading.id = w.reading JOIN slice ON slice.id = reading.slice "
              "JOIN loaf ON loaf.id = slice.loaf WHERE w.code = ? AND slice.dropped_at IS NULL "
              "AND reading.id = (SELECT max(id) FROM reading AS r WHERE r.slice = slice.id)");
    for (const std::string_view warning : warnings) {
        rows.bind(1, warning);
        while (rows.next())
            poor.emplace(rows.whole(0), rows.whole(1));
        rows.again();
    }
    return poor;
}

void give_slices(MeasuredBakes& measured, std::vector<Value> values,
                 const std::map<std::int64_t, std::int64_t>& poor) {
    std::vector<std::int64_t> of_poor;
    for (const auto& [slice, bake] : poor)
        of_poor.push_back(bake);
    std::ranges::sort(of_poor);
    InStep left_out(measured.bakes);
    for (const std::int64_t bake : of_poor)
        if (MeasuredBake* const found = left_out.of(bake)) ++found->left_out;
    if (!poor.empty())
        std::erase_if(values, [&](const Value& value) { return poor.contains(value.slice); });
    std::ranges::sort(values, {}, [](const Value& value) {
        return std::tuple(value.bake, value.measured.loaf, value.slice);
    });
    InStep step(measured.bakes);
    for (const Value& value : values) {
        MeasuredBake* const bake = step.of(value.bake);
        if (!bake) continue;
        if (bake->slices++ == 0) bake->first = measured.slices.size();
        measured.slices.push_back(value.measured);
    }
}

}  // namespace

MeasuredBakes measured_bakes(const Store& store, const Filter& filter, Measure measure,
                             std::span<const std::string_view> poor_warnings) {
    MeasuredBakes measured;
    measured.bakes = all_bakes(store);
    if (narrows(filter)) keep_only(measured.bakes, matching_bakes(store, filter));
    give_main_flours(store, measured.bakes);
    std::vector<Value> values = values_of(store, measure);
    measured.analysis_versions = give_versions(store, values);
    give_slices(measured, std::move(values), poor_slices(store, poor_warnings));
    Rows rows(store, "SELECT id, name FROM flour");
    while (rows.next())
        measured.flours.emplace(FlourId{rows.whole(0)}, rows.text(1));
    return measured;
}

}  // namespace loafmark::journal
