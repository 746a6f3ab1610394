#include "documents/csv_table.h"

#include <algorithm>

namespace loafmark::documents {
namespace {

char separator_of(std::string_view text) {
    const std::string_view first = text.substr(0, text.find('\n'));
    char best = ',';
    for (const char candidate : {';', '\t'})
        if (std::ranges::count(first, candidate) > std::ranges::count(first, best))
            best = candidate;
    return best;
}

class Reader {
  public:
    explicit Reader(std::string_view text) : text_(text), separator_(separator_of(text)) {}

    [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }

    CsvRow row() {
        CsvRow row{line_, {}};
        bool more = true;
        while (more) {
            row.cells.push_back(cell());
            more = !at_end() && text_[at_] == separator_;
            if (more) ++at_;
        }
        end_of_line();
        return row;
    }

  private:
    std::string cell() {
        std::string text;
        if (!at_end() && text_[at_] == '"') text = quoted();
        while (!at_end() && text_[at_] != separator_ && text_[at_] != '\n' && text_[at_] != '\r')
            text += text_[at_++];
        return text;
    }

    std::string quoted() {
        const int begin = line_;
        std::string text;
        for (++at_; !at_end(); ++at_) {
            if (text_[at_] == '"' && text_.substr(at_ + 1, 1) != "\"") {
                ++at_;
                return text;
            }
            if (text_[at_] == '"') ++at_;
            if (text_[at_] == '\n') ++line_;
            text += text_[at_];
        }
        throw CsvError("line " + std::to_string(begin) + ": a quote is opened and never closed");
    }

    void end_of_line() {
        if (!at_end() && text_[at_] == '\r') ++at_;
        if (!at_end() && text_[at_] == '\n') ++at_;
        ++line_;
    }

    std::string_view text_;
    char separator_;
    std::size_t at_ = 0;
    int line_ = 1;
};

void check_headings(const std::vector<std::string>& headings) {
    for (std::size_t i = 0; i < headings.size(); ++i)
        if (std::find(headings.begin(), headings.begin() + static_cast<std::ptrdiff_t>(i),
                      headings[i]) != headings.begin() + static_cast<std::ptrdiff_t>(i))
            throw CsvError("two columns are called '" + headings[i] + "'");
}

}  // namespace

CsvTable parse_csv(std::string_view text) {
    if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
    Reader reader(text);
    CsvTable table;
    if (reader.at_end()) return table;
    table.headings = reader.row().cells;
    check_headings(table.headings);
    while (!reader.at_end()) {
        CsvRow row = reader.row();
        if (row.cells.size() == 1 && row.cells.front().empty()) continue;
        if (row.cells.size() != table.headings.size())
            throw CsvError("line " + std::to_string(row.line) + " has " +
                           std::to_string(row.cells.size()) + " cells for " +
                           std::to_string(table.headings.size()) + " columns");
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace loafmark::documents
