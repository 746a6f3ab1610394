// Asking a taster on a terminal.
#include <ostream>

#include "cautions/cautions.h"
#include "commands/prompts.h"
#include "commands/taste.h"

namespace loafmark::commands {

bool ask_about_allergies(const Context& context, const std::string& taster,
                         const std::vector<std::optional<std::string>>& grains) {
    context.out << cautions::before_tasting(grains);
    return ask_yes_or_no(context, "Was " + taster + " asked, and may " + taster + " eat this?");
}

namespace {

journal::TasteScores ask_once(const Context& context) {
    context.err << "Places on a line from 0 to 10; Enter leaves a line out.\n";
    journal::TasteScores scores;
    for (const journal::TastingLine& line : journal::tasting_lines) {
        const std::string question =
            "  " + std::string(line.low) + " 0 ... 10 " + std::string(line.high) + ":";
        if (const auto score = ask_or_leave(context, question, read_score))
            scores.lines[std::string(line.key)] = *score;
    }
    scores.liking = ask_or_leave(context, "  how well liked, 0 ... 10:", read_score);
    const std::string words = ask(context, "  in words (good for...):");
    if (!words.empty()) scores.words = words;
    return scores;
}

}  // namespace

journal::TasteScores ask_for_scores(const Context& context) {
    journal::TasteScores scores = ask_once(context);
    while (scores == journal::TasteScores{}) {
        context.err << "Nothing was said of it; one score or word is wanted.\n";
        scores = ask_once(context);
    }
    return scores;
}

}  // namespace loafmark::commands
