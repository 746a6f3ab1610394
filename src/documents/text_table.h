#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace loafmark::documents {

enum class Align { left, right };

struct Column {
    std::string heading;
    Align align = Align::left;
};

// Aligned columns parted by two spaces, headings first, no trailing spaces, each row with a line's
// end. Rows shorter than `columns` are filled with blanks. Line ends within a cell become spaces.
// Throws std::invalid_argument for a row that is longer.
[[nodiscard]] std::string text_table(const std::vector<Column>& columns,
                                     const std::vector<std::vector<std::string>>& rows);

// How many terminal columns UTF-8 text takes: combining marks none, East Asian wide characters and
// emoji two, each byte that is not UTF-8 one.
[[nodiscard]] std::size_t display_width(std::string_view text);

}  // namespace loafmark::documents
