#include <algorithm>

#include "reading/definition_reader.hpp"
#include "reading/rule_reader.hpp"

namespace ohmwright::kind_file {

namespace {

/// Whether rules of that measurand ask for a tester of insulation, and none asks for an ohmmeter.
bool is_read_by_a_tester(const Definition& definition, std::size_t measurand) {
  bool any = false;
  for (const RuleForm& rule : definition.rules) {
    if (rule.measurand != measurand) continue;
    if (!asks_for_a_tester(rule, definition.descriptor.measurands[measurand].dimension)) return false;
    any = true;
  }
  return any;
}

}  // namespace

bool asks_for_a_tester(const RuleForm& rule, Dimension dimension) {
  if (rule.insulation() != nullptr) return true;
  if (rule.limits() == nullptr || !rule.limits()->is_least_ohms(dimension)) return false;
  const auto& ways = rule.limits()->lower.ways;
  return std::all_of(ways.begin(), ways.end(),
                     [](const FigureWay& way) { return !way.is_quantity() || way.value >= insulation_from_ohms; });
}

void read_test_voltage(const ValueNode& document, Definition& definition, Notes& notes) {
  const std::uint16_t index = index_of(definition.descriptor.conditions, test_voltage_condition);
  if (index == not_found) return;
  const ValueNode& row = list_in(document, "conditions")[index];
  ConditionDescriptor& condition = definition.descriptor.conditions[index];
  if (condition.dimension != Dimension::voltage) {
    notes.say(*row.find("dimension"), "the condition \"test_voltage\" is the volts of an insulation tester, a voltage");
    return;
  }
  // Its own accuracy holds for what a tester reads and for nothing else: ohms stay an ohmmeter's.
  if (condition.of.empty()) {
    for (std::size_t i = 0; i < definition.descriptor.measurands.size(); ++i)
      if (is_read_by_a_tester(definition, i)) condition.of.push_back(definition.descriptor.measurands[i].id);
    const bool all_whole =
        std::all_of(definition.rules.begin(), definition.rules.end(), [](const RuleForm& rule) { return rule.whole; });
    if (condition.of.empty() && all_whole)
      notes.say(row,
                "no measurand is read with a tester of insulation, so its volts say nothing; leave the condition "
                "out, or give insulation a rule: \"insulation\": {\"least\": \"1 Mohm\"}");
    return;
  }
  for (const ValueNode& node : list_in(row, "of")) {
    const std::uint16_t measurand =
        node.text() == nullptr ? not_found : index_of(definition.descriptor.measurands, *node.text());
    if (measurand == not_found) continue;  // which was told where conditions are read
    const bool by_ohmmeter = std::any_of(definition.rules.begin(), definition.rules.end(), [&](const RuleForm& rule) {
      return rule.measurand == measurand && rule.whole &&
             !asks_for_a_tester(rule, definition.descriptor.measurands[measurand].dimension);
    });
    if (by_ohmmeter)
      notes.say(node, "the volts of an insulation tester are none of " + ohmwright::quoted(*node.text()) +
                          ", which a meter reads");
  }
}

}  // namespace ohmwright::kind_file
