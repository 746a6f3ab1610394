#include "commands/prompts.h"

#include "catch.h"
#include "commands/words.h"
#include "fakes.h"

namespace loafmark::commands {
namespace {

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::optional<Grams> ask_for_mass(const Context& context) {
    return ask_with_usual(
        context, "How much, in g", std::optional(Grams(900)),
        [](Grams mass) { return to_text(mass); },
        [](const std::string& text) { return more_than_nothing(in_unit(text, "g")); });
}

}  // namespace

TEST_CASE("questions want a terminal at both ends") {
    FakeWorld world;
    CHECK_FALSE(can_ask(world.context()));
    world.type("");
    CHECK(can_ask(world.context()));
    Context unseen = world.context();
    unseen.err_is_terminal = false;
    CHECK_FALSE(can_ask(unseen));
    Context deaf = world.context();
    deaf.in = nullptr;
    CHECK_FALSE(can_ask(deaf));
}

TEST_CASE("an answer is a line without blanks at its ends, whatever ends the line") {
    FakeWorld world;
    world.type("  Brot mit Ölsaaten 🍞 \r\n\nlast one without an end");
    CHECK(ask(world.context(), "What?") == "Brot mit Ölsaaten 🍞");
    CHECK(ask(world.context(), "What?").empty());
    CHECK(ask(world.context(), "What?") == "last one without an end");
    CHECK_THROWS_AS(ask(world.context(), "What?"), AnswersEnd);
    CHECK(world.out.str().empty());
    CHECK(holds(world.err.str(), "What? "));
}

TEST_CASE("what cannot be is told and asked again; a bare number is in the unit that is shown") {
    FakeWorld world;
    world.type("9OO\n900ml\n0\n-5\n1.2kg\n");
    CHECK(ask_for_mass(world.context()) == Grams(1200));
    CHECK(holds(world.err.str(), "'9OO' is not a mass; write it as 900g\n"));
    CHECK(holds(world.err.str(), "'900ml' is not a mass"));
    CHECK(holds(world.err.str(), "'0g' is nothing; give more than 0g\n"));
    world.type("850\n");
    CHECK(ask_for_mass(world.context()) == Grams(850));
}

TEST_CASE("Enter takes what stands in brackets, a lone minus nothing") {
    FakeWorld world;
    world.type("\n-\n");
    CHECK(ask_for_mass(world.context()) == Grams(900));
    CHECK(world.err.str() == "How much, in g [900g]: ");
    CHECK(ask_for_mass(world.context()) == std::nullopt);
    world.type("\n");
    CHECK_FALSE(ask_or_leave(world.context(), "How much?", read_mass));
}

TEST_CASE("keys that are no letters and endless answers are not taken") {
    FakeWorld world;
    world.type("\x1b[A\n" + std::string(10'000, 'x') + "\n" + "tab\there\n");
    CHECK(ask(world.context(), "Name?") == "tab here");
    CHECK(holds(world.err.str(), "holds a key that is no letter"));
    CHECK(holds(world.err.str(), "longer than 1000 letters"));
    CHECK(world.err.str().size() < 500);  // what was typed is not thrown back
}

TEST_CASE("yes and no are asked until it is one of them") {
    FakeWorld world;
    world.type("perhaps\nYES\nn\n\n");
    CHECK(ask_yes_or_no(world.context(), "Well?"));
    CHECK_FALSE(ask_yes_or_no(world.context(), "Well?"));
    CHECK(ask_yes_or_no(world.context(), "Well?", true));
    CHECK_THROWS_AS(ask_yes_or_no(world.context(), "Well?"), AnswersEnd);
}

TEST_CASE("where the answers end it is said what became of them") {
    FakeWorld world;
    world.type("");
    try {
        (void)or_else_said([&] { return ask(world.context(), "Name?"); }, "nothing was kept");
        FAIL("nothing was thrown");
    } catch (const Failure& failure) {
        CHECK(std::string(failure.what()) == "the answers end here");
        CHECK(failure.remedy() == "nothing was kept");
    }
}

}  // namespace loafmark::commands
