#include <algorithm>

#include "part/rated_figures.hpp"
#include "reading/definition_reader.hpp"
#include "reading/rule_reader.hpp"

namespace ohmwright::kind_file {

namespace {

void refuse_what_only_limits_have(const ValueNode& rule, Notes& notes) {
  for (const std::string_view field : {"temperature_coefficient", "proportional_to", "difference", "may_condemn"}) {
    if (const ValueNode* node = rule.find(field))
      notes.say(*node, ohmwright::quoted(field) + " belongs to a rule on limits");
  }
}

/// Figures that no ratings change have to fit each other in the file already.
void check_constants(const RuleForm& form, const Definition& definition, Notes& notes) {
  const RatingValues nothing_stated(definition.ratings.size());
  const Dimension dimension = definition.descriptor.measurands[form.measurand].dimension;
  if (const std::string why = contradiction_in(form, known_rule(form, dimension, nothing_stated)); !why.empty())
    notes.say(*form.place, why);
}

void read_rule(const ValueNode& rule, Definition& definition, Notes& notes) {
  RuleDescriptor descriptor;
  descriptor.id = text_in(rule, "id");
  descriptor.title = text_in(rule, "title");
  descriptor.essential = flag_in(rule, "essential", false);
  descriptor.source = text_in(rule, "source");
  RuleForm form;
  form.place = &rule;
  form.measurand = place_of(rule.find("measurand"), "measurand", definition.descriptor.measurands, notes);
  form.may_condemn = flag_in(rule, "may_condemn", true);
  const bool on_limits = rule.find("limits") != nullptr;
  const bool on_contact = rule.find("contact") != nullptr;
  const bool on_insulation = rule.find("insulation") != nullptr;
  if (int{on_limits} + int{on_contact} + int{on_insulation} != 1) {
    notes.say(rule,
              "a rule has either \"limits\", of a value, or \"contact\", of an open or closed one, or "
              "\"insulation\"");
  } else if (form.measurand != not_found) {
    if (on_limits) {
      read_limits(rule, definition, form, descriptor, notes);
    } else {
      refuse_what_only_limits_have(rule, notes);
      if (on_contact)
        read_contact(rule, definition, form, descriptor, notes);
      else
        read_insulation(rule, definition, form, descriptor, notes);
    }
    if (form.whole) check_constants(form, definition, notes);
  }
  descriptor.condemns_for_good = form.contact() != nullptr && form.contact()->single_operation;
  definition.rules.push_back(std::move(form));
  definition.descriptor.rules.push_back(std::move(descriptor));
}

}  // namespace

void read_rules(const ValueNode& document, Definition& definition, Notes& notes) {
  check_ids_once(document, "rules", "rule", notes);
  for (const ValueNode& rule : list_in(document, "rules")) read_rule(rule, definition, notes);
  const auto& rules = definition.descriptor.rules;
  if (std::none_of(rules.begin(), rules.end(), [](const RuleDescriptor& rule) { return rule.essential; })) {
    const ValueNode* list = document.find("rules");
    notes.say(list != nullptr ? *list : document,
              "none of the rules is essential, so no part could ever pass; write \"essential\": true in one");
  }
}

}  // namespace ohmwright::kind_file
