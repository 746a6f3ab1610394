// Runs the commands of docs/kitchen.md as they stand, so that the page stays true.
#include <fstream>
#include <sstream>

#include "catch.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

constexpr const char* command_start = "    loafmark ";

// As a shell parts them; the page uses single quotes only.
std::vector<std::string> words_of(const std::string& line) {
    std::vector<std::string> words;
    std::string word;
    bool quoted = false;
    for (const char c : line + " ") {
        if (c == '\'') {
            quoted = !quoted;
        } else if (c == ' ' && !quoted) {
            if (!word.empty()) words.push_back(word);
            word.clear();
        } else {
            word += c;
        }
    }
    return words;
}

std::vector<std::vector<std::string>> commands_of(const std::string& page) {
    std::ifstream file(page);
    std::vector<std::vector<std::string>> commands;
    for (std::string line; std::getline(file, line);)
        if (line.starts_with(command_start))
            commands.push_back(words_of(line.substr(std::string(command_start).size())));
    return commands;
}

}  // namespace

TEST_CASE("every command of the page on the kitchen works as it stands") {
    const auto commands = commands_of(LOAFMARK_SOURCE_DIR "/docs/kitchen.md");
    CHECK(commands.size() == 30);
    const Kitchen kitchen;
    std::string all;
    for (const auto& command : commands)
        all += kitchen.done(command);
    INFO(all);
    // 77 % as it was adjusted to, the salt's turn in the bowl, the learnt friction, the blend.
    CHECK(all.find("hydration as mixed 77 %") != std::string::npos);
    CHECK(all.find("the bowl now weighs") != std::string::npos);
    CHECK(all.find("mixing adds 5 K by your 1 bake") != std::string::npos);
    CHECK(all.find("Strength 10 %") != std::string::npos);
}

}  // namespace loafmark::end_to_end
