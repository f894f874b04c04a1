#include "part/heater_ratings.hpp"

#include <algorithm>

#include <ohmwright/component/rated_figures.hpp>

namespace ohmwright::heater {

namespace {

Construction construction_named(std::string_view name) {
  if (name == "glass-tube") return Construction::glass_tube;
  if (name == "metal-sheath") return Construction::metal_sheath;
  if (name == "foil") return Construction::foil;
  return name == "bare-wire" ? Construction::bare_wire : Construction::unstated;
}

void read_insulation(const ValueNode& ratings, RatedFigures& figures, HeaterRatings& read) {
  read.earth_class = earth_class_named(RatedFigures::word(ratings, "earth_class"));
  read.insulation =
      figures.positive<Resistance>(ratings, "insulation").value_or(least_insulation(read.earth_class, read.power));
}

void read_power(const ValueNode& ratings, RatedFigures& figures, HeaterRatings& read) {
  read.voltage = figures.positive<Voltage>(ratings, "voltage");
  read.power = figures.positive<Power>(ratings, "power");
  if (read.power) read.tolerance = usual_tolerance(*read.power);
  if (const auto below = figures.tolerance(ratings, "power_below")) read.tolerance.below = *below;
  if (const auto above = figures.tolerance(ratings, "power_above")) read.tolerance.above = *above;
}

void read_resistance(const ValueNode& ratings, RatedFigures& figures, HeaterRatings& read) {
  read.resistance = figures.positive<Resistance>(ratings, "resistance");
  if (const auto tolerance = figures.tolerance(ratings, "resistance_tolerance")) read.resistance_tolerance = *tolerance;
  if (read.resistance && read.resistance_tolerance == 0.0)
    figures.refuse(ratings, "resistance", "say how far good parts may be off: \"resistance_tolerance\"");
}

/// Cold ohms that cannot belong to the volts and watts beside them: one of the three is a slip.
void refuse_contradiction(const ValueNode& ratings, RatedFigures& figures, const HeaterRatings& read) {
  if (!read.resistance || !read.knows_power()) return;
  HeaterRatings from_power = read;
  from_power.resistance.reset();
  const RatedResistance by_power = from_power.cold();
  const double stated = read.resistance->value();
  if (stated * (1.0 + read.resistance_tolerance) < by_power.lower ||
      stated * (1.0 - read.resistance_tolerance) > by_power.upper)
    figures.refuse(ratings, "resistance",
                   "the cold ohms do not belong to the rated volts and watts (V²/P); one of the three is wrong");
}

}  // namespace

PowerTolerance usual_tolerance(Power rated) {
  const double watt = rated.value();
  if (watt <= 25.0) return {0.2, 0.2};
  if (watt <= 200.0) return {0.1, 0.1};
  return {0.1, std::max(0.05, 20.0 / watt)};
}

RatedResistance HeaterRatings::cold() const {
  if (resistance) {
    const double nominal = resistance->value();
    return {nominal * (1.0 - resistance_tolerance), nominal, nominal * (1.0 + resistance_tolerance)};
  }
  const double hot = (*voltage * *voltage / *power).value();
  const Factor gain = hot_factor(alloy, wire_temperature);
  return {hot / ((1.0 + tolerance.above) * gain.high), hot / gain.low, hot / ((1.0 - tolerance.below) * gain.low)};
}

RatedResistance HeaterRatings::cold_at(Temperature t) const {
  const RatedResistance at_20 = cold();
  const Factor factor = resistance_factor(alloy, t);
  return {at_20.lower * factor.low, at_20.nominal * 0.5 * (factor.low + factor.high), at_20.upper * factor.high};
}

std::optional<HeaterRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems) {
  const std::size_t before = problems.size();
  RatedFigures figures(problems);
  HeaterRatings read;
  read.alloy = alloy_named(RatedFigures::word(ratings, "alloy"));
  read.wire_temperature = figures.figure<Temperature>(ratings, "element_temperature");
  read.construction = construction_named(RatedFigures::word(ratings, "construction"));
  read.elements = RatedFigures::whole_number(ratings, "elements").value_or(1);
  read.length = figures.positive<Length>(ratings, "length");
  read_power(ratings, figures, read);
  read_insulation(ratings, figures, read);
  read_resistance(ratings, figures, read);
  if (problems.size() == before && !read.resistance && !read.knows_power())
    figures.refuse(ratings, "the ratings are not complete");
  if (problems.size() == before) refuse_contradiction(ratings, figures, read);
  if (problems.size() != before) return std::nullopt;
  return read;
}

}  // namespace ohmwright::heater
