// The journal as one HTML page: a function from values to text.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "journal/records.h"
#include "journal/trial_records.h"

namespace loafmark::reports {

// The pictures of one slice; both show it upright.
struct SlicePictures {
    std::optional<journal::ReadingPicture> slice;    // as photographed, cut out
    std::optional<journal::ReadingPicture> overlay;  // with outline, base line and cells drawn in
};

struct ReportInput {
    std::vector<journal::BakeEntry> bakes;  // any order; the page orders them by date
    std::map<journal::SliceId, SlicePictures> pictures;
    std::vector<journal::Trial> trials;      // those that have a bake on the page are shown
    std::vector<journal::Tasting> tastings;  // of any bakes
    // The whole journal, whose repeats judge a trial; left empty where `bakes` are all of it.
    std::vector<journal::BakeEntry> all_bakes;
    [[nodiscard]] const std::vector<journal::BakeEntry>& journal_bakes() const {
        return all_bakes.empty() ? bakes : all_bakes;
    }
    std::string title = "Bake journal";
    std::string made_at;    // local date and time, as it is to be read
    std::string made_with;  // program and version, "Loafmark 0.1.0"
    // What the bakes were chosen by, in words; empty: the whole journal.
    std::string chosen_by;
    std::size_t bakes_in_bin = 0;  // left out of `bakes`; the page says how many
};

// One self-contained HTML file: no script, nothing fetched. Pictures are embedded, at one common
// millimetre scale; those without a scale stand apart and say so.
[[nodiscard]] std::string report_page(const ReportInput& input);

}  // namespace loafmark::reports
