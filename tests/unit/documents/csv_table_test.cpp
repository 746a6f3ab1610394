#include "documents/csv_table.h"

#include "catch.h"

using namespace loafmark::documents;

namespace {
std::string refusal_of(const std::string& text) {
    try {
        (void)parse_csv(text);
    } catch (const CsvError& error) {
        return error.what();
    }
    return "";
}
}  // namespace

TEST_CASE("cells are parted by what the first line has most of, whatever the line ends") {
    const CsvTable semicolons = parse_csv(
        "\xEF\xBB\xBF"
        "day;dough\r\n2026-03-01;900,5g\r\n\r\n");
    CHECK(semicolons.headings == std::vector<std::string>{"day", "dough"});
    REQUIRE(semicolons.rows.size() == 1);
    CHECK(semicolons.rows[0].cells == std::vector<std::string>{"2026-03-01", "900,5g"});
    CHECK(semicolons.rows[0].line == 2);
    CHECK(parse_csv("a\tb\n1\t2").rows[0].cells == std::vector<std::string>{"1", "2"});
    CHECK(parse_csv("").headings.empty());
}

TEST_CASE("quoted cells hold separators, quotes and lines") {
    const CsvTable table = parse_csv("note,x\n\"a, \"\"b\"\"\nc\",1\nd,2\n");
    CHECK(table.rows[0].cells[0] == "a, \"b\"\nc");
    CHECK(table.rows[1].line == 4);
}

TEST_CASE("a text that is no table is refused with the line") {
    CHECK(refusal_of("a,b\n1\n") == "line 2 has 1 cells for 2 columns");
    CHECK(refusal_of("a,a\n") == "two columns are called 'a'");
    CHECK(refusal_of("a\n\"x\n") == "line 2: a quote is opened and never closed");
}
