#include "commands/bake_text.h"

#include "commands/bake_facts_text.h"
#include "commands/reading_text.h"
#include "documents/text_table.h"

namespace loafmark::commands {
namespace {

using documents::Align;
using Rows = std::vector<std::vector<std::string>>;

std::string title_text(const journal::Bake& bake) {
    return bake.set_aside ? bake.title + " (set aside: " + *bake.set_aside + ")" : bake.title;
}

std::string mould_text(const journal::Loaf& loaf) {
    if (loaf.tin) return *loaf.tin;
    if (loaf.free_form) return *loaf.free_form ? "free-form" : "tin";
    return nothing_text;
}

std::string measure_text(const journal::SliceEntry& slice, Measure measure) {
    return slice.reading ? value_text(slice.reading->values, measure) : nothing_text;
}

std::string facts_text(const journal::BakeEntry& entry, Degrees degrees) {
    const journal::Bake& bake = entry.bake;
    Rows rows{
        {"date", to_text(bake.date)},
        {"formula", entry.formula_name + ", version " + std::to_string(entry.formula_version)},
        {"flours", flours_text(entry.flours)},
        {"hydration as mixed", percent_text(entry.hydration)}};
    if (bake.room_temperature)
        rows.push_back({"room", temperature_text(bake.room_temperature, degrees)});
    if (bake.dough_temperature)
        rows.push_back({"dough", temperature_text(bake.dough_temperature, degrees)});
    if (bake.handling) rows.push_back({"handling", *bake.handling});
    for (const std::vector<std::string>& fact : dough_facts(bake.facts, degrees))
        rows.push_back(fact);
    if (bake.notes) rows.push_back({"notes", *bake.notes});
    return documents::text_table({{"bake " + std::to_string(bake.id.value)}, {title_text(bake)}},
                                 rows);
}

std::string mixed_text(const journal::Bake& bake) {
    Rows rows;
    Grams sum{0};
    for (const journal::MixedAmount& amount : bake.mixed) {
        rows.push_back({amount.name, grams_text(amount.mass)});
        sum = sum + amount.mass;
    }
    rows.push_back({"dough", grams_text(sum)});
    return documents::text_table({{"as mixed"}, {"", Align::right}}, rows);
}

std::string loaves_text(const journal::BakeEntry& entry) {
    Rows rows;
    for (const journal::LoafEntry& loaf : entry.loaves)
        rows.push_back({std::to_string(loaf.loaf.number), mould_text(loaf.loaf),
                        grams_text(loaf.loaf.dough_mass), grams_text(loaf.loaf.baked_mass),
                        std::to_string(loaf.slices.size())});
    return documents::text_table({{"loaf"},
                                  {"baked in"},
                                  {"dough", Align::right},
                                  {"baked", Align::right},
                                  {"slices", Align::right}},
                                 rows);
}

std::string slices_text(const journal::BakeEntry& entry) {
    Rows rows;
    for (const journal::LoafEntry& loaf : entry.loaves)
        for (const journal::SliceEntry& slice : loaf.slices)
            rows.push_back({std::to_string(slice.slice.id.value), std::to_string(loaf.loaf.number),
                            slice.slice.photo_name, or_nothing(slice.slice.place),
                            measure_text(slice, Measure::loaf_height),
                            measure_text(slice, Measure::openness),
                            measure_text(slice, Measure::coarseness)});
    if (rows.empty())
        return "No slices yet. Add one: loafmark slice add " + std::to_string(entry.bake.id.value) +
               " PHOTO\n";
    return documents::text_table({{"slice"},
                                  {"loaf"},
                                  {"photo"},
                                  {"place"},
                                  {"height, mm", Align::right},
                                  {"openness", Align::right},
                                  {"coarseness, mm", Align::right}},
                                 rows);
}

}  // namespace

std::string bake_text(const journal::BakeEntry& bake, Degrees degrees) {
    return facts_text(bake, degrees) + "\n" + mixed_text(bake.bake) + "\n" +
           steps_text(bake.bake, degrees) + loaves_text(bake) + loaf_facts_text(bake, degrees) +
           "\n" + slices_text(bake);
}

std::string bakes_table(const std::vector<journal::BakeEntry>& bakes) {
    Rows rows;
    for (const journal::BakeEntry& entry : bakes) {
        std::size_t slices = 0;
        for (const journal::LoafEntry& loaf : entry.loaves)
            slices += loaf.slices.size();
        rows.push_back({std::to_string(entry.bake.id.value), to_text(entry.bake.date),
                        title_text(entry.bake), flours_text(entry.flours),
                        percent_text(entry.hydration), std::to_string(slices)});
    }
    return documents::text_table({{"bake", Align::right},
                                  {"date"},
                                  {"title"},
                                  {"flours"},
                                  {"hydration", Align::right},
                                  {"slices", Align::right}},
                                 rows);
}

std::string found_table(const std::vector<journal::BakeEntry>& bakes) {
    Rows rows;
    for (const journal::BakeEntry& entry : bakes) {
        const std::vector<std::string> head{
            std::to_string(entry.bake.id.value), to_text(entry.bake.date), title_text(entry.bake),
            flours_text(entry.flours), percent_text(entry.hydration)};
        bool has_slices = false;
        for (const journal::LoafEntry& loaf : entry.loaves)
            for (const journal::SliceEntry& slice : loaf.slices) {
                rows.push_back(head);
                for (const Measure measure :
                     {Measure::loaf_height, Measure::openness, Measure::coarseness})
                    rows.back().push_back(measure_text(slice, measure));
                has_slices = true;
            }
        if (!has_slices) {
            rows.push_back(head);
            rows.back().insert(rows.back().end(), 3, nothing_text);
        }
    }
    return documents::text_table({{"bake", Align::right},
                                  {"date"},
                                  {"title"},
                                  {"flours"},
                                  {"hydration", Align::right},
                                  {"height, mm", Align::right},
                                  {"openness", Align::right},
                                  {"coarseness, mm", Align::right}},
                                 rows);
}

}  // namespace loafmark::commands
