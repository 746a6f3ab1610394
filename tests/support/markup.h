// A look at markup without a parser of the system: whether tags are balanced and texts escaped.
#pragma once

#include <cctype>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace loafmark {

enum class Markup { xml, html };

// "" for sound markup, else what is wrong and where. Knows what this program writes: elements with
// quoted attributes, character references, comments, a declaration, and HTML's void elements and
// <style> whose text is not markup.
inline std::string markup_fault(std::string_view text, Markup kind) {
    static const std::set<std::string> void_elements = {"meta", "br",  "img",  "hr",
                                                        "link", "col", "input"};
    std::vector<std::string> open;
    const auto fault = [&](const std::string& what, std::size_t at) {
        return what + " near: " + std::string(text.substr(at, 80));
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '&') {
            const std::size_t end = text.find(';', i);
            if (end == std::string_view::npos || end - i > 9) return fault("bare &", i);
        }
        if (text[i] != '<') continue;
        if (text.substr(i, 2) == "<?" || text.substr(i, 2) == "<!") {
            i = text.find('>', i);
            continue;
        }
        const std::size_t start = i;
        const bool closing = text[i + 1] == '/';
        std::size_t at = i + (closing ? 2 : 1);
        std::string name;
        while (at < text.size() &&
               (std::isalnum(static_cast<unsigned char>(text[at])) || text[at] == '-'))
            name += text[at++];
        if (name.empty()) return fault("bare <", start);
        char quote = 0;
        for (; at < text.size() && (quote || text[at] != '>'); ++at) {
            if (text[at] == '<') return fault("< within a tag", start);
            if (quote && text[at] == quote)
                quote = 0;
            else if (!quote && (text[at] == '"' || text[at] == '\''))
                quote = text[at];
        }
        if (at >= text.size()) return fault("unended tag", start);
        if (closing) {
            if (open.empty() || open.back() != name)
                return fault("unexpected end of " + name, start);
            open.pop_back();
        } else if (text[at - 1] != '/' && !(kind == Markup::html && void_elements.contains(name))) {
            open.push_back(name);
            if (name == "style") at = text.find("</style", at) - 1;
        }
        i = at;
    }
    return open.empty() ? "" : "never ended: " + open.back();
}

}  // namespace loafmark
