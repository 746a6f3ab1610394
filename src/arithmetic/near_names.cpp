#include "arithmetic/near_names.h"

#include <algorithm>
#include <utility>

namespace loafmark {
namespace {

// Bytes that are not UTF-8 become lone surrogates, which no valid text holds, and back.
constexpr char32_t stray_byte = 0xDC00;

// The length of the well-formed sequence at the front of `text`, or 0.
std::size_t sequence_length(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const std::size_t length = byte(0) < 0x80                      ? 1
                               : byte(0) >= 0xC2 && byte(0) < 0xE0 ? 2
                               : byte(0) >= 0xE0 && byte(0) < 0xF0 ? 3
                               : byte(0) >= 0xF0 && byte(0) < 0xF5 ? 4
                                                                   : 0;
    if (length > text.size()) return 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((byte(i) & 0xC0) != 0x80) return 0;
    return length;
}

std::u32string code_points(std::string_view text) {
    std::u32string points;
    while (!text.empty()) {
        const std::size_t length = sequence_length(text);
        const auto first = static_cast<unsigned char>(text[0]);
        if (length == 0) {
            points.push_back(stray_byte + first);
            text.remove_prefix(1);
            continue;
        }
        char32_t point = length == 1 ? first : first & (0x7Fu >> length);
        for (std::size_t i = 1; i < length; ++i)
            point = (point << 6) | (static_cast<unsigned char>(text[i]) & 0x3Fu);
        points.push_back(point);
        text.remove_prefix(length);
    }
    return points;
}

std::string utf8(std::u32string_view points) {
    std::string text;
    const auto put = [&](char32_t byte) { text.push_back(static_cast<char>(byte)); };
    for (const char32_t point : points) {
        if (point < 0x80) {
            put(point);
        } else if (point >= stray_byte + 0x80 && point <= stray_byte + 0xFF) {
            put(point - stray_byte);
        } else if (point < 0x800) {
            put(0xC0 | (point >> 6));
            put(0x80 | (point & 0x3F));
        } else if (point < 0x10000) {
            put(0xE0 | (point >> 12));
            put(0x80 | ((point >> 6) & 0x3F));
            put(0x80 | (point & 0x3F));
        } else {
            put(0xF0 | (point >> 18));
            put(0x80 | ((point >> 12) & 0x3F));
            put(0x80 | ((point >> 6) & 0x3F));
            put(0x80 | (point & 0x3F));
        }
    }
    return text;
}

bool between(char32_t c, char32_t first, char32_t last) {
    return c >= first && c <= last;
}

char32_t lower_latin(char32_t c) {
    if (between(c, 'A', 'Z') || (between(c, 0xC0, 0xDE) && c != 0xD7)) return c + 32;
    // Latin Extended-A and Additional: pairs, the capital first; on even numbers, or on odd ones.
    if (between(c, 0x100, 0x137) || between(c, 0x14A, 0x177) || between(c, 0x1E00, 0x1E95) ||
        between(c, 0x1EA0, 0x1EFF))
        return c | 1;
    if (between(c, 0x139, 0x148) || between(c, 0x179, 0x17E)) return c + (c & 1);
    if (c == 0x178) return 0xFF;
    if (c == 0x1E9E) return 0xDF;
    return c;
}

// Simple case folding as Unicode defines it, for the letters of European languages.
char32_t lower(char32_t c) {
    if (between(c, 0x391, 0x3A9)) return c + 32;
    if (between(c, 0x388, 0x38A)) return c + 37;
    if (between(c, 0x410, 0x42F)) return c + 32;
    if (between(c, 0x400, 0x40F)) return c + 80;
    switch (c) {
        case 0x386:
            return 0x3AC;
        case 0x38C:
            return 0x3CC;
        case 0x38E:
            return 0x3CD;
        case 0x38F:
            return 0x3CE;
        case 0x3C2:
            return 0x3C3;  // final sigma
        default:
            return lower_latin(c);
    }
}

bool is_blank(char32_t c) {
    return c == ' ' || between(c, '\t', '\r') || c == 0xA0;
}

std::u32string folded_points(std::string_view text) {
    std::u32string result;
    for (const char32_t c : code_points(text)) {
        if (!is_blank(c))
            result.push_back(lower(c));
        else if (!result.empty() && result.back() != ' ')
            result.push_back(' ');
    }
    if (!result.empty() && result.back() == ' ') result.pop_back();
    return result;
}

// Row by row; `two_back` is for swapped neighbours.
std::size_t distance(std::u32string_view a, std::u32string_view b) {
    std::vector<std::size_t> two_back(b.size() + 1);
    std::vector<std::size_t> previous(b.size() + 1);
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j)
        row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::swap(two_back, previous);
        std::swap(previous, row);
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = previous[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({previous[j] + 1, row[j - 1] + 1, change});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], two_back[j - 2] + 1);
        }
    }
    return row[b.size()];
}

}  // namespace

std::string folded(std::string_view text) {
    return utf8(folded_points(text));
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
    return distance(folded_points(a), folded_points(b));
}

std::vector<std::string> near_names(std::string_view wanted, std::span<const std::string> known,
                                    std::size_t limit) {
    const std::u32string target = folded_points(wanted);
    if (target.empty()) return {};
    std::vector<std::pair<std::size_t, std::string>> fits;
    for (const std::string& name : known) {
        const std::u32string points = folded_points(name);
        if (points.empty()) continue;
        const std::size_t steps = distance(target, points);
        const bool within = points.find(target) != std::u32string::npos ||
                            target.find(points) != std::u32string::npos;
        if (within || 3 * steps <= std::max(target.size(), points.size()))
            fits.emplace_back(steps, name);
    }
    std::ranges::stable_sort(fits, {}, &std::pair<std::size_t, std::string>::first);
    // A slip of one letter leaves no doubt what was meant.
    if (!fits.empty() && fits.front().first == 1)
        std::erase_if(fits, [](const auto& fit) { return fit.first > 1; });
    std::vector<std::string> names;
    for (auto& [steps, name] : fits)
        if (names.size() < limit) names.push_back(std::move(name));
    return names;
}

}  // namespace loafmark
