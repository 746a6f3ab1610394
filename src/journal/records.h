// What the journal holds, as plain values. Words are those of docs/vocabulary.md. Anything that may
// be left out is optional: absent means unknown, and unknown is never 0, -1 or "".
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/measures.h"
#include "analysis/picture.h"
#include "analysis/target_layout.h"
#include "analysis/units.h"
#include "arithmetic/bakers_percent.h"
#include "arithmetic/dates.h"
#include "arithmetic/protein.h"

namespace loafmark::journal {

// A row's number within one journal. Ids of different things do not convert into each other.
template <class Tag>
struct Id {
    std::int64_t value = 0;
    auto operator<=>(const Id&) const = default;
};
using KitchenId = Id<struct KitchenTag>;
using FlourId = Id<struct FlourTag>;
using BagId = Id<struct BagTag>;
using FormulaId = Id<struct FormulaTag>;
using FormulaVersionId = Id<struct FormulaVersionTag>;
using BakeDayId = Id<struct BakeDayTag>;
using BakeId = Id<struct BakeTag>;
using LoafId = Id<struct LoafTag>;
using SliceId = Id<struct SliceTag>;
using ReadingId = Id<struct ReadingTag>;
using TinId = Id<struct TinTag>;

using loafmark::Date;
using loafmark::IngredientKind;
using loafmark::ProteinBasis;

struct Flour {
    FlourId id;
    std::string name;
    std::optional<std::string> grain;  // wheat, emmer, rye...
    std::optional<std::string> grade;  // white, brown, wholemeal...
    std::optional<std::string> mill;
    std::optional<Fraction> protein;
    std::optional<ProteinBasis> protein_basis;
    // The protein content is not this flour's own but typical of a kind, by this source.
    std::optional<std::string> protein_typical_of;
    std::optional<Fraction> moisture;  // each of the flour as it lies in the bag
    std::optional<Fraction> ash;
    std::optional<Fraction> fibre;
    std::optional<std::string> notes;
    bool operator==(const Flour&) const = default;
};

struct Bag {
    BagId id;
    FlourId flour;
    std::optional<std::string> lot;
    std::optional<Date> bought;
    std::optional<Date> best_before;
    std::optional<Date> opened;
    std::optional<Grams> bought_mass;
    // Its stock less what bakes drew on it. Below zero: bakes drew more than it is known to have
    // held, so that something was entered wrongly.
    std::optional<Grams> left;
    std::optional<Fraction> protein;
    std::optional<ProteinBasis> protein_basis;
    std::optional<Date> milled;
    std::optional<std::string> price;  // as written: "4.20 EUR"
    std::optional<std::string> notes;
    bool operator==(const Bag&) const = default;
};

// One line of a formula: `share` is its mass over the mass of all flour, the flour within a starter
// counted (baker's percent / 100). A starter is a leaven whose flour and water are known.
struct Ingredient {
    IngredientKind kind = IngredientKind::other;
    std::string name;
    std::optional<FlourId> flour;  // of a flour, or the flour that a starter is fed with
    Fraction share;
    Fraction water_fraction;      // water / own mass: water 1, milk 0.87, starter at 100 % 0.5
    Fraction flour_fraction;      // flour / own mass: flour 1, starter at 100 % 0.5
    std::string stage = "dough";  // starter, soaker, dough
    bool operator==(const Ingredient&) const = default;
};

// A formula never changes in place: a change is a new version.
struct FormulaVersion {
    FormulaVersionId id;
    FormulaId formula;
    std::string name;  // of the formula
    int version = 1;
    std::vector<Ingredient> ingredients;
    std::optional<std::string> notes;
    bool operator==(const FormulaVersion&) const = default;
};

// What really went into the bowl.
struct MixedAmount {
    IngredientKind kind = IngredientKind::other;
    std::string name;
    std::optional<FlourId> flour;
    std::optional<BagId> bag;
    Grams mass;
    Fraction water_fraction;
    Fraction flour_fraction;
    bool operator==(const MixedAmount&) const = default;
};

// A tin of the kitchen. Loaves name it.
struct Tin {
    TinId id;
    std::string name;
    std::optional<Millilitres> volume;  // to the brim
    bool operator==(const Tin&) const = default;
};

// What is asked once a kitchen and then known.
struct KitchenFacts {
    std::optional<Grams> scale_step;             // what the scales show
    std::optional<Millimetres> slice_thickness;  // as usually cut
    std::optional<Hours> cut_after;              // hours that loaves usually cool before
    std::optional<std::string> leaven;           // of leaven_words
    std::optional<std::string> temperatures;     // of temperature_words: read and typed in these
    bool operator==(const KitchenFacts&) const = default;
};
inline constexpr std::array<std::string_view, 2> temperature_words{"C", "F"};

struct Kitchen {
    std::string name;
    KitchenFacts facts;
    std::vector<Tin> tins;             // by name
    std::vector<std::string> tasters;  // by name
    bool operator==(const Kitchen&) const = default;
};

// What a printed target's 100 mm line measures on paper.
struct PrintCheck {
    Millimetres line;
    std::string ruled_at;  // UTC, 2026-03-01T18:20:00Z: when it was told
    bool operator==(const PrintCheck&) const = default;
};
using PrintChecks = std::map<TargetKind, PrintCheck>;

// Where along its loaf a slice was cut. Off the middle a loaf is lower and closer in crumb, and an
// end is another thing altogether: statistics leave it out unless asked.
inline constexpr std::string_view end_of_loaf = "end";
inline constexpr std::array<std::string_view, 4> slice_places{"middle", "one third", "two thirds",
                                                              end_of_loaf};
// Across the loaf's length, or along it.
inline constexpr std::array<std::string_view, 2> cut_directions{"crosswise", "lengthwise"};

// Crumb weighed without its crust: all that a slice has, or plugs of a round cutter pressed through
// it.
struct CrumbSample {
    Grams mass;
    std::optional<Millimetres> plug_diameter;  // none: the slice's whole crumb
    int plugs = 0;                             // how many; 0: the slice's whole crumb
    bool operator==(const CrumbSample&) const = default;
};

struct Slice {
    SliceId id;
    LoafId loaf;
    std::string photo_hash;              // SHA-256 of the file, lower-case hexadecimal
    std::string photo_name;              // as the baker's file was called
    int index_in_photo = 1;              // left to right, top to bottom
    std::optional<std::string> place;    // of slice_places; older entries: any words
    std::optional<std::string> cut;      // of cut_directions
    std::vector<Millimetres> thickness;  // ruled at one place or more; empty: unknown
    std::optional<Grams> mass;
    std::optional<Hours> since_oven;
    std::optional<CrumbSample> crumb{};
    bool operator==(const Slice&) const = default;
};

// What a finger's dent in the proved dough does, from too early to too late.
inline constexpr std::array<std::string_view, 4> dent_words{"springs back", "slowly", "stays",
                                                            "collapsing"};

// What else may be noted of a loaf.
struct LoafFacts {
    std::optional<Millimetres> dough_height;  // in the tin at the middle, when it was put in
    std::optional<Millimetres> proof_height;  // the same at oven entry
    std::optional<std::string> dent;          // of dent_words, at oven entry
    std::optional<std::string> scoring;
    std::optional<std::string> oven_place;
    std::optional<std::string> steam;
    std::optional<Celsius>
        core_temperature;                // at most 100 C: a core holds water and cannot pass it
    std::optional<Hours> weighed_after;  // out of the oven, when the baked mass was weighed
    std::optional<Millilitres> volume;   // by seed displacement
    std::optional<Millimetres> length;   // of the baked loaf
    // Of this loaf's final proof, where it was proved otherwise than the bake's step says.
    std::optional<Minutes> proof;
    std::optional<Celsius> proof_temperature;
    bool operator==(const LoafFacts&) const = default;
};

struct Loaf {
    LoafId id;
    BakeId bake;
    int number = 1;                  // within its bake
    std::optional<std::string> tin;  // none: free-form or unknown, see `free_form`
    std::optional<bool> free_form;
    std::optional<Grams> dough_mass;  // as scaled
    std::optional<Grams> baked_mass;
    LoafFacts facts{};
    bool operator==(const Loaf&) const = default;
};

// A picture's own bytes, or the small ones where it has them.
enum class PictureSize { full, small };

// The slice as photographed, cut out; or the same with outline, base line and cells drawn in.
enum class PictureKind { slice, overlay };

// A picture that the analysis made for people to look at, kept with its reading.
struct ReadingPicture {
    std::string media_type;              // image/jpeg
    std::vector<std::uint8_t> bytes;     // the encoded file
    std::optional<double> mm_per_pixel;  // of the stored pixels; none: no scale
    int width_px = 0;
    int height_px = 0;
    // Of a slice: closed, along it the slice can be cut out. Empty in readings of early versions.
    std::vector<PicturePoint> outline{};
    bool balanced = false;  // the target's paper was made white; else the camera's own colours
    // The same at fewer pixels, for pages of many; empty in readings of early versions.
    std::vector<std::uint8_t> small_bytes{};
    bool operator==(const ReadingPicture&) const = default;
};

// What one version of the analysis measured on a slice. A new version makes a new reading; the old
// one stays. Its pictures and its whole document are asked for apart (journal.h): they are large.
struct Reading {
    ReadingId id;
    SliceId slice;
    std::string analysis_version;
    std::string made_at;               // UTC, 2026-03-01T18:20:00Z
    std::string scale_source;          // mat, strip, known length, none
    std::optional<std::string> taken;  // the photo's local time of exposure
    MeasureValues values;
    std::vector<double> cell_diameters;  // of the counted cells; mm, or fractions of the loaf's
                                         // height without a scale
    std::vector<std::string> warnings;   // codes
    bool operator==(const Reading&) const = default;
};

// How a dough felt, from the driest to the wettest.
inline constexpr std::array<std::string_view, 6> handling_words{"stiff", "firm",  "supple",
                                                                "tacky", "slack", "pours"};

inline constexpr std::array<std::string_view, 4> leaven_words{"fresh yeast", "active dry yeast",
                                                              "instant yeast", "starter"};
inline constexpr std::array<std::string_view, 2> mixing_words{"hand", "machine"};
inline constexpr std::array<std::string_view, 3> held_shape_words{"yes", "partly", "no"};
// In the order of a bake.
inline constexpr std::array<std::string_view, 12> step_words{
    "mix",   "rest", "knead", "fold", "bulk fermentation", "divide", "shape", "final proof",
    "score", "bake", "cool",  "cut"};

// One step of a bake. A step may come again: three folds are three steps.
struct BakeStep {
    std::string step;                  // of step_words
    std::optional<std::string> began;  // local time, 2026-03-01 18:20
    std::optional<Minutes> lasted;
    std::optional<Celsius> temperature;  // of the oven when baking, else of the dough
    bool operator==(const BakeStep&) const = default;
};

// What else may be noted of a dough.
struct BakeFacts {
    std::optional<std::string> leaven;       // of leaven_words
    std::optional<Hours> leaven_fed_before;  // since the starter was fed, when it was mixed in
    std::optional<std::string> mixed_by;     // of mixing_words
    std::optional<int> folds;
    std::optional<std::string> handling_shaped;  // of handling_words; Bake::handling is at mixing
    std::optional<std::string> held_shape;       // of held_shape_words
    std::optional<Celsius> flour_temperature;    // each as it went into the bowl
    std::optional<Celsius> water_temperature;
    std::optional<Celsius> starter_temperature;
    bool operator==(const BakeFacts&) const = default;
};

struct Bake {
    BakeId id;
    BakeDayId day;
    Date date;  // of its bake day
    std::string title;
    FormulaVersionId formula_version;
    std::vector<MixedAmount> mixed;
    std::optional<Celsius> room_temperature;  // of its bake day
    std::optional<Celsius> dough_temperature;
    std::optional<std::string> handling;  // stiff, firm, supple, tacky, slack, pours
    std::optional<std::string> notes;
    std::optional<std::string> set_aside;  // the reason; shown, but left out of statistics
    BakeFacts facts{};
    std::vector<BakeStep> steps{};
    bool operator==(const Bake&) const = default;
};

// One flour's part of a bake, as mixed: `share` of all its flour.
struct FlourShare {
    FlourId flour;
    std::string name;
    std::optional<std::string> grain;
    std::optional<Fraction> protein;
    Fraction share;
    bool operator==(const FlourShare&) const = default;
};

struct SliceEntry {
    Slice slice;
    std::optional<Reading> reading;  // the newest
    MeasureValues weighed{};         // what follows from its masses (weighed.h)
    bool operator==(const SliceEntry&) const = default;
};

struct LoafEntry {
    Loaf loaf;
    std::vector<SliceEntry> slices;
    MeasureValues weighed{};  // what follows from its masses, heights and volume (weighed.h)
    bool operator==(const LoafEntry&) const = default;
};

// A bake with all that hangs on it: what `find`, trends and reports read.
struct BakeEntry {
    Bake bake;
    std::string formula_name;
    int formula_version = 1;
    std::vector<FlourShare> flours;     // largest share first
    std::optional<Fraction> hydration;  // as mixed: water in everything / flour in everything
    std::vector<LoafEntry> loaves;
    bool operator==(const BakeEntry&) const = default;
};

// What was written in one go, as `undo` lists it.
struct Change {
    std::string made_at;  // UTC
    std::string words;    // "added: bake, 2 x loaf"
    bool undone = false;
    bool can_be_undone = true;  // false: too large to be kept
    bool operator==(const Change&) const = default;
};

// Something in the bin.
struct Dropped {
    std::string table;  // flour, bag, formula, bake, slice
    std::int64_t number = 0;
    std::string name;
    std::string dropped_at;  // UTC
    bool operator==(const Dropped&) const = default;
};

}  // namespace loafmark::journal
