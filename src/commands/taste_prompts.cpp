// Asking a taster on a terminal.
#include <istream>
#include <ostream>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "cautions/cautions.h"
#include "commands/failure.h"
#include "commands/taste.h"

namespace loafmark::commands {
namespace {

// Asks until the answer is a score or nothing.
std::optional<double> ask_for_score(const Context& context, const std::string& question) {
    while (true) {
        const std::string answer = ask(context, question);
        if (answer.empty()) return std::nullopt;
        try {
            return read_score(answer);
        } catch (const std::runtime_error& error) {
            context.err << error.what() << "\n";
        }
    }
}

}  // namespace

void want_terminal(const Context& context, const std::string& instead) {
    if (!context.in || !context.in_is_terminal)
        throw Failure("there is no terminal to ask the taster on", instead);
}

std::string ask(const Context& context, const std::string& question) {
    context.out << question << " " << std::flush;
    std::string line;
    if (!std::getline(*context.in, line)) {
        context.out << "\n";
        throw Failure("the answers end here", "what was said so far in a sitting is kept");
    }
    return std::string(trimmed(line));
}

bool ask_about_allergies(const Context& context, const std::string& taster,
                         const std::vector<std::optional<std::string>>& grains) {
    context.out << cautions::before_tasting(grains);
    while (true) {
        const std::string answer = folded(
            ask(context, "Was " + taster + " asked, and may " + taster + " eat this? (yes or no)"));
        if (answer == "yes" || answer == "y") return true;
        if (answer == "no" || answer == "n") return false;
    }
}

journal::TasteScores ask_for_scores(const Context& context) {
    context.out << "Places on a line from 0 to 10; Enter leaves a line out.\n";
    journal::TasteScores scores;
    for (const journal::TastingLine& line : journal::tasting_lines) {
        const std::string question =
            "  " + std::string(line.low) + " 0 ... 10 " + std::string(line.high) + ":";
        if (const auto score = ask_for_score(context, question))
            scores.lines[std::string(line.key)] = *score;
    }
    scores.liking = ask_for_score(context, "  how well liked, 0 ... 10:");
    const std::string words = ask(context, "  in words (good for...):");
    if (!words.empty()) scores.words = words;
    return scores;
}

}  // namespace loafmark::commands
