#include "documents/text_table.h"
#include "documents/trend_document.h"
#include "insight/plain_numbers.h"
#include "insight/trend_words.h"

namespace loafmark::documents {
namespace {

using insight::Trend;
using insight::TrendGroup;

std::string with_unit(std::string_view name, std::string_view unit) {
    std::string text(name);
    if (!unit.empty()) text += ", " + std::string(unit);
    return text;
}

std::string x_name(insight::Against against) {
    // What is always had needs no word but the flour's.
    using enum insight::Against;
    return std::string(against == date || against == share ? "water"
                                                           : insight::plain_name_of(against));
}

// More bakes than these are summed up, a line a group.
constexpr std::size_t most_listed = 500;

std::string groups_table(const Trend& trend) {
    const MeasureInfo& info = info_of(trend.question.measure);
    const bool by_date = trend.question.against == insight::Against::date;
    const auto x_text = [&](const insight::TrendPoint& point) {
        return by_date ? to_text(point.date) : insight::fixed_text(point.x, 1);
    };
    std::vector<std::vector<std::string>> rows;
    for (const TrendGroup& group : trend.groups) {
        double mean = 0;
        for (const insight::TrendPoint& point : group.points)
            mean += point.y / static_cast<double>(group.points.size());
        rows.push_back({group.label(), std::to_string(group.points.size()),
                        x_text(group.points.front()) + " to " + x_text(group.points.back()),
                        insight::fixed_text(mean, info.decimals)});
    }
    const std::string_view unit = by_date ? "" : insight::unit_of(trend.question.against);
    return text_table(
               {{"flour"},
                {"bakes", Align::right},
                {with_unit(insight::plain_name_of(trend.question.against), unit), Align::right},
                {with_unit(std::string(info.name) + ", mean", info.unit), Align::right}},
               rows) +
           "(too many bakes to list here: --csv lists them)\n";
}

std::size_t points(const Trend& trend) {
    std::size_t count = 0;
    for (const TrendGroup& group : trend.groups)
        count += group.points.size();
    return count;
}

std::string bakes_table(const Trend& trend) {
    if (points(trend) > most_listed) return groups_table(trend);

    const MeasureInfo& info = info_of(trend.question.measure);
    // Days since 1970 say nothing to people; the date stands in its own column.
    const bool by_date = trend.question.against == insight::Against::date;
    const bool by_bag = trend.question.split == insight::Split::bag;
    const bool of_loaves = insight::is_of_loaves(trend.question.against);
    std::vector<Column> columns = {{"flour"}, {"date"}, {"bake"}};
    if (by_bag) columns.insert(columns.begin() + 1, {"bag"});
    if (of_loaves) columns.push_back({"loaf"});
    if (!by_date)
        columns.push_back({with_unit(insight::plain_name_of(trend.question.against),
                                     insight::unit_of(trend.question.against)),
                           Align::right});
    columns.push_back({with_unit(info.name, info.unit), Align::right});
    columns.push_back({"slices", Align::right});
    std::vector<std::vector<std::string>> rows;
    for (const TrendGroup& group : trend.groups)
        for (const insight::TrendPoint& point : group.points) {
            std::vector<std::string> row = {group.name, to_text(point.date), point.title};
            if (by_bag) row.insert(row.begin() + 1, group.bag);
            if (of_loaves) row.push_back(insight::loaves_text(point));
            if (!by_date) row.push_back(insight::fixed_text(point.x, 1));
            row.push_back(insight::fixed_text(point.y, info.decimals));
            row.push_back(std::to_string(point.slices));
            rows.push_back(std::move(row));
        }
    return text_table(columns, rows);
}

// "Left out: 1 bake set aside, 2 bakes without openness, water or flour and 1 end slice
// (--with-ends takes ends in)."
std::string left_out(const Trend& trend) {
    const auto counted = [](int n, const std::string& what) {
        return std::to_string(n) + " " + what + (n == 1 ? "" : "s");
    };
    std::vector<std::string> parts;
    if (trend.set_aside > 0) parts.push_back(counted(trend.set_aside, "bake") + " set aside");
    if (trend.without_value > 0)
        parts.push_back(counted(trend.without_value, "bake") + " without " +
                        std::string(info_of(trend.question.measure).name) + ", " +
                        x_name(trend.question.against) + " or flour");
    if (trend.outside_temperature > 0)
        parts.push_back(std::to_string(trend.outside_temperature) +
                        (trend.outside_temperature == 1 ? " loaf" : " loaves") +
                        " proved colder than 15 or warmer than 32 \u00b0C");
    if (trend.end_slices > 0)
        parts.push_back(counted(trend.end_slices, "end slice") + " (--with-ends takes ends in)");
    if (trend.poor_readings > 0) parts.push_back(counted(trend.poor_readings, "poor reading"));
    std::string text;
    for (const std::string& part : parts)
        text += (&part == &parts.front()  ? "Left out: "
                 : &part == &parts.back() ? " and "
                                          : ", ") +
                part;
    return text.empty() ? "" : text + ".\n";
}

// Begun with a capital, ended with a full stop.
std::string as_sentence(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text + ".";
}

}  // namespace

std::string trend_table(const Trend& trend) {
    std::string text;
    if (!trend.groups.empty()) text = bakes_table(trend) + "\n";
    text += as_sentence(trend.sentence) + "\n";
    for (const insight::ProofDoubling& doubling : trend.doublings)
        text += "As at 25 \u00b0C: " + doubling.sentence + ".\n";
    text += left_out(trend);
    for (const std::string& note : trend.notes)
        text += "Note: " + note + ".\n";
    return text;
}

}  // namespace loafmark::documents
