#include "commands/text.h"

#include <cstdio>

#include "arithmetic/quantities.h"

namespace loafmark::commands {

std::string number_text(double number, int decimals) {
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", decimals, number);
    std::string trimmed = text;
    if (trimmed.find('.') != std::string::npos) {
        trimmed.erase(trimmed.find_last_not_of('0') + 1);
        if (trimmed.back() == '.') trimmed.pop_back();
    }
    return trimmed == "-0" ? "0" : trimmed;
}

std::string percent_text(std::optional<Fraction> fraction, int decimals) {
    return fraction ? number_text(percent(*fraction), decimals) + " %" : nothing_text;
}

std::string grams_text(std::optional<Grams> mass, int decimals) {
    return mass ? number_text(mass->count(), decimals) + " g" : nothing_text;
}

std::string hours_text(Hours hours) {
    return to_text(minutes_from(hours));
}

Degrees degrees_of(const journal::KitchenFacts& facts) {
    return facts.temperatures == "F" ? Degrees::fahrenheit : Degrees::celsius;
}

std::string temperature_text(std::optional<Celsius> temperature, Degrees degrees) {
    if (!temperature) return nothing_text;
    return degrees == Degrees::fahrenheit ? number_text(fahrenheit(*temperature)) + " °F"
                                          : number_text(temperature->degrees()) + " °C";
}

std::string kelvins_text(double kelvins, Degrees degrees) {
    return degrees == Degrees::fahrenheit ? number_text(kelvins * 9 / 5) + " °F"
                                          : number_text(kelvins) + " K";
}

std::string or_nothing(const std::optional<std::string>& text) {
    return text ? *text : nothing_text;
}

std::string flours_text(const std::vector<journal::FlourShare>& flours) {
    if (flours.empty()) return nothing_text;
    if (flours.size() == 1) return flours.front().name;
    std::string text;
    for (const journal::FlourShare& flour : flours)
        text += (text.empty() ? "" : ", ") + flour.name + " " + percent_text(flour.share, 0);
    return text;
}

std::string_view basis_name(journal::ProteinBasis basis) {
    switch (basis) {
        case journal::ProteinBasis::pack_eu:
            return "pack_eu";
        case journal::ProteinBasis::pack_us:
            return "pack_us";
        case journal::ProteinBasis::mill_14_percent_moisture:
            return "mill_14_percent_moisture";
        case journal::ProteinBasis::dry:
            return "dry";
    }
    return "";
}

std::string_view kind_name(IngredientKind kind) {
    switch (kind) {
        case IngredientKind::flour:
            return "flour";
        case IngredientKind::water:
            return "water";
        case IngredientKind::salt:
            return "salt";
        case IngredientKind::leaven:
            return "leaven";
        case IngredientKind::other:
            break;
    }
    return "other";
}

}  // namespace loafmark::commands
