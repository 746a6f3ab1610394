#include "commands/files.h"

#include "../journal/example_journal.h"
#include "catch.h"
#include "commands/failure.h"

namespace loafmark::commands {

TEST_CASE("a file is written whole, over what stood there, and nothing is left beside it") {
    const journal::TemporaryFolder folder;
    write_file(folder / "page.html", std::string_view("old"));
    write_file(folder / "page.html", std::string_view("new"));
    CHECK(read_file(folder / "page.html") == "new");
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}

TEST_CASE("a file that cannot be put in place leaves what stood there") {
    const journal::TemporaryFolder folder;
    std::filesystem::create_directories(folder / "page.html/inside");
    CHECK_THROWS_AS(write_file(folder / "page.html", std::string_view("new")), Failure);
    CHECK(std::filesystem::exists(folder / "page.html/inside"));
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}

TEST_CASE("pipes and devices are written to, not replaced") {
    write_file("/dev/null", std::string_view("gone"));
    CHECK(std::filesystem::is_character_file("/dev/null"));
}

TEST_CASE("a folder is made with those above it, and a file in its place is refused") {
    const journal::TemporaryFolder folder;
    make_folder(folder / "a/b");
    CHECK(std::filesystem::is_directory(folder / "a/b"));
    write_file(folder / "file", std::string_view("x"));
    CHECK_THROWS_AS(make_folder(folder / "file"), Failure);
}

}  // namespace loafmark::commands
