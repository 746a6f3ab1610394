#include "journal/exchange.h"

#include <nettle/base64.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>
#include <set>

#include "arithmetic/near_names.h"
#include "journal/error.h"
#include "journal/schema.h"

namespace loafmark::journal {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* mark = "loafmark_journal";

std::string base64_of(const Bytes& bytes) {
    std::string text(BASE64_ENCODE_RAW_LENGTH(bytes.size()), '\0');
    base64_encode_raw(text.data(), bytes.size(), bytes.data());
    return text;
}

bool decode(const std::string& text, Bytes& bytes) {
    base64_decode_ctx context;
    base64_decode_init(&context);
    bytes.resize(BASE64_DECODE_LENGTH(text.size()));
    std::size_t size = bytes.size();
    const bool good =
        base64_decode_update(&context, &size, bytes.data(), text.size(), text.data()) &&
        base64_decode_final(&context);
    bytes.resize(size);
    return good;
}

struct ToJson {
    Json operator()(std::monostate) const { return nullptr; }
    Json operator()(const Bytes& bytes) const { return base64_of(bytes); }
    Json operator()(const auto& value) const { return value; }
};

void put(Json& object, const std::vector<Column>& columns, const Values& values) {
    for (std::size_t i = 0; i < columns.size(); ++i)
        if (!std::holds_alternative<std::monostate>(values[i]) &&
            !follows_from_another(columns[i].name))
            object[columns[i].name] = std::visit(ToJson(), values[i]);
}

Json json_of(const Thing& thing, const Record& record) {
    Json object = {{"id", record.number}, {thing.uid, record.uid}};
    put(object, thing.columns, record.values);
    for (std::size_t i = 0; i < thing.parts.size(); ++i) {
        if (record.parts[i].empty()) continue;
        Json& rows = object[thing.parts[i].table] = Json::array();
        for (const Values& values : record.parts[i]) {
            Json& row = rows.emplace_back(Json::object());
            put(row, thing.parts[i].columns, values);
        }
    }
    return object;
}

Value value_of(const Column& column, const Json& json, const std::string& place) {
    const auto refuse = [&](const std::string& wanted) {
        throw Error(place + ": \"" + column.name + "\" is " +
                    json.dump(-1, ' ', false, Json::error_handler_t::replace).substr(0, 60) +
                    ", not " + wanted);
    };
    if (json.is_null()) return {};
    if (!column.refers_to.empty() || column.type == ColumnType::text) {
        if (!json.is_string()) refuse("a text");
        return json.get<std::string>();
    }
    switch (column.type) {
        case ColumnType::integer:
            if (!json.is_number_integer()) refuse("a whole number");
            return json.get<std::int64_t>();
        case ColumnType::real:
            if (!json.is_number()) refuse("a number");
            return json.get<double>();
        default:
            break;
    }
    Bytes bytes;
    if (!json.is_string() || !decode(json.get<std::string>(), bytes)) refuse("bytes in base 64");
    return bytes;
}

// "name_folded" from "name", in things and parts alike.
void fill_what_follows(const std::vector<Column>& columns, Values& values) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (!follows_from_another(columns[i].name)) continue;
        const std::string source = source_of(columns[i].name);
        for (std::size_t j = 0; j < columns.size(); ++j)
            if (columns[j].name == source)
                if (const auto* const text = std::get_if<std::string>(&values[j]))
                    values[i] = folded(*text);
    }
}

// Takes the columns out of `object`, so that what is left over is unknown.
Values take_values(const std::vector<Column>& columns, Json& object, const std::string& place) {
    Values values(columns.size());
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const auto found = object.find(columns[i].name);
        if (found == object.end()) continue;
        values[i] = value_of(columns[i], *found, place);
        object.erase(found);
    }
    fill_what_follows(columns, values);
    return values;
}

void refuse_leftovers(const Json& object, const std::string& place) {
    if (!object.empty())
        throw Error(place + ": \"" + object.begin().key() + "\" is nothing that is known of it");
}

std::vector<Values> take_part(const Part& part, Json& object, const std::string& place) {
    std::vector<Values> rows;
    const auto found = object.find(part.table);
    if (found == object.end()) return rows;
    if (!found->is_array()) throw Error(place + ": \"" + part.table + "\" is not a list");
    for (Json& row : *found) {
        const std::string row_place =
            place + ", " + part.table + " " + std::to_string(rows.size() + 1);
        if (!row.is_object()) throw Error(row_place + " is not an object");
        rows.push_back(take_values(part.columns, row, row_place));
        refuse_leftovers(row, row_place);
    }
    object.erase(found);
    return rows;
}

