#include "page_commands.h"

#include <fstream>

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

}  // namespace

std::vector<std::vector<std::string>> commands_of(const std::string& page) {
    std::ifstream file(page);
    std::vector<std::vector<std::string>> commands;
    for (std::string line; std::getline(file, line);)
        if (line.starts_with(command_start))
            commands.push_back(words_of(line.substr(std::string(command_start).size())));
    return commands;
}

}  // namespace loafmark::end_to_end
