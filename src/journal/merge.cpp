#include "journal/merge.h"

#include <algorithm>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "journal/error.h"
#include "journal/record_writer.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

std::string shown(const Value& value) {
    if (const auto* text = std::get_if<std::string>(&value))
        return text->size() > 60 ? text->substr(0, 57) + "..." : *text;
    if (const auto* number = std::get_if<std::int64_t>(&value)) return std::to_string(*number);
    if (const auto* number = std::get_if<double>(&value)) return number_text(*number);
    if (const auto* bytes = std::get_if<Bytes>(&value))
        return std::to_string(bytes->size()) + " bytes";
    return "nothing";
}

std::string shown(const std::vector<Values>& rows) {
    std::string text = std::to_string(rows.size()) + (rows.size() == 1 ? " line" : " lines");
    if (rows.size() > 3) return text;
    for (const Values& row : rows) {
        text += text.find(':') == std::string::npos ? ": " : "; ";
        for (std::size_t i = 0; i < row.size(); ++i)
            if (!std::holds_alternative<std::monostate>(row[i]))
                text += (i == 0 ? "" : " ") + shown(row[i]);
    }
    return text;
}

// What may differ between journals that tell the same: when each came to know it, and numbers that
// only order things within one of them.
bool is_local(const Thing& thing, const std::string& column) {
    if (column == "created_at" || follows_from_another(column)) return true;
    return thing.numbered && thing.numbered->number == column;
}

class Merge {
  public:
    Merge(Store& store, const MergeChoices& choices) : store_(store), choices_(choices) {}

    void take(RecordsOfThing& theirs) {
        const Thing& thing = theirs.thing;
        RecordReader mine(store_.db, thing);
        RecordWriter writer(store_.db, thing);
        if (thing.numbered)
            std::ranges::stable_sort(theirs.records, [&](const Record& a, const Record& b) {
                const std::size_t place = thing.place_of(thing.numbered->number);
                return a.values[place] < b.values[place];
            });
        for (Record& record : theirs.records) {
            name_as_here(thing, record);
            Record known;
            if (mine.find(record.uid, known))
                compare(thing, known, record, writer);
            else
                add(thing, record, writer);
        }
    }

    [[nodiscard]] Merged finish() {
        const bool in_the_way = std::ranges::any_of(merged_.conflicts, [&](const Conflict& one) {
            return one.same_name ? choices_.on_same_name == OnSameName::refuse
                                 : choices_.on_conflict == OnConflict::refuse;
        });
        merged_.done = !in_the_way;
        return std::move(merged_);
    }

  private:
    // References to what is another thing's twin here.
    void name_as_here(const Thing& thing, Record& record) {
        const auto name = [&](const std::vector<Column>& columns, Values& values) {
            for (std::size_t i = 0; i < columns.size(); ++i) {
                if (columns[i].refers_to.empty()) continue;
                auto* const uid = std::get_if<std::string>(&values[i]);
                if (!uid) continue;
                const auto twin = twins_.find({columns[i].refers_to, *uid});
                if (twin != twins_.end()) *uid = twin->second;
            }
        };
        name(thing.columns, record.values);
        for (std::size_t i = 0; i < thing.parts.size(); ++i)
            for (Values& row : record.parts[i])
                name(thing.parts[i].columns, row);
    }

    void compare(const Thing& thing, const Record& mine, Record& theirs, RecordWriter& writer) {
        // A photo is its content.
        const auto differences =
            thing.table == "photo" ? std::vector<Conflict>{} : differ(thing, mine, theirs);
        if (differences.empty()) {
            ++merged_.unchanged;
            return;
        }
        merged_.conflicts.insert(merged_.conflicts.end(), differences.begin(), differences.end());
        if (choices_.on_conflict != OnConflict::take_theirs) return;
        for (std::size_t i = 0; i < thing.columns.size(); ++i)
            if (is_local(thing, thing.columns[i].name)) theirs.values[i] = mine.values[i];
        writer.replace(mine.number, theirs);
        ++merged_.changed[thing.table];
    }

    static std::vector<Conflict> differ(const Thing& thing, const Record& mine,
                                        const Record& theirs) {
        std::vector<Conflict> differences;
        const auto add = [&](const std::string& column, const std::string& a,
                             const std::string& b) {
            differences.push_back({words_for(thing, mine), column, a, b, false});
        };
        for (std::size_t i = 0; i < thing.columns.size(); ++i) {
            const std::string& column = thing.columns[i].name;
            if (is_local(thing, column) || mine.values[i] == theirs.values[i]) continue;
            // It came in under that name before, to be kept apart.
            if (name_is_unique(thing) && column == "name" &&
                mine.values[i] == Value(name_apart(theirs.values[i], theirs.uid)))
                continue;
            add(column, shown(mine.values[i]), shown(theirs.values[i]));
        }
        for (std::size_t i = 0; i < thing.parts.size(); ++i)
            if (mine.parts[i] != theirs.parts[i])
                add(words_for(thing.parts[i].table), shown(mine.parts[i]), shown(theirs.parts[i]));
        return differences;
    }

