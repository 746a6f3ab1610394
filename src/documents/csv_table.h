// Tables as spreadsheets write them, read (RFC 4180, with what they do in practice).
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace loafmark::documents {

// The text is no table; `what` says in which line.
class CsvError : public std::runtime_error {
    using std::runtime_error::runtime_error;
};

struct CsvRow {
    int line = 1;  // where it begins in the text, from 1
    std::vector<std::string> cells;
};
struct CsvTable {
    std::vector<std::string> headings;
    std::vector<CsvRow> rows;  // each as long as `headings`; empty lines left out
};

// Cells parted by comma, semicolon or tab, whichever the first line has most of; quoted cells may
// hold anything; line ends of any system; a byte order mark is passed over. Throws CsvError for a
// row with more or fewer cells than headings, two headings alike, or a quote that is never closed.
[[nodiscard]] CsvTable parse_csv(std::string_view text);

}  // namespace loafmark::documents
