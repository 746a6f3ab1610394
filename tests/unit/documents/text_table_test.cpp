#include "documents/text_table.h"

#include "catch.h"

using namespace loafmark::documents;

TEST_CASE("columns are aligned by what is seen, not by bytes") {
    CHECK(text_table(
              {{"flour"}, {"water", Align::right}, {"note"}},
              {{"Ruchmehl", "7", ""}, {"bl\u00e9 dur", "72.5", "x"}, {"\u5c0f\u9ea6", "100"}}) ==
          "flour     water  note\n"
          "Ruchmehl      7\n"
          "bl\u00e9 dur    72.5  x\n"
          "\u5c0f\u9ea6        100\n");
}

TEST_CASE("line ends within a cell do not break the table") {
    CHECK(text_table({{"a"}}, {{"x\ny"}}) == "a\nx y\n");
}

TEST_CASE("a row with too many cells is refused") {
    CHECK_THROWS_AS(text_table({{"a"}}, {{"1", "2"}}), std::invalid_argument);
}

TEST_CASE("widths follow the terminal's columns") {
    CHECK(display_width("rye") == 3);
    CHECK(display_width("e\u0301") == 1);
    CHECK(display_width("\u9ea6") == 2);
    CHECK(display_width("\U0001F35E") == 2);
    CHECK(display_width("\xff\xfe") == 2);
    CHECK(display_width("\xe9") == 1);
}
