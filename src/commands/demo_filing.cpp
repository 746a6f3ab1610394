#include "commands/demo_filing.h"

#include <algorithm>

#include "commands/failure.h"
#include "commands/print_check.h"

namespace loafmark::commands {
namespace {

void file_flours(const DemoPlan& plan, journal::Journal& journal) {
    const std::vector<journal::Flour> known = journal.flours();
    for (const journal::NewFlour& flour : plan.flours)
        if (std::ranges::find(known, flour.name, &journal::Flour::name) == known.end())
            journal.add_flour(flour);
}

journal::NewFormulaVersion version_of(const DemoFormula& formula, const journal::Journal& journal) {
    journal::NewFormulaVersion version;
    for (const DemoIngredient& wanted : formula.ingredients) {
        journal::Ingredient ingredient;
        ingredient.kind = wanted.kind;
        ingredient.name = wanted.name;
        ingredient.share = wanted.share;
        if (wanted.kind == IngredientKind::flour) {
            ingredient.flour = journal.flour(wanted.name).id;
            ingredient.flour_fraction = Fraction(1);
        }
        if (wanted.kind == IngredientKind::water) ingredient.water_fraction = Fraction(1);
        version.ingredients.push_back(ingredient);
    }
    return version;
}

void file_formulas(const DemoPlan& plan, journal::Journal& journal) {
    const std::vector<journal::FormulaVersion> known = journal.formulas();
    for (const DemoFormula& formula : plan.formulas)
        if (std::ranges::find(known, formula.name, &journal::FormulaVersion::name) == known.end())
            journal.add_formula(formula.name, version_of(formula, journal));
}

journal::BakeEntry filed_bake(const DemoBake& bake, const std::vector<journal::BakeEntry>& known,
                              journal::Journal& journal) {
    for (const journal::BakeEntry& entry : known)
        if (entry.bake.title == bake.title && entry.bake.date == bake.date) return entry;
    journal::NewBake added;
    added.date = bake.date;
    added.title = bake.title;
    added.formula_version = journal.formula(bake.formula).id;
    added.dough_mass = bake.dough;
    added.loaves = {bake.loaf};
    added.notes = bake.notes;
    return journal.add_bake(added);
}

}  // namespace

std::vector<DemoPhoto> file_demo_bakes(const DemoPlan& plan, const std::filesystem::path& samples,
                                       journal::Journal& journal) {
    file_flours(plan, journal);
    file_formulas(plan, journal);
    const std::vector<journal::BakeEntry> known = journal.find();
    std::vector<DemoPhoto> photos;
    for (const DemoBake& bake : plan.bakes) {
        const journal::LoafEntry loaf = filed_bake(bake, known, journal).loaves.front();
        if (!loaf.slices.empty()) continue;
        DemoPhoto photo;
        photo.job.photo = samples / bake.slice.photo;
        if (bake.slice.thickness) photo.facts.thickness = {*bake.slice.thickness};
        photo.facts.since_oven = bake.slice.since_oven;
        photo.job.options.thickness = photo.facts.thickness;
        photo.job.options.since_oven = photo.facts.since_oven;
        photo.job.options = with_kept_print_checks(with_kept_pictures(photo.job.options), journal);
        photo.loaf = loaf.loaf.id;
        photos.push_back(photo);
    }
    return photos;
}

}  // namespace loafmark::commands
