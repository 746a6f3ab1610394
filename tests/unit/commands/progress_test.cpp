#include "commands/progress.h"

#include <sstream>

#include "catch.h"

namespace loafmark::commands {

TEST_CASE("progress is shown on a terminal only, and leaves no trace there") {
    std::ostringstream file;
    {
        Progress progress(file, false, "measuring", 2);
        progress.step();
    }
    CHECK(file.str().empty());
    std::ostringstream terminal;
    {
        Progress progress(terminal, true, "measuring", 2);
        progress.step();
    }
    CHECK(terminal.str().find("measuring [############............] 1 of 2") != std::string::npos);
    CHECK(terminal.str().ends_with("\r\033[K"));
}

}  // namespace loafmark::commands
