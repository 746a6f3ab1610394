#include "reports/plain_words.h"

#include <array>
#include <cmath>

#include "analysis/reading.h"
#include "insight/plain_numbers.h"

namespace loafmark::reports {
namespace {

constexpr std::array<std::string_view, 12> months = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

std::optional<std::string> words_of(WarningCode code) {
    switch (code) {
        case WarningCode::no_target:
            return "Nothing in the photo gives a scale, so there are no millimetres; cell sizes "
                   "are "
                   "told against the loaf's height.";
        case WarningCode::known_length_only:
            return "The scale comes from one known length. How far the photo was tilted is "
                   "unknown, so "
                   "the intervals are wide.";
        case WarningCode::target_partly_hidden:
            return "Part of the target was hidden; the scale rests on what was seen of it.";
        case WarningCode::target_conflict:
            return "The target does not look as it was printed: bent, rescaled, or two in one "
                   "photo. "
                   "The scale may be off.";
        case WarningCode::thickness_assumed:
            return "The slice's thickness was not noted; a usual one was assumed, and the "
                   "intervals "
                   "allow for it.";
        case WarningCode::focal_length_assumed:
            return "The photo does not say with what lens it was taken; a usual phone was assumed.";
        case WarningCode::cut_by_frame:
            return "The edge of the photo cuts the slice, so its height, width and area are not "
                   "known.";
        case WarningCode::base_in_doubt:
            return "Which of the slice's sides is the base was a guess; the intervals of height "
                   "and "
                   "width hold the other side's values too.";
        case WarningCode::several_slices:
            return "Several slices are in the photo; this is one of them.";
        case WarningCode::assumed_width:
            return "For want of a scale, cells were looked for as if the slice were 120 mm wide.";
        case WarningCode::low_resolution:
            return "The photo is too coarse for the smallest cells; come closer next time.";
        case WarningCode::no_cells:
            return "No cells were found in the crumb.";
        case WarningCode::print_not_checked:
            return "Nobody ruled the printed target's 100 mm line; the intervals allow for a usual "
                   "printer.";
        case WarningCode::target_mirrored:
            return "The target is seen mirrored and gives no scale.";
        case WarningCode::target_small:
            return "The target is small in the photo, and the scale unsure for it.";
        case WarningCode::tilted:
            return "The photo was taken from far aside.";
        case WarningCode::glare:
            return "The target's paper shines; outline and colours may be off there.";
        case WarningCode::uneven_light:
            return "One side of the photo has far more light than the other.";
        case WarningCode::blurred:
            return "The photo is not sharp; small cells are washed out.";
        case WarningCode::overexposed:
            return "Part of the slice is white without detail; cells there are lost.";
        case WarningCode::underexposed:
            return "The slice is near black; cells are hard to tell from crumb.";
        case WarningCode::cut_warm:
            return "The loaf was cut within an hour of the oven; smeared cells are likely.";
        // The table does not list what is not built.
        case WarningCode::not_yet:
            return std::nullopt;
    }
    return std::nullopt;
}

void replace_all(std::string& text, std::string_view what, std::string_view with) {
    for (std::size_t at = text.find(what); at != std::string::npos;
         at = text.find(what, at + with.size()))
        text.replace(at, what.size(), with);
}

}  // namespace

std::string long_date(journal::Date date) {
    std::string text = std::to_string(date.day);
    text.append(" ").append(months.at(static_cast<std::size_t>(date.month) - 1));
    return text.append(" ").append(std::to_string(date.year));
}

std::string percent_text(Fraction fraction) {
    const double tenths = std::round(percent(fraction) * 10) / 10;
    return insight::fixed_text(tenths, tenths == std::round(tenths) ? 0 : 1) + " %";
}

std::string raised(std::string_view unit_or_name) {
    std::string text(unit_or_name);
    replace_all(text, "mm2", "mm\u00b2");
    replace_all(text, "cm2", "cm\u00b2");
    replace_all(text, "cm3", "cm\u00b3");
    return text;
}

std::string value_text(double value, const MeasureInfo& info) {
    std::string text = insight::fixed_text(value, info.decimals);
    // What is counted per something has it in its name.
    if (!info.unit.empty() && !info.unit.starts_with("1/"))
        text.append(" ").append(raised(info.unit));
    return text;
}

std::string span_text(double low, double high, int decimals) {
    std::string text = insight::fixed_text(low, decimals);
    return text.append("\u2013").append(insight::fixed_text(high, decimals));
}

std::string as_sentence(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text + ".";
}

std::string flours_text(const std::vector<journal::FlourShare>& flours) {
    std::string text;
    for (const journal::FlourShare& flour : flours) {
        if (!text.empty()) text += ", ";
        text.append(flour.name).append(" ").append(percent_text(flour.share));
    }
    return text.empty() ? "flour not noted" : text;
}

std::optional<std::string> warning_words(const std::string& code) {
    for (int i = 0; i <= static_cast<int>(WarningCode::not_yet); ++i) {
        const auto known = static_cast<WarningCode>(i);
        if (code_name(known) == code) return words_of(known);
    }
    // Of a later version of the analysis: its code is better than silence.
    return code;
}

}  // namespace loafmark::reports
