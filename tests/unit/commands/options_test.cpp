#include "commands/options.h"

#include "arithmetic/quantities.h"
#include "catch.h"

namespace loafmark::commands {

TEST_CASE("a base is auto, bottom or two different points") {
    using Kind = analysis::BaseHint::Kind;
    CHECK(parse_base("auto").kind == Kind::automatic);
    CHECK(parse_base("bottom").kind == Kind::bottom);
    const analysis::BaseHint line = parse_base("120,1890.5,2200,1875");
    CHECK(line.kind == Kind::line);
    REQUIRE(line.line);
    CHECK((*line.line)[0] == PhotoPoint{120, 1890.5});
    CHECK((*line.line)[1] == PhotoPoint{2200, 1875});
    const std::string bad = GENERATE("", "top", "1,2,3", "1,2,3,4,5", "1,2,3,x", "-1,2,3,4",
                                     "1,2,1,2", "1 ,2,3,4", "nan,1,2,3", "1e9,1,2,3");
    CHECK_THROWS_AS(parse_base(bad), std::runtime_error);
}

TEST_CASE("an option's wrong text is a wrong command line that names the option") {
    CLI::App app;
    Millimetres length{0};
    add_value(
        app, "-l,--length", length, [](const std::string& text) { return parse_length(text); },
        "15mm", "a length");
    app.parse("--length 1.5cm");
    CHECK(length == Millimetres(15));
    CHECK_THROWS_AS(app.parse("-l 15"), UsageError);
    try {
        app.parse("-l 15");
    } catch (const UsageError& error) {
        CHECK(std::string(error.what()).starts_with("--length '15' "));
    }
}

TEST_CASE("an option that may be repeated takes one text each time, and no word behind it") {
    CLI::App app;
    std::vector<std::string> names;
    std::string last;
    add_repeated(app, "--name", names, plain_text, "NAME", "a name");
    app.add_option("LAST", last);
    app.parse("--name one --name two three");
    CHECK(names == std::vector<std::string>{"one", "two"});
    CHECK(last == "three");
}

TEST_CASE("an empty text is no name") {
    CHECK_THROWS_AS(plain_text("  "), std::runtime_error);
}

}  // namespace loafmark::commands
