#include "analysis/measures.h"

#include <set>
#include <string>

#include "catch.h"

using namespace loafmark;

TEST_CASE("every measure is found by its key and has a key of its own") {
    std::set<std::string_view> keys;
    for (const MeasureInfo& info : measure_catalogue) {
        CHECK(keys.insert(info.key).second);
        CHECK(measure_of_key(info.key) == info.id);
    }
    CHECK_FALSE(measure_of_key("fluffiness"));
}
