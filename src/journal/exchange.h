// The journal as a JSON document, as docs/database.md describes it: one line a thing, its parts
// within it.
#pragma once

#include <iosfwd>
#include <string>
#include <string_view>
#include <vector>

#include "journal/merged.h"
#include "journal/store.h"
#include "journal/things.h"

namespace loafmark::journal {

inline constexpr int exchange_version = 1;

CountsByTable write_document(const Store& store, std::ostream& out);

struct RecordsOfThing {
    Thing thing;
    std::vector<Record> records;  // in the order of the document
};
// In the order of `things`; a table that the document leaves out has none. Throws Error that names
// the place: no JSON, no export of a journal or a newer program's, an unknown table or field, a
// value of another kind, a uid that is missing or comes twice.
[[nodiscard]] std::vector<RecordsOfThing> read_document(const std::vector<Thing>& things,
                                                        std::string_view text);

}  // namespace loafmark::journal
