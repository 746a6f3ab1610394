#include "commands/bake_facts_text.h"

#include "arithmetic/bench.h"
#include "arithmetic/quantities.h"
#include "documents/text_table.h"
#include "insight/bake_values.h"

namespace loafmark::commands {
namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string length_text(Millimetres length) {
    return number_text(length.count()) + " mm";
}

class Sentence {
  public:
    void add(const std::string& part) { text_ += (text_.empty() ? "" : "; ") + part; }
    template <class T, class Shown>
    void add(const char* name, const std::optional<T>& value, Shown shown) {
        if (value) add(std::string(name) + " " + shown(*value));
    }
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    std::string text_;
};

// "specific volume 3.62 mL/g", where it is known.
void add_measure(Sentence& sentence, const MeasureValues& weighed, Measure measure) {
    const auto found = weighed.find(measure);
    if (found == weighed.end()) return;
    const MeasureInfo& info = info_of(measure);
    sentence.add(std::string(info.name) + " " + number_text(found->second.value, info.decimals) +
                 (info.unit.empty() ? "" : " " + std::string(info.unit)));
}

void add_weighed(Sentence& sentence, const journal::LoafEntry& entry) {
    const journal::Loaf& loaf = entry.loaf;
    const journal::LoafFacts& facts = loaf.facts;
    if (loaf.baked_mass && *loaf.baked_mass > Grams(0) && loaf.dough_mass &&
        *loaf.dough_mass > Grams(0)) {
        std::string loss =
            "bake loss " + percent_text(bake_loss(*loaf.dough_mass, *loaf.baked_mass));
        if (facts.weighed_after)
            loss += " (weighed after " + hours_text(*facts.weighed_after) + ")";
        sentence.add(loss);
    }
    add_measure(sentence, entry.weighed, Measure::specific_volume);
    if (!facts.volume && entry.weighed.contains(Measure::specific_volume))
        sentence.add("its volume by cut face and length, too much where ends are domed");
    add_measure(sentence, entry.weighed, Measure::dough_per_tin_volume);
}

std::string loaf_sentence(const journal::LoafEntry& entry, Degrees degrees) {
    const journal::LoafFacts& facts = entry.loaf.facts;
    const auto plain = [](const std::string& text) { return text; };
    Sentence sentence;
    add_weighed(sentence, entry);
    sentence.add("proved", facts.proof, [](Minutes time) { return to_text(time); });
    sentence.add("proved at", facts.proof_temperature,
                 [=](Celsius at) { return temperature_text(at, degrees); });
    sentence.add("proof height", facts.proof_height, length_text);
    if (facts.proof_height && facts.dough_height)
        sentence.add("proof rise x" + number_text(*facts.proof_height / *facts.dough_height, 2));
    add_measure(sentence, entry.weighed, Measure::oven_spring);
    sentence.add("dent", facts.dent, plain);
    sentence.add("scored:", facts.scoring, plain);
    sentence.add("oven place:", facts.oven_place, plain);
    sentence.add("steam:", facts.steam, plain);
    sentence.add("core", facts.core_temperature, [=](Celsius core) {
        return temperature_text(core, degrees) + " (done, not a safety limit)";
    });
    return sentence.text();
}

}  // namespace

std::vector<std::vector<std::string>> dough_facts(const journal::BakeFacts& facts,
                                                  Degrees degrees) {
    Rows rows;
    const auto add = [&](const char* name, const auto& value, auto shown) {
        if (value) rows.push_back({name, shown(*value)});
    };
    const auto plain = [](const std::string& text) { return text; };
    const auto warm = [=](Celsius temperature) { return temperature_text(temperature, degrees); };
    add("handling at shaping", facts.handling_shaped, plain);
    add("held its shape", facts.held_shape, plain);
    add("leaven", facts.leaven, plain);
    add("starter fed before", facts.leaven_fed_before, hours_text);
    add("mixed by", facts.mixed_by, plain);
    add("folds", facts.folds, [](int folds) { return std::to_string(folds); });
    add("water", facts.water_temperature, warm);
    add("flour", facts.flour_temperature, warm);
    add("starter", facts.starter_temperature, warm);
    return rows;
}

std::string steps_text(const journal::Bake& bake, Degrees degrees) {
    if (bake.steps.empty()) return "";
    Rows rows;
    for (const journal::BakeStep& step : bake.steps)
        rows.push_back({step.step, or_nothing(step.began),
                        step.lasted ? to_text(*step.lasted) : std::string(nothing_text),
                        temperature_text(step.temperature, degrees)});
    using documents::Align;
    return documents::text_table(
               {{"step"}, {"began"}, {"took", Align::right}, {"at", Align::right}}, rows) +
           "\n";
}

std::string loaf_facts_text(const journal::BakeEntry& bake, Degrees degrees) {
    std::string text;
    for (const journal::LoafEntry& entry : bake.loaves)
        if (const std::string sentence = loaf_sentence(entry, degrees); !sentence.empty())
            text += "Loaf " + std::to_string(entry.loaf.number) + ": " + sentence + ".\n";
    return text;
}

}  // namespace loafmark::commands
