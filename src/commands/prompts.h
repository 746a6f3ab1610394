// Asking on a terminal, one question a line. An answer that cannot be is told at once and asked for
// again. Questions go to stderr: stdout is for results.
#pragma once

#include <exception>
#include <optional>
#include <string>
#include <type_traits>

#include "commands/context.h"
#include "commands/failure.h"

namespace loafmark::commands {

// Whether there is somebody to ask: both what is asked and what is typed go by a terminal.
[[nodiscard]] bool can_ask(const Context& context);

// The line that is typed, without blanks at its ends. Throws AnswersEnd.
[[nodiscard]] std::string ask(const Context& context, const std::string& question);

// The input ended before the answers did.
class AnswersEnd : public Failure {
  public:
    AnswersEnd() : Failure("the answers end here", "") {}
};

// What `asking` gives; where the answers end, throws Failure with what became of them.
template <class Asking>
auto or_else_said(Asking asking, const std::string& what_became_of_them) {
    try {
        return asking();
    } catch (const AnswersEnd& end) {
        throw Failure(end.what(), what_became_of_them);
    }
}

void say_what_is_wrong(const Context& context, const std::exception& error);

// What `read` makes of the answer; as long as it throws std::runtime_error, that is told.
template <class Read>
auto ask_until_read(const Context& context, const std::string& question, Read read) {
    while (true) {
        const std::string answer = ask(context, question);
        try {
            return read(answer);
        } catch (const std::runtime_error& error) {
            say_what_is_wrong(context, error);
        }
    }
}

// Enter, or a lone minus: nothing.
template <class Read>
auto ask_or_leave(const Context& context, const std::string& question, Read read) {
    using Answer = std::decay_t<decltype(read(std::string()))>;
    return ask_until_read(context, question, [&](const std::string& answer) {
        return answer.empty() || answer == "-" ? std::optional<Answer>()
                                               : std::optional<Answer>(read(answer));
    });
}

// "what [usual]:". Enter: `usual`, which `shown` writes as one would type it; a lone minus:
// nothing.
template <class Answer, class Shown, class Read>
std::optional<Answer> ask_with_usual(const Context& context, const std::string& what,
                                     const std::optional<Answer>& usual, Shown shown, Read read) {
    const std::string question = what + (usual ? " [" + shown(*usual) + "]:" : ":");
    return ask_until_read(context, question, [&](const std::string& answer) {
        if (answer.empty()) return usual;
        return answer == "-" ? std::optional<Answer>() : std::optional<Answer>(read(answer));
    });
}

// Asks until it is yes or no. Enter: `unless_said`, where that is given.
[[nodiscard]] bool ask_yes_or_no(const Context& context, const std::string& question,
                                 std::optional<bool> unless_said = std::nullopt);

}  // namespace loafmark::commands
