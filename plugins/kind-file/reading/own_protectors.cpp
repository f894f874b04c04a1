#include <array>

#include "reading/definition_reader.hpp"
#include "reading/figure_reader.hpp"

namespace ohmwright::kind_file {

namespace {

double kelvin_in(const ValueNode& object, std::string_view field, Notes& notes) {
  const ValueNode* temperature = object.find(field);
  return temperature == nullptr ? 0.0 : quantity_in(*temperature, Dimension::temperature, notes).value_or(0.0);
}

void read_ends(const ValueNode& row, const Definition& definition, OwnProtector& protector, Notes& notes) {
  std::array<std::uint16_t, 2> ends{not_found, not_found};
  std::size_t end = 0;
  for (const ValueNode& node : list_in(row, "between"))
    if (node.text() != nullptr && end < ends.size()) ends[end++] = terminal_named(node, definition, notes);
  protector.from = ends[0];
  protector.to = ends[1];
}

}  // namespace

void read_own_protectors(const ValueNode& document, Definition& definition, Notes& notes) {
  for (const ValueNode& row : list_in(document, "own_protectors")) {
    OwnProtector protector;
    read_ends(row, definition, protector, notes);
    protector.condition = place_of(row.find("condition"), "condition", definition.descriptor.conditions, notes);
    protector.closed_to_kelvin = kelvin_in(row, "closed_to", notes);
    protector.open_from_kelvin = kelvin_in(row, "open_from", notes);
    if (protector.closed_to_kelvin >= protector.open_from_kelvin)
      notes.say(row, "\"closed_to\" has to lie below \"open_from\"");
    definition.own_protectors.push_back(protector);
  }
}

}  // namespace ohmwright::kind_file
