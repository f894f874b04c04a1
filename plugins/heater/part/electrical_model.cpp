#include "part/electrical_model.hpp"

#include "rules/names.hpp"

namespace ohmwright::heater {

namespace {

// How far each fault goes; assumed, no source.
constexpr double least_lost_share = 0.1;
constexpr double most_lost_share = 0.5;
constexpr double joint_from_ohms = 3.0;
constexpr double joint_to_ohms = 300.0;
constexpr double leak_from_ohms = 1e3;
constexpr double leak_to_ohms = 500e3;

/// A resistance between two ends [ohm].
struct Between {
  double low;
  double high;
};

Element ohms_between(TerminalIndex from, TerminalIndex to, Between r) {
  Element made;
  made.type = ElementType::resistance;
  made.from = from;
  made.to = to;
  made.value_in_si = 0.5 * (r.low + r.high);
  made.relative_half_width = (r.high - r.low) / (r.high + r.low);
  return made;
}

Element open_between(TerminalIndex from, TerminalIndex to) {
  Element made;
  made.type = ElementType::open;
  made.from = from;
  made.to = to;
  return made;
}

Between good(const HeaterRatings& ratings, const Situation& situation) {
  if (situation.line_frequency_hz > 0.0 && ratings.knows_power()) {  // hot: V²/P
    const double nominal = (*ratings.voltage * *ratings.voltage / *ratings.power).value();
    return {nominal / (1.0 + ratings.tolerance.above), nominal / (1.0 - ratings.tolerance.below)};
  }
  const std::optional<double> kelvin = situation.condition(part_temperature);
  const RatedResistance cold = kelvin ? ratings.cold_at(Temperature::from_kelvin(*kelvin)) : ratings.cold();
  return {cold.lower, cold.upper};
}

}  // namespace

void append_model(const HeaterRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                  std::vector<Element>& elements) {
  const bool heats = situation.line_frequency_hz > 0.0;
  if (fault_mode == fault_open || (fault_mode == fault_opens_hot && heats)) {
    elements.push_back(open_between(lead_1, lead_2));
  } else if (ratings != nullptr) {
    Between r = good(*ratings, situation);
    if (fault_mode == fault_shorted_turns) r = {r.low * (1.0 - most_lost_share), r.high * (1.0 - least_lost_share)};
    if (fault_mode == fault_one_of_two) r = {2.0 * r.low, 2.0 * r.high};
    if (fault_mode == fault_bad_joint) r = {r.low + joint_from_ohms, r.high + joint_to_ohms};
    elements.push_back(ohms_between(lead_1, lead_2, r));
  }
  if (fault_mode == fault_leaks)
    elements.push_back(ohms_between(lead_1, frame, {leak_from_ohms, leak_to_ohms}));
  else
    elements.push_back(open_between(lead_1, frame));
}

}  // namespace ohmwright::heater
