#include "reading/definition_reader.hpp"

namespace ohmwright::kind_file {

void read_states(const ValueNode& document, Definition& definition, Notes& notes) {
  check_ids_once(document, "states", "state", notes);
  Descriptor& descriptor = definition.descriptor;
  for (const ValueNode& row : list_in(document, "states")) {
    StateDescriptor state;
    state.id = text_in(row, "id");
    state.title = text_in(row, "title");
    state.option = text_in(row, "option");
    for (const ConditionDescriptor& condition : descriptor.conditions)
      if (condition.option == state.option || condition.id == state.option)
        notes.say(*row.find("option"),
                  "the option " + ohmwright::quoted("--" + std::string(state.option)) + " is that of a condition");
    if (index_of(descriptor.measurands, state.option) != not_found)
      notes.say(*row.find("option"),
                "the option " + ohmwright::quoted("--" + std::string(state.option)) + " is the name of a measurand");
    check_ids_once(row, "values", "value", notes);
    for (const ValueNode& value : list_in(row, "values"))
      state.values.push_back({text_in(value, "id"), text_in(value, "title")});
    descriptor.states.push_back(std::move(state));
  }
}

}  // namespace ohmwright::kind_file
