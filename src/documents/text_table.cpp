#include "documents/text_table.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <stdexcept>

namespace loafmark::documents {
namespace {

struct CodeRange {
    std::uint32_t first;
    std::uint32_t last;
};

// Marks and joiners that take no column of their own. Unicode general categories Mn, Cf.
constexpr std::array<CodeRange, 8> no_width = {{{0x0300, 0x036F},
                                                {0x0483, 0x0489},
                                                {0x1AB0, 0x1AFF},
                                                {0x1DC0, 0x1DFF},
                                                {0x200B, 0x200F},
                                                {0x20D0, 0x20FF},
                                                {0xFE00, 0xFE0F},
                                                {0xFE20, 0xFE2F}}};

// Two columns: East Asian Width W and F of Unicode Standard Annex 11, emoji among them.
constexpr std::array<CodeRange, 11> double_width = {{{0x1100, 0x115F},
                                                     {0x2E80, 0x303E},
                                                     {0x3041, 0x33FF},
                                                     {0x3400, 0x4DBF},
                                                     {0x4E00, 0xA4CF},
                                                     {0xAC00, 0xD7A3},
                                                     {0xF900, 0xFAFF},
                                                     {0xFE30, 0xFE6F},
                                                     {0xFF00, 0xFF60},
                                                     {0x1F300, 0x1FAFF},
                                                     {0x20000, 0x3FFFD}}};

template <std::size_t n>
bool holds(const std::array<CodeRange, n>& ranges, std::uint32_t code) {
    return std::ranges::any_of(ranges,
                               [code](CodeRange r) { return code >= r.first && code <= r.last; });
}

struct Character {
    std::uint32_t code;
    std::size_t bytes;
};

// The character that begins `text`; a byte that is not UTF-8 stands for itself.
Character first_character(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(0);
    const std::size_t bytes = lead < 0x80           ? 1
                              : (lead >> 5) == 0x06 ? 2
                              : (lead >> 4) == 0x0E ? 3
                              : (lead >> 3) == 0x1E ? 4
                                                    : 0;
    if (bytes <= 1 || bytes > text.size()) return {lead, 1};
    std::uint32_t code = lead & (0xFFu >> (bytes + 1));
    for (std::size_t i = 1; i < bytes; ++i) {
        if ((byte(i) >> 6) != 0x02) return {lead, 1};
        code = (code << 6) | (byte(i) & 0x3Fu);
    }
    return {code, bytes};
}

std::string on_one_line(std::string text) {
    for (char& c : text)
        if (c == '\n' || c == '\r' || c == '\t') c = ' ';
    return text;
}

std::string padded(const std::string& cell, std::size_t width, Align align) {
    const std::string blanks(width - display_width(cell), ' ');
    return align == Align::left ? cell + blanks : blanks + cell;
}

}  // namespace

std::size_t display_width(std::string_view text) {
    std::size_t width = 0;
    while (!text.empty()) {
        const Character character = first_character(text);
        if (!holds(no_width, character.code)) width += holds(double_width, character.code) ? 2 : 1;
        text.remove_prefix(character.bytes);
    }
    return width;
}

std::string text_table(const std::vector<Column>& columns,
                       const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::vector<std::string>> lines(1);
    for (const Column& column : columns)
        lines[0].push_back(on_one_line(column.heading));
    for (const std::vector<std::string>& row : rows) {
        if (row.size() > columns.size())
            throw std::invalid_argument("text_table: a row has more cells than there are columns");
        lines.emplace_back(columns.size());
        std::ranges::transform(row, lines.back().begin(), on_one_line);
    }
    std::vector<std::size_t> widths(columns.size(), 0);
    for (const auto& line : lines)
        for (std::size_t i = 0; i < line.size(); ++i)
            widths[i] = std::max(widths[i], display_width(line[i]));

    std::string table;
    for (const auto& line : lines) {
        std::string printed;
        for (std::size_t i = 0; i < line.size(); ++i)
            printed += (i > 0 ? "  " : "") + padded(line[i], widths[i], columns[i].align);
        const std::size_t end = printed.find_last_not_of(' ');
        table += printed.substr(0, end == std::string::npos ? 0 : end + 1) + "\n";
    }
    return table;
}

}  // namespace loafmark::documents
