#include "commands/prompts.h"

#include <algorithm>
#include <istream>
#include <ostream>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "commands/messages.h"

namespace loafmark::commands {
namespace {

constexpr std::size_t longest_answer = 1000;  // bytes

// Arrow keys and the like come as control characters, which nobody means to keep.
bool has_control_character(const std::string& text) {
    return std::ranges::any_of(text, [](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return byte < 0x20 || byte == 0x7f;
    });
}

}  // namespace

bool can_ask(const Context& context) {
    return context.in && context.in_is_terminal && context.err_is_terminal;
}

std::string ask(const Context& context, const std::string& question) {
    context.out << std::flush;
    while (true) {
        context.err << question << " " << std::flush;
        std::string line;
        if (!std::getline(*context.in, line)) {
            context.err << "\n";
            throw AnswersEnd();
        }
        std::string answer(trimmed(line));
        std::ranges::replace(answer, '\t', ' ');
        if (has_control_character(answer))
            context.err << "That holds a key that is no letter; type it again.\n";
        else if (answer.size() > longest_answer)
            context.err << "That is longer than " << longest_answer << " letters; shorten it.\n";
        else
            return answer;
    }
}

void say_what_is_wrong(const Context& context, const std::exception& error) {
    context.err << message_of(error) << "\n";
}

bool ask_yes_or_no(const Context& context, const std::string& question,
                   std::optional<bool> unless_said) {
    const std::string usual = unless_said ? (*unless_said ? " [yes]" : " [no]") : "";
    while (true) {
        const std::string answer = folded(ask(context, question + " (yes or no)" + usual));
        if (answer.empty() && unless_said) return *unless_said;
        if (answer == "yes" || answer == "y") return true;
        if (answer == "no" || answer == "n") return false;
    }
}

}  // namespace loafmark::commands
