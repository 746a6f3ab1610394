// One measure over many bakes and little else of them: what a trend over a whole journal reads.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "journal/records.h"

namespace loafmark::journal {

// A slice whose newest reading has the measure.
struct MeasuredSlice {
    LoafId loaf;
    double value = 0;  // in the measure's unit
    bool at_end = false;
    std::size_t version = 0;  // of the reading, in MeasuredBakes::analysis_versions
    bool operator==(const MeasuredSlice&) const = default;
};

struct MeasuredBake {
    BakeId id;
    Date date;
    std::string title;
    bool set_aside = false;
    std::optional<Fraction> hydration;  // as mixed
    // The flour with the largest share of all flour; of equals the first as mixed. None: no flour
    // of the journal is in it.
    std::optional<FlourId> main_flour;
    Fraction main_share;
    int left_out = 0;       // slices whose reading is too poor; they are not among the slices
    std::size_t first = 0;  // its slices, by loaf, in MeasuredBakes::slices
    std::size_t slices = 0;
};

struct MeasuredBakes {
    std::vector<MeasuredBake> bakes;  // by number
    std::vector<MeasuredSlice> slices;
    std::map<FlourId, std::string> flours;       // their names
    std::vector<std::string> analysis_versions;  // those that slices name, maybe others
    [[nodiscard]] std::span<const MeasuredSlice> of(const MeasuredBake& bake) const {
        return std::span(slices).subspan(bake.first, bake.slices);
    }
};

}  // namespace loafmark::journal