Record record_of(const Thing& thing, Json& object, std::size_t number_in_list) {
    std::string place = thing.table + " " + std::to_string(number_in_list);
    if (!object.is_object()) throw Error(place + " is not an object");
    const auto uid = object.find(thing.uid);
    if (uid == object.end() || !uid->is_string() || uid->get<std::string>().empty())
        throw Error(place + " has no \"" + thing.uid + "\"");
    Record record;
    record.uid = uid->get<std::string>();
    object.erase(uid);
    place += " (" + record.uid.substr(0, 36) + ")";
    if (const auto id = object.find("id"); id != object.end()) {
        if (!id->is_number_integer()) throw Error(place + ": \"id\" is not a whole number");
        record.number = id->get<std::int64_t>();
        object.erase(id);
    }
    record.values = take_values(thing.columns, object, place);
    for (const Part& part : thing.parts)
        record.parts.push_back(take_part(part, object, place));
    refuse_leftovers(object, place);
    return record;
}

void check_head(const Json& head) {
    if (!head.is_object() || !head.contains(mark))
        throw Error(std::string("this is no export of a journal (it has no \"") + mark + "\")");
    const auto newer = [&](const char* key, int known) {
        const auto found = head.find(key);
        return found != head.end() && found->is_number_integer() && found->get<int>() > known;
    };
    if (newer(mark, exchange_version) || newer("database_version", current_schema_version()))
        throw Error("it was written by a newer Loafmark");
}

// Things are taken as they are parsed and dropped from the tree, which would fill the memory of a
// small machine many times over.
class Reader {
  public:
    explicit Reader(const std::vector<Thing>& things) {
        for (const Thing& thing : things)
            all_.push_back({thing, {}});
    }

    bool operator()(int depth, Json::parse_event_t event, Json& parsed) {
        if (depth == 1 && event == Json::parse_event_t::key) begin(parsed.get<std::string>());
        const bool of_list = depth == 2 && current_ != nullptr;
        if (!of_list ||
            (event != Json::parse_event_t::object_end && event != Json::parse_event_t::array_end &&
             event != Json::parse_event_t::value))
            return true;
        take(parsed);
        return false;
    }

    [[nodiscard]] std::vector<RecordsOfThing>& all() { return all_; }

  private:
    void begin(const std::string& key) {
        const auto found =
            std::ranges::find(all_, key, [](const RecordsOfThing& one) { return one.thing.table; });
        current_ = found == all_.end() ? nullptr : &*found;
        seen_.clear();
        if (!current_ && key != mark && key != "database_version" && key != "exported_at")
            throw Error("\"" + key + "\" is nothing that a journal holds");
    }
    void take(Json& object) {
        Record record = record_of(current_->thing, object, current_->records.size() + 1);
        if (!seen_.insert(record.uid).second)
            throw Error(current_->thing.table + " " + record.uid + " comes twice");
        current_->records.push_back(std::move(record));
    }

    std::vector<RecordsOfThing> all_;
    RecordsOfThing* current_ = nullptr;
    std::set<std::string> seen_;
};

// "line 3, column 5: ..." of the library's words.
std::string words_of(const Json::parse_error& error) {
    const std::string words = error.what();
    const std::size_t at = words.find("parse error at ");
    return at == std::string::npos ? words
                                   : words.substr(at + std::string("parse error at ").size());
}

}  // namespace

CountsByTable write_document(const Store& store, std::ostream& out) {
    CountsByTable counts;
    out << "{\n\"" << mark << "\": " << exchange_version
        << ",\n\"database_version\": " << schema_version(store.db) << ",\n\"exported_at\": \""
        << store.now() << "\"";
    for (const Thing& thing : things_of(store.db)) {
        out << ",\n\"" << thing.table << "\": [";
        int& count = counts[thing.table];
        RecordReader reader(store.db, thing);
        reader.for_each([&](const Record& record) {
            out << (count++ == 0 ? "\n" : ",\n")
                << json_of(thing, record).dump(-1, ' ', false, Json::error_handler_t::replace);
        });
        out << "\n]";
    }
    out << "\n}\n";
    return counts;
}

std::vector<RecordsOfThing> read_document(const std::vector<Thing>& things, std::string_view text) {
    Reader reader(things);
    try {
        const Json head = Json::parse(text, std::ref(reader));
        check_head(head);
    } catch (const Json::parse_error& error) {
        throw Error("this is no JSON document: " + words_of(error));
    } catch (const Json::exception& error) {
        throw Error(std::string("this is no export of a journal: ") + error.what());
    }
    return std::move(reader.all());
}

}  // namespace loafmark::journal
