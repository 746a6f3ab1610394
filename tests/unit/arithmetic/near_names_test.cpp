#include "arithmetic/near_names.h"

#include "catch.h"

using namespace loafmark;

TEST_CASE("names fold to lower case beyond ASCII, blanks tidied") {
    CHECK(folded("  Strong   White ") == "strong white");
    CHECK(folded("R\u00d6GGEN \u00d7 2") == "r\u00f6ggen \u00d7 2");
    CHECK(folded("\u0141ODZ \u0179YTO \u017dITO") == "\u0142odz \u017ayto \u017eito");
    CHECK(folded("\u03a3\u0399\u03a4\u039f\u03a3") == folded("\u03c3\u03b9\u03c4\u03bf\u03c2"));
    CHECK(folded("\u0420\u043e\u0436\u044c \u0401") == "\u0440\u043e\u0436\u044c \u0451");
    CHECK(folded("Type \U0001F35E") == "type \U0001F35E");
}

TEST_CASE("text that is not UTF-8 passes folding byte for byte") {
    for (const std::string text : {"a\xff z", "\xc3", "\xe2\x82", "\x80x", "\xf8\x88"}) {
        INFO(text);
        CHECK(folded(text) == text);
    }
}

// Textbook pairs of Levenshtein's distance, and one swap of neighbours.
TEST_CASE("edit distance counts letters, swaps as one") {
    CHECK(edit_distance("kitten", "sitting") == 3);
    CHECK(edit_distance("saturday", "sunday") == 3);
    CHECK(edit_distance("emmer", "emmre") == 1);
    CHECK(edit_distance("", "rye") == 3);
    CHECK(edit_distance("Emmer", "EMMER") == 0);
    CHECK(edit_distance("r\u00f6ggen", "roggen") == 1);
}

TEST_CASE("near names are found, nearest first, and far ones are not") {
    const std::vector<std::string> flours{"Einkorn", "Emmer", "Strong white", "R\u00f6ggen 1150"};
    CHECK(near_names("emmr", flours) == std::vector<std::string>{"Emmer"});
    CHECK(near_names("einkron", flours) == std::vector<std::string>{"Einkorn"});
    CHECK(near_names("white", flours) == std::vector<std::string>{"Strong white"});
    CHECK(near_names("roggen 1150", flours) == std::vector<std::string>{"R\u00f6ggen 1150"});
    CHECK(near_names("spelt", flours).empty());
    CHECK(near_names("  ", flours).empty());
    const std::vector<std::string> loaves{"rye loaf", "rye loaves", "rye"};
    CHECK(near_names("rye loaf", loaves, 2) == std::vector<std::string>{"rye loaf", "rye loaves"});
    const std::vector<std::string> measures{"openness_fine", "openness", "opening"};
    CHECK(near_names("opennes", measures) == std::vector<std::string>{"openness"});
}
