#include "cautions/cautions.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "arithmetic/near_names.h"

namespace loafmark::cautions {
namespace {

constexpr std::array<Caution, 11> list{{
    {"raw", "Flour and dough are raw: do not eat or taste them, and wash hands and bench.",
     "US FDA and CDC, consumer advice 2016-2017 (63 cases of E. coli from flour); UK Food "
     "Standards Agency 2017; both read second-hand"},
    {"hot", "Hot oven, hot tin, steam, knives: take care.", "common knowledge, no source"},
    {"gluten", "Contains gluten: unsafe in coeliac disease.",
     "Regulation (EU) 1169/2011, annex II (wheat with spelt, khorasan, durum, emmer, einkorn; rye; "
     "barley; their hybrids), read second-hand; a long dough does not take it away"},
    {"gluten-unknown", "Whether this holds gluten is not known here: treat it as if it did.",
     "own rule; oats are safe for some where labelled so (Regulation (EU) 828/2014, from memory)"},
    {"traces", "A mill and a kitchen that handle wheat leave traces of gluten.",
     "own rule; at most 20 mg/kg may be called gluten-free (Codex Stan 118-1979), which no formula "
     "shows"},
    {"allergens",
     "Ask every taster about allergies first, and tell what is in the bread: flour, and milk, egg, "
     "seeds, nuts, soya or the like where you added them.",
     "Regulation (EU) 1169/2011, annex II, 14 allergens; US FALCPA 2004 and FASTER Act 2021, 9, "
     "without rye and barley; read second-hand"},
    {"mould-and-rope",
     "From the second day: with any mould, or a fruity smell and sticky threads in the crumb, "
     "discard the whole loaf; do not sniff or taste it, and do not cut the spot off.",
     "USDA FSIS, Molds on Food (seen in a copy); Pacher et al. 2022, Foods 11:3021, and Thompson, "
     "Dodd, Waites 1993, Int. Biodeterior. Biodegrad. 32:55-66, on rope (abstracts)"},
    {"ergot",
     "Rye milled at home or bought uncleaned may hold ergot, dark horn-like bodies: sort them "
     "out.",
     "EFSA Journal 2012;10(7):2798 (abstract); Regulation (EU) 2023/915 as changed by 2024/1808 "
     "(read in a laboratory's summary)"},
    {"core", "Core temperature tells whether a loaf is done, not whether it is safe.",
     "about 92 C is taken as done: common practice"},
    {"no-proof", "A photo or a journal cannot show that bread is safe to eat.", "own statement"},
    {"law", "Local food law and licensed advice go before this page.", "own statement"},
}};

// Regulation (EU) 1169/2011, annex II, with the hybrids triticale and tritordeum.
constexpr std::array<std::string_view, 12> with_gluten{
    "wheat",        "durum",  "spelt", "emmer",  "einkorn",   "khorasan",
    "common wheat", "dinkel", "rye",   "barley", "triticale", "tritordeum"};
constexpr std::array<std::string_view, 10> without_gluten{
    "maize", "rice",   "buckwheat", "millet", "sorghum",
    "teff",  "quinoa", "amaranth",  "corn",   "chickpea"};

bool among(std::span<const std::string_view> words, std::string_view word) {
    return std::ranges::find(words, word) != words.end();
}

std::string line(std::string_view key) {
    return text_of(key) + "\n";
}

struct Gluten {
    std::string grains;  // that hold it, each once
    bool all_known = true;
    bool rye = false;
};

Gluten gluten_in(const std::vector<std::optional<std::string>>& grains) {
    Gluten gluten;
    std::vector<std::string> seen;
    for (const auto& grain : grains) {
        const auto holds = grain ? holds_gluten(*grain) : std::nullopt;
        gluten.all_known = gluten.all_known && holds;
        if (holds != true) continue;
        const std::string name = folded(*grain);
        gluten.rye = gluten.rye || name == "rye";
        if (std::ranges::find(seen, name) != seen.end()) continue;
        seen.push_back(name);
        gluten.grains += (gluten.grains.empty() ? "" : ", ") + name;
    }
    return gluten;
}

std::string gluten_line(const Gluten& gluten) {
    if (!gluten.grains.empty()) {
        std::string text = line("gluten");
        return text.insert(text.find(':'), " (" + gluten.grains + ")");
    }
    return line(gluten.all_known ? "traces" : "gluten-unknown");
}

}  // namespace

std::span<const Caution> all() {
    return list;
}

std::string text_of(std::string_view key) {
    for (const Caution& caution : list)
        if (caution.key == key) return std::string(caution.text);
    throw std::invalid_argument("there is no caution '" + std::string(key) + "'");
}

std::string at_the_bench() {
    return line("raw") + line("hot");
}

std::string of_grains(const std::vector<std::optional<std::string>>& grains) {
    const Gluten gluten = gluten_in(grains);
    return gluten_line(gluten) + (gluten.rye ? line("ergot") : "");
}

std::string before_tasting(const std::vector<std::optional<std::string>>& grains) {
    return line("allergens") + gluten_line(gluten_in(grains));
}

std::string of_age(int days_since_baked) {
    return days_since_baked >= 1 ? line("mould-and-rope") : "";
}

std::optional<bool> holds_gluten(std::string_view grain) {
    const std::string name = folded(grain);
    if (among(with_gluten, name)) return true;
    if (among(without_gluten, name)) return false;
    return std::nullopt;
}

}  // namespace loafmark::cautions
