#include "documents/next_document.h"

#include <nlohmann/json.hpp>

#include "catch.h"

using namespace loafmark;
using namespace loafmark::documents;
using nlohmann::json;

namespace {

insight::NextBake advice(insight::Vary vary) {
    insight::NextBake next;
    next.vary = vary;
    next.advice = insight::Advice::found;
    next.value = 70;
    next.interval = {68, 72};
    next.bakes = 5;
    next.sentence = "do it";
    next.assumptions = {"all else stays"};
    return next;
}

}  // namespace

TEST_CASE("what is proposed stands under the name of its unit") {
    const insight::Goal most;
    const auto document = [&](insight::Vary vary) {
        return json::parse(next_document(advice(vary), most, "emmer"));
    };
    const json water = document(insight::Vary::water);
    CHECK(water["vary"] == "water");
    CHECK(water["advice"] == "water");
    CHECK(water["wanted"] == "most");
    CHECK(water["hydration_percent"]["value"] == 70);
    CHECK(water["hydration_percent"]["low"] == 68);
    CHECK(water["off"].is_null());
    CHECK(document(insight::Vary::proof)["proof_minutes"]["high"] == 72);
    CHECK(document(insight::Vary::share)["share_percent"]["value"] == 70);
    const json rest = document(insight::Vary::rest);
    CHECK(rest["take_rest"].is_null());
    CHECK_FALSE(rest.contains("hydration_percent"));
}

TEST_CASE("a value or a control that is wanted is named") {
    insight::Goal value{Measure::openness, 0.4, {}, {}};
    CHECK(json::parse(next_document(advice(insight::Vary::water), value, "emmer"))["wanted"] ==
          0.4);
    insight::Goal control{Measure::openness, {}, {journal::BakeEntry{}}, "wheat, 70 % water"};
    CHECK(json::parse(next_document(advice(insight::Vary::water), control, "emmer"))["wanted"] ==
          "as wheat, 70 % water");
}

TEST_CASE("as text: the sentence, what is assumed, and notes of the readings") {
    insight::NextBake next = advice(insight::Vary::water);
    next.notes = {"two versions"};
    CHECK(next_text(next, "emmer") ==
          "emmer: do it.\nAssumed:\n  all else stays\nNote: two versions.\n");
}
