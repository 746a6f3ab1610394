#include "arithmetic/water_temperature.h"

namespace loafmark {
namespace {

double known_sum(const BowlTemperatures& bowl) {
    return bowl.flour.degrees() + bowl.room.degrees() +
           (bowl.starter ? bowl.starter->degrees() : 0);
}

double parts(const BowlTemperatures& bowl) {
    return bowl.starter ? 4 : 3;
}

}  // namespace

Celsius water_temperature(Celsius wanted_dough, const BowlTemperatures& bowl,
                          FrictionKelvins friction) {
    return Celsius(parts(bowl) * wanted_dough.degrees() - known_sum(bowl) - friction.count());
}

FrictionKelvins friction_of(Celsius measured_dough, const BowlTemperatures& bowl, Celsius water) {
    return FrictionKelvins(parts(bowl) * measured_dough.degrees() - known_sum(bowl) -
                           water.degrees());
}

std::optional<Grams> ice_for(Grams water, Celsius needed, Celsius tap) {
    if (needed >= tap) return std::nullopt;
    return water * ((tap.degrees() - needed.degrees()) / (tap.degrees() + 80));
}

}  // namespace loafmark
