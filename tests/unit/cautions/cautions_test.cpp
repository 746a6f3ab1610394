#include "cautions/cautions.h"

#include <fstream>
#include <set>
#include <sstream>
#include <stdexcept>

#include "catch.h"

using namespace loafmark::cautions;

TEST_CASE("every caution has a source and stands in docs/cautions.md word for word") {
    std::ifstream file(LOAFMARK_SOURCE_DIR "/docs/cautions.md");
    std::ostringstream page;
    page << file.rdbuf();
    std::set<std::string_view> keys;
    for (const Caution& caution : all()) {
        INFO(caution.key);
        CHECK(keys.insert(caution.key).second);
        CHECK_FALSE(caution.source.empty());
        CHECK(caution.text.ends_with('.'));
        CHECK(page.str().find(caution.text) != std::string::npos);
    }
    CHECK_THROWS_AS(text_of("nothing"), std::invalid_argument);
}

TEST_CASE("gluten is told by grain, each once, and never denied") {
    // Regulation (EU) 1169/2011, annex II; tritordeum is a hybrid of barley and durum.
    for (const char* grain : {"wheat", "Spelt", "EINKORN", "rye", "barley", "triticale",
                              "tritordeum", "khorasan", "emmer", "durum"})
        CHECK(holds_gluten(grain) == true);
    CHECK(holds_gluten("buckwheat") == false);
    CHECK_FALSE(holds_gluten("oats").has_value());
    CHECK(of_grains({"wheat", "Wheat", "emmer"}) ==
          "Contains gluten (wheat, emmer): unsafe in coeliac disease.\n");
    // Buckwheat holds the letters of wheat, and is none.
    CHECK(of_grains({"buckwheat"}) == text_of("traces") + "\n");
    CHECK(of_grains({"buckwheat", "wheat"}).starts_with("Contains gluten (wheat):"));
    CHECK(of_grains({std::nullopt}) == text_of("gluten-unknown") + "\n");
    for (const char* grain : {"maize", "rice", "teff"})
        CHECK(of_grains({grain}).find("gluten-free") == std::string::npos);
    CHECK(of_grains({"rye"}).find("ergot") != std::string::npos);
    CHECK(of_grains({"wheat"}).find("ergot") == std::string::npos);
}

TEST_CASE("mould and rope are spoken of from the second day") {
    CHECK(of_age(0).empty());
    CHECK(of_age(1) == text_of("mould-and-rope") + "\n");
    CHECK(of_age(1).find("discard the whole loaf") != std::string::npos);
    CHECK(before_tasting({"rye"}).starts_with("Ask every taster about allergies first"));
}
