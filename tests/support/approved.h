// Whole texts that a person has looked at and approved, kept in tests/golden. To renew them run the
// tests with LOAFMARK_RENEW_GOLDEN=1 and look at the difference before committing it.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "catch.h"

namespace loafmark {

inline std::string approved_text(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

// `name` is a path within tests/golden.
inline void check_approved(const std::string& name, const std::string& text) {
    const std::filesystem::path file =
        std::filesystem::path(LOAFMARK_SOURCE_DIR) / "tests" / "golden" / name;
    if (std::getenv("LOAFMARK_RENEW_GOLDEN")) {
        std::filesystem::create_directories(file.parent_path());
        std::ofstream(file, std::ios::binary) << text;
    }
    INFO("approved text: tests/golden/" << name);
    const std::string approved = approved_text(file);
    REQUIRE_FALSE(approved.empty());
    // Where they part says more than both in full.
    const auto parted = std::mismatch(text.begin(), text.end(), approved.begin(), approved.end());
    const auto at = static_cast<std::size_t>(parted.first - text.begin());
    const std::size_t from = at < 60 ? 0 : at - 60;
    INFO("made:     ..." << text.substr(from, 160));
    INFO("approved: ..." << approved.substr(std::min(from, approved.size()), 160));
    CHECK((text == approved));
}

}  // namespace loafmark
