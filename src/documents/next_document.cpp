#include "documents/next_document.h"

#include "documents/json_values.h"

namespace loafmark::documents {
namespace {

std::string_view advice_name(const insight::NextBake& next) {
    switch (next.advice) {
        case insight::Advice::found:
            return insight::name_of(next.vary);
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

Json wanted(const insight::Goal& goal) {
    if (goal.value) return number(*goal.value);
    return goal.most() ? Json("most") : Json("as " + goal.control_name);
}

Json or_null(const std::optional<statistics::Coefficient>& value) {
    return value ? coefficient(*value) : Json(nullptr);
}

// What is proposed, under the name of its unit.
void add_proposal(Json& document, const insight::NextBake& next) {
    const Json value{{"value", number(next.value)},
                     {"low", next.interval ? number(next.interval->low) : Json(nullptr)},
                     {"high", next.interval ? number(next.interval->high) : Json(nullptr)}};
    switch (next.vary) {
        case insight::Vary::water:
            document["hydration_percent"] = value;
            document["off"] = or_null(next.off);
            break;
        case insight::Vary::proof:
            document["proof_minutes"] = value;
            document["minutes_until_5_percent_lower"] = or_null(next.falls_within);
            break;
        case insight::Vary::rest:
            document["take_rest"] = next.take_rest ? Json(*next.take_rest) : Json(nullptr);
            document["rest_did"] = or_null(next.rest_did);
            break;
        case insight::Vary::share:
            document["share_percent"] = value;
            break;
    }
}

}  // namespace

std::string next_document(const insight::NextBake& next, const insight::Goal& goal,
                          const std::string& flour) {
    Json document{{"schema", 1},
                  {"flour", flour},
                  {"measure", info_of(goal.measure).key},
                  {"wanted", wanted(goal)},
                  {"vary", insight::name_of(next.vary)},
                  {"advice", advice_name(next)}};
    add_proposal(document, next);
    document["n_bakes"] = next.bakes;
    document["sentence"] = next.sentence;
    document["assumptions"] = next.assumptions;
    document["notes"] = next.notes;
    return printed(document);
}

std::string next_text(const insight::NextBake& next, const std::string& flour) {
    std::string text = flour + ": " + next.sentence + ".\n";
    if (!next.assumptions.empty()) text += "Assumed:\n";
    for (const std::string& line : next.assumptions)
        text += "  " + line + "\n";
    for (const std::string& note : next.notes)
        text += "Note: " + note + ".\n";
    return text;
}

}  // namespace loafmark::documents
