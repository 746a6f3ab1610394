#include "commands/remedies.h"

#include <set>

#include "catch.h"

namespace loafmark::commands {

TEST_CASE("every warning has a remedy of its own") {
    std::set<std::string_view> remedies;
    int codes = 0;
    // The enum is closed and counts from 0; its last is not_yet.
    for (int code = 0; code <= static_cast<int>(WarningCode::not_yet); ++code, ++codes) {
        const auto remedy = remedy_for(static_cast<WarningCode>(code));
        INFO(code_name(static_cast<WarningCode>(code)));
        CHECK_FALSE(remedy.empty());
        CHECK_FALSE(remedy.ends_with('.'));
        remedies.insert(remedy);
    }
    CHECK(remedies.size() == static_cast<std::size_t>(codes));
}

}  // namespace loafmark::commands
