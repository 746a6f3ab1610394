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
    added.room_temperature = bake.room;
    added.dough_temperature = bake.dough_temperature;
    added.handling = bake.handling;
    if (bake.proof)
        added.steps = {
            {.step = "final proof", .began = {}, .lasted = bake.proof, .temperature = {}}};
    return journal.add_bake(added);
}

journal::BakeId bake_called(const std::string& title,
                            const std::vector<journal::BakeEntry>& known) {
    for (const journal::BakeEntry& entry : known)
        if (entry.bake.title == title) return entry.bake.id;
    throw Failure("the sample bakes have none called '" + title + "'", "");
}

void file_trial(const DemoPlan& plan, const std::vector<journal::BakeEntry>& known,
                journal::Journal& journal) {
    if (!plan.trial || !journal.trials().empty()) return;
    const journal::Trial trial = journal.add_trial(*plan.trial);
    std::vector<journal::TrialBake> members;
    for (const DemoBake& bake : plan.bakes) {
        if (!bake.variant) continue;
        const auto variant = std::ranges::find(trial.variants, *bake.variant);
        members.push_back(
            {bake_called(bake.title, known), static_cast<int>(variant - trial.variants.begin())});
    }
    (void)journal.add_to_trial(trial.id, members);
}

}  // namespace

void file_demo_trial(const DemoPlan& plan, journal::Journal& journal) {
    const std::vector<journal::BakeEntry> known = journal.find();
    file_trial(plan, known, journal);
    if (!journal.tastings().empty()) return;
    for (const DemoSitting& planned : plan.sittings) {
        journal::NewSitting sitting;
        sitting.date = planned.date;
        for (const DemoServing& serving : planned.servings)
            sitting.servings.push_back({bake_called(serving.bake, known), 1, serving.taster,
                                        serving.turn, serving.code, planned.since_oven,
                                        planned.kept});
        const journal::Sitting begun = journal.add_sitting(sitting);
        for (const journal::Tasting& tasting : begun.tastings)
            for (const DemoServing& serving : planned.servings)
                if (serving.code == *tasting.code)
                    (void)journal.score_serving(tasting.id, serving.scores);
    }
}

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
        photo.facts.mass = bake.slice.mass;
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
