#include "charts/svg_text.h"

#include "catch.h"

using namespace loafmark::charts;

TEST_CASE("text is escaped for tags and for quotes") {
    CHECK(xml_escaped("<b class=\"x\" id='y'>&amp;") ==
          "&lt;b class=&quot;x&quot; id=&#39;y&#39;&gt;&amp;amp;");
    CHECK(xml_escaped("bl\u00e9, \u5c0f\u9ea6, \U0001F35E") ==
          "bl\u00e9, \u5c0f\u9ea6, \U0001F35E");
}

TEST_CASE("what XML forbids is replaced") {
    CHECK(xml_escaped(std::string_view("a\0b", 3)) == "a\uFFFDb");
    CHECK(xml_escaped("a\x1b[0m") == "a\uFFFD[0m");
    CHECK(xml_escaped("a\xff") == "a\uFFFD");
    CHECK(xml_escaped("\xc0\xbc") == "\uFFFD\uFFFD");            // an overlong <
    CHECK(xml_escaped("\xed\xa0\x80") == "\uFFFD\uFFFD\uFFFD");  // a lone surrogate
    CHECK(xml_escaped("\xe2\x82") == "\uFFFD\uFFFD");            // cut short
}

TEST_CASE("coordinates have at most one decimal and no sign on nought") {
    CHECK(coordinate(12) == "12");
    CHECK(coordinate(12.34) == "12.3");
    CHECK(coordinate(-0.01) == "0");
    CHECK(coordinate(-3.06) == "-3.1");
}

TEST_CASE("long names are cut between characters") {
    CHECK(fitted("rye", 100) == "rye");
    const std::string cut = fitted("\u5c0f\u9ea6\u5c0f\u9ea6\u5c0f\u9ea6\u5c0f\u9ea6", 30);
    CHECK(cut == "\u5c0f\u9ea6\u5c0f\u2026");
}

TEST_CASE(
    "a name too long for a line is parted at a blank, and cut only where that is not enough") {
    CHECK(wrapped("rye", 100) == std::vector<std::string>{"rye"});
    CHECK(wrapped("Emmer wholemeal", 80) == std::vector<std::string>{"Emmer", "wholemeal"});
    CHECK(wrapped("Emmerwholemeal", 40).size() == 1);
    const auto lines = wrapped("Emmer of the mill beyond the hill", 80);
    REQUIRE(lines.size() == 2);
    CHECK(lines[0] == "Emmer of");
    CHECK(text_width(lines[1]) <= 80);
    CHECK(lines[1].ends_with("\u2026"));
}
