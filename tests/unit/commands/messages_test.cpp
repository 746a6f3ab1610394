#include "commands/messages.h"

#include "analysis/error.h"
#include "catch.h"
#include "commands/context.h"
#include "commands/failure.h"
#include "fakes.h"
#include "journal/error.h"

namespace loafmark::commands {

TEST_CASE("suggestions read as a question") {
    CHECK(did_you_mean({}).empty());
    CHECK(did_you_mean({"a"}) == "did you mean 'a'?");
    CHECK(did_you_mean({"a", "b", "c"}) == "did you mean 'a', 'b' or 'c'?");
}

TEST_CASE("a message is what was wrong and what to do, of whatever kind the error is") {
    CHECK(commands::message_of(Failure("what", "do this")) == "what; do this");
    CHECK(commands::message_of(Failure("what", "")) == "what");
    CHECK(commands::message_of(analysis::Error("what", "do this")) == "what; do this");
    CHECK(commands::message_of(journal::NotFound("there is no flour 'Emer'", {"Emmer"})) ==
          "there is no flour 'Emer'; did you mean 'Emmer'?");
    CHECK(commands::message_of(std::make_exception_ptr(std::runtime_error("plain"))) == "plain");
    CHECK(commands::message_of(std::make_exception_ptr(7)) == "unknown failure");
}

TEST_CASE("colour is only for terminals, and NO_COLOR turns it off") {
    FakeWorld world;
    Context context = world.context();
    CHECK_FALSE(colour_on_err(context));
    context.err_is_terminal = true;
    CHECK(colour_on_err(context));
    world.variables["NO_COLOR"] = "1";
    CHECK_FALSE(colour_on_err(context));
    CHECK(stderr_line("error", "what", false) == "loafmark: error: what\n");
    CHECK(stderr_line("error", "what", true) == "loafmark: \033[1;31merror:\033[0m what\n");
}

}  // namespace loafmark::commands
