#include "part/electrical_model.hpp"

#include <ohmwright/component/fault_extents.hpp>

#include "rules/names.hpp"

namespace ohmwright::heater {

namespace {

// How far each fault goes; assumed, no source. Together they leave no gap: whatever a heater alone reads, from nothing
// to OL, is good or one of these.
constexpr double least_lost_share = 0.1;
constexpr double joint_from_ohms = 3.0;
constexpr double most_of_a_short_ohms = 0.5;  // what a meter of the trade hardly tells from its leads
/// Share of the time that one which comes and goes conducts.
constexpr double share_closed = 0.5;

/// A resistance between two ends [ohm].
struct Between {
  double low;
  double high;
};

Between good(const HeaterRatings& ratings, const Situation& situation) {
  if (situation.excitation != Excitation::ohmmeter && ratings.knows_power()) {  // hot: V²/P
    const double nominal = (*ratings.voltage * *ratings.voltage / *ratings.power).value();
    return {nominal / (1.0 + ratings.tolerance.above), nominal / (1.0 - ratings.tolerance.below)};
  }
  const std::optional<double> kelvin = situation.condition(part_temperature);
  const RatedResistance cold = kelvin ? ratings.cold_at(Temperature::from_kelvin(*kelvin)) : ratings.cold();
  return {cold.lower, cold.upper};
}

/// The element with a leak along its wire, which cuts it in two, each a tenth to nine tenths of the whole: what leaks
/// nearer to an end reads like a leak at that end.
void append_leak_along_the_wire(const Between& whole, std::vector<Element>& elements) {
  constexpr std::uint16_t leaking_point = frame + 1;  // within the part
  constexpr double shortest_share = 0.1;
  constexpr double longest_share = 0.9;
  const double low = shortest_share * whole.low;
  const double high = longest_share * whole.high;
  elements.insert(
      elements.end(),
      {resistance_between(lead_1, leaking_point, low, high), resistance_between(leaking_point, lead_2, low, high),
       resistance_between(leaking_point, frame, fault_extents::leak_from, fault_extents::leak_to)});
}

}  // namespace

ModelAnswer append_model(const HeaterRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements) {
  const bool leaks_at_an_end = fault_mode == fault_leaks || fault_mode == fault_leaks_at_the_other_end;
  const std::uint16_t leaking_end = fault_mode == fault_leaks_at_the_other_end ? lead_2 : lead_1;
  const Element to_frame =
      leaks_at_an_end ? resistance_between(leaking_end, frame, fault_extents::leak_from, fault_extents::leak_to)
                      : open_between(lead_1, frame);
  const bool heats = situation.excitation != Excitation::ohmmeter;
  if (fault_mode == fault_open || (fault_mode == fault_opens_hot && heats)) {
    elements.insert(elements.end(), {open_between(lead_1, lead_2), to_frame});
    return ModelAnswer::stated;
  }
  if (fault_mode == fault_short) {
    elements.insert(elements.end(), {resistance_between(lead_1, lead_2, 0.0, most_of_a_short_ohms), to_frame});
    return ModelAnswer::stated;
  }
  if (ratings == nullptr) return ModelAnswer::unknown;
  Between r = good(*ratings, situation);
  if (fault_mode == fault_leaks_in_the_middle) {
    append_leak_along_the_wire(r, elements);
    return ModelAnswer::stated;
  }
  if (fault_mode == fault_shorted_turns) r = {most_of_a_short_ohms, r.high * (1.0 - least_lost_share)};
  if (fault_mode == fault_one_of_two) r = {2.0 * r.low, 2.0 * r.high};
  if (fault_mode == fault_bad_joint) r = {r.low + joint_from_ohms, r.high + fault_extents::bad_joint_to};
  if (fault_mode == fault_burnt_joint)
    r = {r.low + fault_extents::burnt_joint_from, r.high + fault_extents::burnt_joint_to};
  elements.push_back(fault_mode == fault_intermittent ? contact_between(lead_1, lead_2, r.low, r.high, share_closed)
                                                      : resistance_between(lead_1, lead_2, r.low, r.high));
  elements.push_back(to_frame);
  return ModelAnswer::stated;
}

}  // namespace ohmwright::heater
