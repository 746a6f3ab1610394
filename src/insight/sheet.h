// What can be said of a flour on a page to hand out: only what the journal's own bakes support,
// each line with how many.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "insight/compare.h"
#include "journal/trial_records.h"

namespace loafmark::insight {

// What a flour is, without its name: names are brands.
struct SheetKind {
    std::string words;  // "wholemeal emmer"; "flour of a grain that is not noted"
    std::optional<std::string> grain;
    std::optional<std::string> protein;  // "12 to 13 % protein (14 % moisture)", by whole percents
};
// `bags`: of that flour. Protein is brought to one basis where its basis is known.
[[nodiscard]] SheetKind sheet_kind_of(const journal::Flour& flour,
                                      const std::vector<journal::Bag>& bags);

struct SheetLine {
    std::string heading;  // "the water it wants"
    std::string text;
    std::string from;  // "5 bakes"
};

// Slices of equal bread to bite through, equal grams a square centimetre of cut face: t = t_control
// x density_control / density. All above 0.
[[nodiscard]] Millimetres equal_bite(Millimetres control_thickness, double control_density,
                                     double density);

struct SheetWish {
    std::vector<journal::BakeEntry> own;      // bakes whose main flour it is, not set aside
    std::vector<journal::BakeEntry> control;  // what it is held against; empty: nothing
    std::string control_name;                 // a kind: "white wheat"
    std::vector<journal::BakeEntry> journal;
    std::vector<journal::Tasting> tastings;
    std::optional<journal::FlourId> flour;
    // The usual slice, for where the control's slices were not ruled.
    std::optional<Millimetres> usual_thickness;
};
// In the order of the page; what the journal cannot support is not there.
[[nodiscard]] std::vector<SheetLine> sheet_lines(const SheetWish& wish);

}  // namespace loafmark::insight