    void add(const Thing& thing, Record& record, RecordWriter& writer) {
        if (thing.numbered) writer.number_freely(*thing.numbered, record);
        for (const auto& key : thing.unique) {
            const auto twin = writer.uid_with_same(key, record);
            if (!twin) continue;
            const bool by_name = key == std::vector<std::string>{"name_folded"};
            if (by_name && choices_.on_same_name == OnSameName::keep_apart) {
                rename(thing, record);
                continue;
            }
            if (by_name && choices_.on_same_name == OnSameName::refuse)
                merged_.conflicts.push_back(
                    {words_for(thing, record), "name", *twin, record.uid, true});
            twins_[{thing.table, record.uid}] = *twin;
            ++merged_.unchanged;
            return;
        }
        writer.add(record);
        ++merged_.added[thing.table];
    }

    void rename(const Thing& thing, Record& record) {
        const std::string before = words_for(thing, record);
        Value& name = record.values[thing.place_of("name")];
        name = name_apart(name, record.uid);
        merged_.renamed.push_back(before + " is " + words_for(thing, record) + " here");
    }

    static bool name_is_unique(const Thing& thing) {
        return std::ranges::find(thing.unique, std::vector<std::string>{"name_folded"}) !=
               thing.unique.end();
    }
    static std::string name_apart(const Value& name, const std::string& uid) {
        const auto* const text = std::get_if<std::string>(&name);
        return (text ? *text : "") + " (" + uid.substr(0, 8) + ")";
    }

    Store& store_;
    MergeChoices choices_;
    Merged merged_;
    // What is the same thing as one of ours: its table and uid, and the uid of ours.
    std::map<std::pair<std::string, std::string>, std::string> twins_;
};

bool knows_nothing(const Record& kitchen) {
    return std::ranges::all_of(kitchen.parts, [](const auto& rows) { return rows.empty(); }) &&
           std::ranges::count_if(kitchen.values, [](const Value& value) {
               return !std::holds_alternative<std::monostate>(value);
           }) <= 2;  // its name and when it was made
}

// A journal is made with a kitchen of which nothing is known; two journals need no two of those.
void leave_out_unknown_kitchens(std::vector<RecordsOfThing>& theirs) {
    const auto refers_to = [](const RecordsOfThing& things, const std::string& uid) {
        for (std::size_t i = 0; i < things.thing.columns.size(); ++i)
            if (things.thing.columns[i].refers_to == "kitchen")
                for (const Record& record : things.records)
                    if (record.values[i] == Value(uid)) return true;
        return false;
    };
    for (RecordsOfThing& things : theirs)
        if (things.thing.table == "kitchen")
            std::erase_if(things.records, [&](const Record& kitchen) {
                return knows_nothing(kitchen) &&
                       std::ranges::none_of(theirs, [&](const RecordsOfThing& others) {
                           return refers_to(others, kitchen.uid);
                       });
            });
}

// Whether nothing was entered here yet: then their kitchen becomes this journal's.
bool is_untouched(const Store& store, const std::vector<RecordsOfThing>& theirs) {
    int kitchens = 0;
    bool known = false;
    for (const RecordsOfThing& things : theirs)
        RecordReader(store.db, things.thing).for_each([&](const Record& record) {
            if (things.thing.table == "kitchen" && knows_nothing(record))
                ++kitchens;
            else
                known = true;
        });
    return !known && kitchens == 1;
}

}  // namespace

Merged merge_records(Store& store, std::vector<RecordsOfThing> theirs,
                     const MergeChoices& choices) {
    leave_out_unknown_kitchens(theirs);
    const bool brings_a_kitchen = std::ranges::any_of(theirs, [](const RecordsOfThing& things) {
        return things.thing.table == "kitchen" && !things.records.empty();
    });
    if (brings_a_kitchen && is_untouched(store, theirs))
        store.db.exec("DELETE FROM kitchen; DELETE FROM sqlite_sequence WHERE name = 'kitchen'");
    Merge merge(store, choices);
    for (RecordsOfThing& things : theirs)
        merge.take(things);
    return merge.finish();
}

}  // namespace loafmark::journal
