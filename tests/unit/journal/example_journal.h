// A journal in a folder of its own that goes with it, and drafts to fill it with.
#pragma once

#include <stdlib.h>

#include <filesystem>
#include <fstream>
#include <random>
#include <string>

#include "arithmetic/bakers_percent.h"
#include "journal/journal.h"

namespace loafmark::journal {

class TemporaryFolder {
  public:
    TemporaryFolder() {
        std::string name = (std::filesystem::temp_directory_path() / "loafmark-XXXXXX").string();
        if (::mkdtemp(name.data()) == nullptr) throw Error("no temporary folder");
        path_ = name;
    }
    ~TemporaryFolder() {
        std::error_code ignored;
        std::filesystem::permissions(path_, std::filesystem::perms::owner_all, ignored);
        std::filesystem::remove_all(path_, ignored);
    }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
        return path_ / name;
    }

  private:
    std::filesystem::path path_;
};

inline void write_text(const std::filesystem::path& file, const std::string& text) {
    std::ofstream(file, std::ios::binary) << text;
}
inline std::string read_text(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

// The same times and uids in every run.
inline Environment fixed_environment(std::chrono::milliseconds wait = std::chrono::seconds(10)) {
    return {.now_utc = [] { return std::string("2026-03-01T18:20:00Z"); },
            .random_number = [engine = std::mt19937_64(42)]() mutable { return engine(); },
            .wait_for_others = wait};
}

inline Ingredient flour_line(const Flour& flour, double share) {
    return {.kind = IngredientKind::flour,
            .name = flour.name,
            .flour = flour.id,
            .share = Fraction(share),
            .water_fraction = Fraction(0),
            .flour_fraction = Fraction(1)};
}
inline Ingredient water_line(double share) {
    return {.kind = IngredientKind::water,
            .name = "Water",
            .flour = std::nullopt,
            .share = Fraction(share),
            .water_fraction = Fraction(1),
            .flour_fraction = Fraction(0)};
}
inline Ingredient salt_line(double share) {
    return {.kind = IngredientKind::salt,
            .name = "Salt",
            .flour = std::nullopt,
            .share = Fraction(share),
            .water_fraction = Fraction(0),
            .flour_fraction = Fraction(0)};
}
// At 100 % hydration.
inline Ingredient starter_line(const Flour& fed_with, double share) {
    return {.kind = IngredientKind::leaven,
            .name = "Starter",
            .flour = fed_with.id,
            .share = Fraction(share),
            .water_fraction = Fraction(0.5),
            .flour_fraction = Fraction(0.5),
            .stage = "starter"};
}

inline NewFlour new_flour(const std::string& name, const std::string& grain = "wheat") {
    NewFlour flour;
    flour.name = name;
    flour.grain = grain;
    return flour;
}

// All flour in one, nothing but water beside.
inline FormulaVersion plain_formula(Journal& journal, const std::string& name, const Flour& flour,
                                    double hydration) {
    return journal.add_formula(name, {{flour_line(flour, 1), water_line(hydration)}, {}});
}

inline KitchenChange with_tin(const std::string& name, std::optional<Millilitres> volume = {}) {
    KitchenChange change;
    change.tins = {{name, volume}};
    return change;
}

inline NewBake new_bake(const FormulaVersion& formula, Date date,
                        std::optional<std::string> title = {}) {
    NewBake bake;
    bake.date = date;
    bake.title = std::move(title);
    bake.formula_version = formula.id;
    bake.dough_mass = Grams(900);
    return bake;
}

inline NewReading new_reading(double openness) {
    NewReading reading;
    reading.analysis_version = "0.1";
    reading.scale_source = "mat";
    reading.values[Measure::openness] = {openness, openness - 0.02, openness + 0.02, 0.1, 0.6};
    reading.values[Measure::loaf_height] = {98.5, 98, 99, {}, {}};
    reading.document = "{}";
    return reading;
}

inline NewSlice new_slice(LoafId loaf, std::optional<NewReading> reading = {}) {
    NewSlice slice;
    slice.loaf = loaf;
    slice.reading = std::move(reading);
    return slice;
}

struct ExampleJournal {
    TemporaryFolder folder;
    std::filesystem::path path = folder / "journal";
    Journal journal = Journal::open(path, fixed_environment());
    Flour white = journal.add_flour(new_flour("Strong white"));
    Flour rye = journal.add_flour(new_flour("Wholemeal rye", "rye"));
    FormulaVersion formula = plain_formula(journal, "Plain loaf", white, 0.68);

    // A photo file of that content.
    [[nodiscard]] std::filesystem::path photo(const std::string& name,
                                              const std::string& content) const {
        write_text(folder / name, content);
        return folder / name;
    }
    // A bake with one slice of that openness.
    BakeEntry bake_with_slice(Date date, double openness) {
        const BakeEntry bake = journal.add_bake(new_bake(formula, date));
        const auto file = photo("slice.jpg", "photo of " + std::to_string(bake.bake.id.value));
        (void)journal.file_photo(file, {new_slice(bake.loaves[0].loaf.id, new_reading(openness))});
        return journal.bake(bake.bake.id);
    }
};

// The message of what `work` throws; "" where it throws nothing.
inline std::string message_of(const auto& work) {
    try {
        work();
    } catch (const std::exception& exception) {
        return exception.what();
    }
    return "";
}
// The suggestions of the NotFound that `work` throws.
inline std::vector<std::string> suggestions_of(const auto& work) {
    try {
        work();
    } catch (const NotFound& not_found) {
        return not_found.suggestions();
    }
    return {"nothing was thrown"};
}

}  // namespace loafmark::journal
