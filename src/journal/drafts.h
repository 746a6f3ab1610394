// What is handed to the journal to be kept: a record before it has a number of its own.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "journal/records.h"

namespace loafmark::journal {

struct NewFlour {
    std::string name;  // not empty; differs from every other flour's, whatever the case
    std::optional<std::string> grain;
    std::optional<std::string> grade;
    std::optional<std::string> mill;
    std::optional<Fraction> protein;
    std::optional<ProteinBasis> protein_basis;
    std::optional<std::string> protein_typical_of;  // as Flour's
    std::optional<Fraction> moisture;
    std::optional<Fraction> ash;
    std::optional<Fraction> fibre;
    std::optional<std::string> notes;
};

// What is to change of a flour; the rest stays. A new protein content without protein_typical_of is
// the flour's own.
struct FlourChange {
    std::optional<std::string> name;
    std::optional<std::string> grain;
    std::optional<std::string> grade;
    std::optional<std::string> mill;
    std::optional<Fraction> protein;
    std::optional<ProteinBasis> protein_basis;
    std::optional<std::string> protein_typical_of;
    std::optional<Fraction> moisture;
    std::optional<Fraction> ash;
    std::optional<Fraction> fibre;
    std::optional<std::string> notes;
};

// What is known of a bag; of a change, what is to change.
struct BagFacts {
    std::optional<std::string> lot;
    std::optional<Date> bought;
    std::optional<Date> best_before;
    std::optional<Date> opened;
    std::optional<Grams> bought_mass;
    std::optional<Grams> left;  // as weighed now; left out of a new bag: all that was bought
    std::optional<Fraction> protein;
    std::optional<ProteinBasis> protein_basis;
    std::optional<Date> milled;
    std::optional<std::string> price;
    std::optional<std::string> notes;
};

struct NewBag : BagFacts {
    FlourId flour;
};

struct NewTin {
    std::string name;  // not empty
    std::optional<Millilitres> volume;
    bool operator==(const NewTin&) const = default;
};

// What is to change of the kitchen; the rest stays.
struct KitchenChange {
    KitchenFacts facts{};
    std::vector<NewTin> tins{};          // of a tin of that name, whatever the case, its new volume
    std::vector<std::string> tasters{};  // once, whatever the case
    std::vector<std::string> forgotten_tins{};  // loaves that name one keep its name
    std::vector<std::string> forgotten_tasters{};
    bool operator==(const KitchenChange&) const = default;
};

// Ingredients of a formula's version: shares of all flour, so that the flour in them sums to 1 (to
// 1e-6; as_shares_of_all_flour() of arithmetic/bakers_percent.h makes them so).
struct NewFormulaVersion {
    std::vector<Ingredient> ingredients;  // at least one with flour in it
    std::optional<std::string> notes;
};

struct NewLoaf {
    std::optional<std::string> tin;
    std::optional<bool> free_form;
    std::optional<Grams> dough_mass;
    std::optional<Grams> baked_mass;
    LoafFacts facts{};
};

struct NewBake {
    Date date;
    std::optional<std::string> title;  // left out: the formula's name
    FormulaVersionId formula_version;
    // What went into the bowl. Flour of which no bag is said is drawn on the oldest bag of it that
    // is open and holds some, else on the oldest that does. Left empty: the formula's amounts for
    // `dough_mass`, not rounded.
    std::vector<MixedAmount> mixed;
    // All dough of the bake. Left out where `mixed` is empty too: the sum of the loaves' dough
    // masses.
    std::optional<Grams> dough_mass;
    std::vector<NewLoaf>
        loaves;  // numbered from 1 in this order; left empty: one of which nothing is known
    // Kept with the bake day: the bakes of one day share one bake day, as long as their room
    // temperatures, where given, agree.
    std::optional<Celsius> room_temperature;
    std::optional<Celsius> dough_temperature;
    std::optional<std::string> handling;
    std::optional<std::string> notes;
    std::optional<std::string> set_aside;
    BakeFacts facts{};
    std::vector<BakeStep> steps{};
};

// What is to change of a bake; the rest stays.
struct BakeChange {
    std::optional<std::string> title;
    std::optional<std::vector<MixedAmount>> mixed;  // all of it
    std::optional<Celsius> dough_temperature;
    std::optional<Celsius> room_temperature;
    std::optional<std::string> handling;
    std::optional<std::string> notes;
    BakeFacts facts{};
};

// What is to change of a loaf; the rest stays.
struct LoafChange {
    std::optional<std::string> tin;
    std::optional<bool> free_form;
    std::optional<Grams> dough_mass;
    std::optional<Grams> baked_mass;
    LoafFacts facts{};
};

struct NewReading {
    std::string analysis_version;
    std::string scale_source;  // mat, strip, known length, none
    std::optional<std::string> taken;
    MeasureValues values;
    std::vector<double> cell_diameters;  // as Reading's
    std::string document;  // the slice's JSON as `measure --json` writes it, for later questions
    std::vector<std::string> warnings;  // codes
    std::map<PictureKind, ReadingPicture> pictures;
};

struct NewSlice {
    LoafId loaf;
    int index_in_photo = 1;            // left to right, top to bottom
    std::optional<std::string> place;  // of slice_places
    std::optional<std::string> cut;    // of cut_directions
    std::vector<Millimetres> thickness;
    std::optional<Grams> mass;
    std::optional<Hours> since_oven;
    std::optional<CrumbSample> crumb{};
    std::optional<NewReading> reading;  // none: the photo is kept, to be measured another time
};

}  // namespace loafmark::journal
