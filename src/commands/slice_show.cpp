// loafmark slice show.
#include <nlohmann/json.hpp>
#include <ostream>

#include "commands/named.h"
#include "commands/reading_text.h"
#include "commands/slice.h"
#include "commands/text.h"
#include "documents/json_values.h"

namespace loafmark::commands {
namespace {

void print_slice(const journal::LoafEntry& loaf, const journal::SliceEntry& entry,
                 const journal::Journal& journal, std::ostream& out) {
    const journal::Slice& slice = entry.slice;
    out << "Slice " << slice.id.value << ": " << slice.photo_name << ", loaf " << loaf.loaf.number;
    if (slice.place) out << ", " << *slice.place;
    if (slice.cut) out << ", cut " << *slice.cut;
    if (slice.mass) out << ", " << grams_text(slice.mass);
    if (slice.since_oven)
        out << ", " << number_text(slice.since_oven->count()) << " h out of the oven";
    out << "\n";
    if (!entry.reading) {
        out << "Not measured yet.\n";
        return;
    }
    MeasureValues values = entry.reading->values;
    values.insert(entry.weighed.begin(), entry.weighed.end());
    out << measures_text(values) << "Measured " << entry.reading->made_at << ", analysis "
        << entry.reading->analysis_version << ", scale: " << entry.reading->scale_source;
    const std::size_t older = journal.readings(slice.id).size() - 1;
    if (older > 0) out << "; " << counted(older, "older reading", "older readings");
    out << "\n";
}

}  // namespace

Outcome run(const SliceShowOptions& options, const journal::Journal& journal,
            const Context& context) {
    const journal::BakeEntry bake = named_bake(journal, options.bake, context.today);
    auto documents = nlohmann::ordered_json::array();
    bool any = false;
    for (const journal::LoafEntry& loaf : bake.loaves)
        for (const journal::SliceEntry& entry : loaf.slices) {
            if (options.json) {
                nlohmann::ordered_json document{{"id", entry.slice.id.value},
                                                {"weighed", documents::weighed(entry.weighed)},
                                                {"reading", nullptr}};
                if (entry.reading)
                    document["reading"] =
                        nlohmann::ordered_json::parse(journal.document(entry.reading->id));
                documents.push_back(document);
            } else {
                if (any) context.out << "\n";
                print_slice(loaf, entry, journal, context.out);
            }
            any = true;
        }
    if (options.json)
        context.out << documents::printed({{"schema", 1}, {"slices", documents}});
    else if (!any)
        context.out << "No slices yet. Add one: loafmark slice add " << bake.bake.id.value
                    << " PHOTO\n";
    return Outcome::done;
}

}  // namespace loafmark::commands
