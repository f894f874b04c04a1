#include <algorithm>

#include "reading/definition_reader.hpp"
#include "reading/text_reader.hpp"
#include "rules/standard_advice.hpp"

namespace ohmwright::kind_file {

namespace {

constexpr FieldSet of_better = only(Field::share_percent) | only(Field::chance_percent);

/// The sentence of an advice; what stands in it is asked for again when it is given.
std::string_view sentence_in(const ValueNode& row, FieldSet available, Notes& notes) {
  const ValueNode* text = row.find("text");
  if (text == nullptr || text->text() == nullptr) return {};
  fields_in(*text, available, notes);
  return *text->text();
}

void read_better_conditions(const ValueNode& document, Definition& definition, Notes& notes) {
  std::size_t index = 0;
  for (const ValueNode& row : list_in(document, "conditions")) {
    const ConditionDescriptor& condition = definition.descriptor.conditions[index++];
    BetterCondition& better = definition.better.emplace_back();
    const ValueNode* node = row.find("better");
    if (node == nullptr) continue;
    better.half_width = half_width_in(*node, "half_width", condition.dimension, notes);
    if (condition.default_half_width > 0.0 && better.half_width >= condition.default_half_width)
      notes.say(*node->find("half_width"), "it is no better than the half-width that is taken where none is stated");
    better.advice = static_cast<TextIndex>(definition.descriptor.advice.size());
    const std::string_view id = definition.keep("better-" + std::string(condition.id));
    definition.descriptor.advice.push_back({id, sentence_in(*node, of_better, notes)});
  }
}

void read_trigger(const ValueNode& when, TextIndex advice, Definition& definition, Notes& notes) {
  const std::uint16_t rule = place_of(when.find("rule"), "rule", definition.descriptor.rules, notes);
  if (rule == not_found) return;
  const std::vector<TextEntry>& texts = definition.descriptor.rules[rule].texts;
  if (texts.empty()) return;  // of a rule that could not be read, which was noted there
  const bool only_undecided = when.find("outcome") != nullptr;
  if (only_undecided && when.find("says") == nullptr) {
    definition.triggers.push_back({rule, std::nullopt, advice, true});
    return;
  }
  for (const ValueNode& said : list_in(when, "says")) {
    const std::uint16_t text = place_of(&said, "text of this rule", texts, notes);
    if (text != not_found) definition.triggers.push_back({rule, text, advice, only_undecided});
  }
}

/// The procedure by which an advice is followed: its cautions are shown with it.
std::string_view procedure_in(const ValueNode& row, const Definition& definition, Notes& notes) {
  const ValueNode* named = row.find("procedure");
  if (named == nullptr) return {};
  const std::vector<ProcedureDescriptor>& known = definition.descriptor.procedures;
  const std::uint16_t index = place_of(named, "procedure", known, notes);
  return index == not_found ? std::string_view{} : known[index].id;
}

/// The cautions before a test with hundreds of volts are shown with the advice to make one.
void name_procedure_of_insulation(Definition& definition) {
  Descriptor& descriptor = definition.descriptor;
  for (const RuleForm& rule : definition.rules) {
    if (rule.insulation() == nullptr) continue;
    for (const ProcedureDescriptor& procedure : descriptor.procedures)
      if (procedure.measurand == descriptor.measurands[rule.measurand].id)
        descriptor.advice[static_cast<std::size_t>(StandardAdvice::prove_insulation)].procedure = procedure.id;
  }
}

void read_row(const ValueNode& row, Definition& definition, Notes& notes) {
  const std::string_view id = text_in(row, "id");
  const ValueNode* when = row.find("when");
  const auto& ours = standard_advice();
  const auto own = std::find_if(ours.begin(), ours.end(), [id](const auto& one) { return one.text.id == id; });
  if (own != ours.end()) {
    const auto index = static_cast<std::size_t>(own - ours.begin());
    definition.descriptor.advice[index].english = sentence_in(row, own->fields, notes);
    if (when != nullptr)
      notes.say(*when,
                "the advice " + ohmwright::quoted(id) + " is given by itself; only its text can be written anew");
    return;
  }
  if (when == nullptr) {
    notes.say(row, "the field \"when\" is missing: the rule, and which of its texts it said");
    return;
  }
  const auto advice = static_cast<TextIndex>(definition.descriptor.advice.size());
  definition.descriptor.advice.push_back({id, sentence_in(row, 0, notes), procedure_in(row, definition, notes)});
  read_trigger(*when, advice, definition, notes);
}

}  // namespace

void read_advice(const ValueNode& document, Definition& definition, Notes& notes) {
  check_ids_once(document, "advice", "advice", notes);
  for (const StandardAdviceRow& row : standard_advice()) definition.descriptor.advice.push_back(row.text);
  name_procedure_of_insulation(definition);
  read_better_conditions(document, definition, notes);
  for (const ValueNode& row : list_in(document, "advice")) read_row(row, definition, notes);
}

}  // namespace ohmwright::kind_file
