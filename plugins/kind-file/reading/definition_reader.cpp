#include "reading/definition_reader.hpp"

namespace ohmwright::kind_file {

namespace {

/// Text that could move a cursor, or hide or reverse what stands beside it, reaches no terminal and no page.
void check_texts(const ValueNode& document, Notes& notes) {
  std::vector<const ValueNode*> nodes{&document};  // a list in place of a recursion, which a file could drive deep
  while (!nodes.empty()) {
    const ValueNode& node = *nodes.back();
    nodes.pop_back();
    if (node.text() != nullptr && printable(*node.text()) != *node.text())
      notes.say(node, "the text cannot be shown: " + ohmwright::quoted(*node.text()));
    if (const ValueNode::Array* list = node.array())
      for (const ValueNode& item : *list) nodes.push_back(&item);
    if (const ValueNode::Members* members = node.members())
      for (const auto& [name, member] : *members) nodes.push_back(&member);
  }
}

void read_names(const ValueNode& document, Definition& definition, Notes& notes) {
  Descriptor& descriptor = definition.descriptor;
  descriptor.id = text_in(document, "kind");
  descriptor.title = text_in(document, "title");
  descriptor.aliases = texts_in(document, "aliases");
  descriptor.text_domain = definition.keep("ohmwright-" + std::string(descriptor.id));
  descriptor.roles = texts_in(document, "roles");
  descriptor.terminals = texts_in(document, "terminals");
  check_texts_once(document, "aliases", "alias", notes);
  check_texts_once(document, "roles", "role", notes);
  check_texts_once(document, "terminals", "terminal", notes);
}

}  // namespace

void read_definition(const ValueNode& document, Definition& definition, std::vector<Problem>& problems) {
  Notes notes(problems);
  check_texts(document, notes);
  check_refused_names(document, notes);
  read_names(document, definition, notes);
  read_measurands(document, definition, notes);
  read_conditions(document, definition, notes);
  read_states(document, definition, notes);
  read_ratings(document, definition, notes);
  read_rules(document, definition, notes);
  read_test_voltage(document, definition, notes);
  read_cautions(document, definition, notes);
  read_procedures(document, definition, notes);
  read_advice(document, definition, notes);
  read_elements(document, definition, notes);
  read_own_protectors(document, definition, notes);
  read_charts(document, definition, notes);
}

}  // namespace ohmwright::kind_file
