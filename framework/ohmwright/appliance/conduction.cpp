#include <algorithm>

#include <ohmwright/appliance/conduction.hpp>

namespace ohmwright {

namespace {

void set_state(std::vector<StateValue>& states, const StateValue& value) {
  const auto found =
      std::find_if(states.begin(), states.end(), [&](const StateValue& one) { return one.state == value.state; });
  if (found == states.end())
    states.push_back(value);
  else
    *found = value;
}

Situation situation_in_place(const Appliance& appliance, std::size_t part, std::optional<std::size_t> set_up,
                             Excitation excitation) {
  const PlacedPart& placed = appliance.parts[part];
  const Descriptor& descriptor = placed.kind->descriptor();
  std::vector<StateValue> states = placed.states;
  std::optional<StatedValue> temperature;
  if (placed.zone) temperature = appliance.zones[*placed.zone].temperature;
  if (set_up) {
    for (const SetState& row : appliance.set_ups[*set_up].states)
      if (row.part == part) set_state(states, row.value);
    for (const SetTemperature& row : appliance.set_ups[*set_up].temperatures)
      if (row.zone == placed.zone) temperature = row.temperature;
  }
  Situation situation({}, states);
  situation.excitation = excitation;
  const std::uint16_t of_part = index_of(descriptor.conditions, "part_temperature");
  if (of_part != not_found && temperature) situation.conditions.push_back({of_part, temperature->value.value_in_si()});
  const std::uint16_t line = index_of(descriptor.conditions, "line_voltage");
  if (line != not_found && excitation != Excitation::ohmmeter)
    situation.conditions.push_back({line, appliance.supply.voltage.value.value_in_si()});
  return situation;
}

bool lies_between(const Element& element, const PartPoints& points) {
  return element.from == points.from && element.to == points.to;
}

bool is_same(const Element& a, const Element& b) {
  return a.type == b.type && a.from == b.from && a.to == b.to && a.value_in_si == b.value_in_si &&
         a.relative_half_width == b.relative_half_width && a.probability_closed == b.probability_closed;
}

/// Whether the two lists say the same of what lies between these points.
bool agree_between(const std::vector<Element>& a, const std::vector<Element>& b, const PartPoints& points) {
  std::vector<Element> of_a;
  std::vector<Element> of_b;
  std::copy_if(a.begin(), a.end(), std::back_inserter(of_a), [&](const Element& e) { return lies_between(e, points); });
  std::copy_if(b.begin(), b.end(), std::back_inserter(of_b), [&](const Element& e) { return lies_between(e, points); });
  return std::equal(of_a.begin(), of_a.end(), of_b.begin(), of_b.end(), is_same);
}

void add_points(const std::vector<Element>& elements, std::vector<PartPoints>& points) {
  for (const Element& element : elements) {
    const PartPoints between{element.from, element.to};
    if (std::find(points.begin(), points.end(), between) == points.end()) points.push_back(between);
  }
}

}  // namespace

Conduction conduction_of(const Appliance& appliance, std::size_t part, std::uint16_t fault,
                         std::optional<std::size_t> set_up, Excitation excitation) {
  const PlacedPart& placed = appliance.parts[part];
  const Situation situation = situation_in_place(appliance, part, set_up, excitation);
  Conduction conduction;
  const ModelAnswer answer = placed.kind->call(
      "its electrical model", [&] { return placed.part->electrical_model(fault, situation, conduction.elements); });
  conduction.can_be = answer != ModelAnswer::not_applicable;
  if (answer == ModelAnswer::unknown) {
    conduction.elements.clear();
    if (placed.nodes.size() >= 2) conduction.conducting.push_back({0, 1});  // anything, between its first two terminals
    return conduction;
  }
  for (const Element& element : conduction.elements)
    if (element.type != ElementType::open) conduction.conducting.push_back({element.from, element.to});
  return conduction;
}

std::vector<PartPoints> changed_points(const Conduction& healthy, const Conduction& faulty) {
  std::vector<PartPoints> points;
  add_points(healthy.elements, points);
  add_points(faulty.elements, points);
  std::erase_if(points,
                [&](const PartPoints& between) { return agree_between(healthy.elements, faulty.elements, between); });
  return points;
}

}  // namespace ohmwright
