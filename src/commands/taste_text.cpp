#include "commands/taste_text.h"

#include <nlohmann/json.hpp>

#include "commands/text.h"
#include "documents/json_values.h"
#include "documents/text_table.h"

namespace loafmark::commands {
namespace {

using documents::Align;
using Json = nlohmann::ordered_json;

// "3", or "1+4" of a variant's bakes.
std::string numbers_of(const insight::BakeTasting& bake) {
    std::string text;
    for (const journal::BakeId id : bake.bakes)
        text += (text.empty() ? "" : "+") + std::to_string(id.value);
    return text;
}

std::vector<std::string> keys_shown(const insight::TasteSummary& summary) {
    std::vector<std::string> keys;
    for (const journal::TastingLine& line : journal::tasting_lines)
        keys.emplace_back(line.key);
    keys.emplace_back("liking");
    std::erase_if(keys, [&](const std::string& key) {
        for (const insight::BakeTasting& bake : summary.bakes)
            for (const insight::LineMean& mean : bake.lines)
                if (mean.key == key) return false;
        return true;
    });
    return keys;
}

// Lines down, bakes across.
std::string means_table(const insight::TasteSummary& summary) {
    std::vector<documents::Column> columns{{"0 - 10"}};
    for (const insight::BakeTasting& bake : summary.bakes)
        columns.push_back({numbers_of(bake), Align::right});
    std::vector<std::vector<std::string>> rows;
    for (const std::string& key : keys_shown(summary)) {
        std::vector<std::string> row{insight::line_words(key)};
        for (const insight::BakeTasting& bake : summary.bakes) {
            std::string cell = nothing_text;
            for (const insight::LineMean& mean : bake.lines)
                if (mean.key == key)
                    cell = number_text(mean.value) + " (" + std::to_string(mean.tastings) + ")";
            row.push_back(cell);
        }
        rows.push_back(row);
    }
    return documents::text_table(columns, rows) + "In brackets: how many tasters the mean is of.\n";
}

std::string repeat_text(const insight::TasterRepeat& taster) {
    if (!taster.repeatability)
        return taster.taster +
               ": was served nothing twice, so that their own scatter is not "
               "known.\n";
    const auto& own = *taster.repeatability;
    std::string text = taster.taster + ": repeats scatter by " + number_text(own.sd, 2) +
                       " of 10 (standard deviation, " +
                       counted(own.degrees_of_freedom, "pair", "pairs") + ")";
    if (const auto limit = own.limit())
        text += "; two single scores are told apart from " + number_text(*limit) + " on";
    return text + ".\n";
}

std::string bakes_list(const insight::TasteSummary& summary, const BakeNames& names) {
    std::string text;
    for (const insight::BakeTasting& bake : summary.bakes) {
        text += numbers_of(bake) + ": " + names.at(bake.bakes.front());
        for (std::size_t i = 0; i < bake.when.size(); ++i)
            text += (i == 0 ? " (" : "; ") + bake.when[i];
        text += std::string(bake.when.empty() ? "" : ")") + "\n";
        for (const std::string& words : bake.good_for)
            text += "   " + words + "\n";
    }
    return text;
}

}  // namespace

std::string tastings_text(const insight::TasteSummary& summary, const BakeNames& names) {
    std::string text;
    if (summary.bakes.empty())
        text = "Nothing was tasted yet. loafmark taste --help shows how to begin.\n";
    else
        text = bakes_list(summary, names) + "\n" + means_table(summary);
    for (std::size_t i = 0; i < summary.against_first.size(); ++i) {
        if (summary.against_first[i].empty()) continue;
        text += "\n" + names.at(summary.bakes[i + 1].bakes.front()) + " against " +
                names.at(summary.bakes.front().bakes.front()) + ":\n";
        for (const insight::TasteDifference& d : summary.against_first[i])
            text += "  " + d.sentence + ".\n";
    }
    if (!summary.tasters.empty() && !summary.bakes.empty()) text += "\n";
    if (!summary.bakes.empty())
        for (const insight::TasterRepeat& taster : summary.tasters)
            text += repeat_text(taster);
    if (summary.hidden > 0)
        text += "Slices of a blind sitting that is not over are in none of this (" +
                std::to_string(summary.hidden) + ").\n";
    return text;
}

std::string tastings_document(const insight::TasteSummary& summary) {
    Json bakes = Json::array();
    for (std::size_t i = 0; i < summary.bakes.size(); ++i) {
        const insight::BakeTasting& bake = summary.bakes[i];
        Json lines = Json::object();
        for (const insight::LineMean& mean : bake.lines)
            lines[mean.key] = {{"mean", mean.value}, {"n_tasters", mean.tastings}};
        Json against = Json::array();
        if (i > 0)
            for (const insight::TasteDifference& d : summary.against_first[i - 1])
                against.push_back({{"line", d.key},
                                   {"difference", d.value},
                                   {"n_tasters", d.tasters},
                                   {"limit", d.limit ? Json(*d.limit) : Json()},
                                   {"sentence", d.sentence}});
        Json ids = Json::array();
        for (const journal::BakeId id : bake.bakes)
            ids.push_back(id.value);
        bakes.push_back({{"bakes", ids},
                         {"tasters", bake.tasters},
                         {"lines", lines},
                         {"words", bake.good_for},
                         {"when", bake.when},
                         {"against_first", against}});
    }
    Json tasters = Json::array();
    for (const insight::TasterRepeat& taster : summary.tasters)
        tasters.push_back(
            {{"taster", taster.taster},
             {"repeat_sd", taster.repeatability ? Json(taster.repeatability->sd) : Json()},
             {"degrees_of_freedom",
              taster.repeatability ? taster.repeatability->degrees_of_freedom : 0}});
    return documents::printed(
        {{"schema", 1}, {"bakes", bakes}, {"tasters", tasters}, {"hidden", summary.hidden}});
}

}  // namespace loafmark::commands
