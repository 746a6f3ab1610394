#include "commands/named.h"

#include <concepts>

#include "commands/failure.h"
#include "commands/messages.h"

namespace loafmark::commands {
namespace {

template <std::invocable Find>
auto found(Find find, const std::string& otherwise) {
    try {
        return find();
    } catch (const journal::NotFound& error) {
        const std::string near = did_you_mean(error.suggestions());
        throw Failure(error.what(), near.empty() ? otherwise : near);
    }
}

}  // namespace

journal::Flour named_flour(const journal::Journal& journal, const std::string& name) {
    return found([&] { return journal.flour(name); }, "loafmark flour list shows all");
}

journal::FormulaVersion named_formula(const journal::Journal& journal, const std::string& name) {
    return found([&] { return journal.formula(name); }, "loafmark formula list shows all");
}

journal::Trial named_trial(const journal::Journal& journal, const std::string& name) {
    return found([&] { return journal.trial(name); }, "loafmark trial list shows all");
}

journal::BakeEntry named_bake(const journal::Journal& journal, const std::string& text,
                              Date today) {
    return found([&] { return journal.bake(journal.find_bake(text, today)); },
                 "loafmark bake list shows all");
}

}  // namespace loafmark::commands
