#include "documents/csv.h"

#include "catch.h"

using namespace loafmark::documents;

TEST_CASE("CSV quotes what RFC 4180 asks to be quoted") {
    CHECK(csv_text("rye") == "rye");
    CHECK(csv_text("") == "");
    CHECK(csv_text("rye, dark") == "\"rye, dark\"");
    CHECK(csv_text("the \"good\" rye") == "\"the \"\"good\"\" rye\"");
    CHECK(csv_text("two\nlines") == "\"two\nlines\"");
    CHECK(csv_row({"a", "", "\"b,c\""}) == "a,,\"b,c\"\r\n");
}

TEST_CASE("CSV texts are never taken for formulas") {
    CHECK(csv_text("=1+1") == "'=1+1");
    CHECK(csv_text("+rye") == "'+rye");
    CHECK(csv_text("-rye") == "'-rye");
    CHECK(csv_text("@rye") == "'@rye");
    CHECK(csv_text("\trye") == "'\trye");
    CHECK(csv_text("\r=rye") == "\"'\r=rye\"");
    CHECK(csv_text("=HYPERLINK(\"x\",\"y\")") == "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
}
