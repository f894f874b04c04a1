#include "reading/figure_reader.hpp"
#include "reading/rule_reader.hpp"
#include "reading/text_reader.hpp"

namespace ohmwright::kind_file {

namespace {

constexpr std::string_view safety_rule = "insulation";

void check_measurand(const ValueNode& rule, const MeasurandDescriptor& measurand, Notes& notes) {
  if (measurand.dimension != Dimension::resistance)
    notes.say(*rule.find("measurand"), "insulation is a resistance; the measurand " + ohmwright::quoted(measurand.id) +
                                           " is " + std::string(phrase_of(measurand.dimension)));
  else if (measurand.takes_contact_state)
    notes.say(*rule.find("measurand"),
              "a contact that is open proves no insulation; give insulation a measurand of "
              "its own, without \"contact_words\"");
}

std::array<TextUse, insulation_text_count> uses_of_insulation() {
  std::array<TextUse, insulation_text_count> uses{};
  for (TextUse& use : uses) use = {true, ~FieldSet{0}};
  return uses;
}

}  // namespace

void read_insulation(const ValueNode& rule, const Definition& definition, RuleForm& form, RuleDescriptor& descriptor,
                     Notes& notes) {
  const std::size_t before = notes.count();
  check_measurand(rule, definition.descriptor.measurands[form.measurand], notes);
  if (descriptor.id != safety_rule)
    notes.say(*rule.find("id"),
              "a rule on insulation is called \"insulation\": by that name a verdict tells what is "
              "not yet proved safe to energise");
  InsulationForm insulation;
  insulation.test_voltage = index_of(definition.descriptor.conditions, test_voltage_condition);
  if (insulation.test_voltage == not_found)
    notes.say(*rule.find("insulation"),
              "insulation needs the condition \"test_voltage\", a voltage with the option \"test\": only a tester's "
              "volts prove it");
  insulation.least = figure_in(*rule.find("insulation"), "least", Dimension::resistance, definition, notes);
  form.form = insulation;
  form.whole = notes.count() == before;
  descriptor.outcomes = can_pass | can_condemn | can_be_undecided;
  read_texts(insulation_texts(), uses_of_insulation(), form, descriptor, notes);
}

}  // namespace ohmwright::kind_file
