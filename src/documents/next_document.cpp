#include "documents/next_document.h"

#include "documents/json_values.h"

namespace loafmark::documents {
namespace {

std::string_view name_of(insight::Advice advice) {
    switch (advice) {
        case insight::Advice::water:
            return "water";
        case insight::Advice::step:
            return "step";
        case insight::Advice::repeat:
            return "repeat";
        case insight::Advice::in_between:
            return "in between";
        case insight::Advice::not_determined:
            return "not determined";
    }
    return "";
}

}  // namespace

std::string next_document(const insight::NextBake& next, const insight::Goal& goal,
                          const std::string& flour) {
    return printed({{"schema", 1},
                    {"flour", flour},
                    {"measure", info_of(goal.measure).key},
                    {"wanted", goal.value ? number(*goal.value) : Json("most")},
                    {"advice", name_of(next.advice)},
                    {"hydration_percent",
                     {{"value", number(next.hydration)},
                      {"low", next.interval ? number(next.interval->low) : Json(nullptr)},
                      {"high", next.interval ? number(next.interval->high) : Json(nullptr)}}},
                    {"n_bakes", next.bakes},
                    {"sentence", next.sentence},
                    {"assumptions", next.assumptions}});
}

std::string next_text(const insight::NextBake& next, const std::string& flour) {
    std::string text = flour + ": " + next.sentence + ".\n";
    if (!next.assumptions.empty()) text += "Assumed:\n";
    for (const std::string& line : next.assumptions)
        text += "  " + line + "\n";
    return text;
}

}  // namespace loafmark::documents
