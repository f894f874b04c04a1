#include <algorithm>
#include <array>

#include <ohmwright/verdict/caution.hpp>

#include "reading/definition_reader.hpp"
#include "reading/rule_reader.hpp"

namespace ohmwright::kind_file {

namespace {

/// Steps of a file have no names of their own.
constexpr std::array<std::string_view, 20> step_ids{
    "step-1",  "step-2",  "step-3",  "step-4",  "step-5",  "step-6",  "step-7",  "step-8",  "step-9",  "step-10",
    "step-11", "step-12", "step-13", "step-14", "step-15", "step-16", "step-17", "step-18", "step-19", "step-20"};

/// Ohms, farads and henries are read on a part without supply, and whoever reads them has to be told so.
constexpr std::array<std::string_view, 2> before_ohms{"disconnect-power", "prove-dead"};
/// Hundreds of volts spoil a board that is still connected.
constexpr std::string_view before_volts = "insulation-test";

bool is_insulation(const Definition& definition, std::uint16_t measurand) {
  return std::any_of(definition.rules.begin(), definition.rules.end(), [measurand](const RuleForm& rule) {
    return rule.insulation() != nullptr && rule.measurand == measurand;
  });
}

void check_braces(const ValueNode& text, Notes& notes) {
  if (text.text() != nullptr && text.text()->find_first_of("{}") != std::string::npos)
    notes.say(text, "a step takes no field, and no braces");
}

void check_cautions(const ValueNode& row, const ProcedureDescriptor& procedure, const Definition& definition,
                    Notes& notes) {
  for (const ValueNode& node : list_in(row, "cautions")) {
    if (node.text() == nullptr || caution_named(*node.text()) != nullptr) continue;
    std::vector<std::string> known;
    for (const Caution& ours : framework_cautions()) known.emplace_back(ours.id);
    for (const CautionDescriptor& own : definition.descriptor.cautions) known.emplace_back(own.id);
    if (std::find(known.begin(), known.end(), *node.text()) != known.end()) continue;
    notes.say(node, "there is no caution " + ohmwright::quoted(*node.text()) + suggestion(*node.text(), known));
  }
  const std::uint16_t measurand = index_of(definition.descriptor.measurands, procedure.measurand);
  if (measurand == not_found || !is_passive(definition.descriptor.measurands[measurand].dimension)) return;
  const auto needs = [&](std::string_view caution, const std::string& reason) {
    if (std::find(procedure.cautions.begin(), procedure.cautions.end(), caution) != procedure.cautions.end()) return;
    const ValueNode* list = row.find("cautions");
    notes.say(list != nullptr ? *list : row, "the caution " + ohmwright::quoted(caution) + " is missing: " + reason);
  };
  for (const std::string_view needed : before_ohms)
    needs(needed, std::string(phrase_of(definition.descriptor.measurands[measurand].dimension)) +
                      " is read on a part without supply");
  if (is_insulation(definition, measurand)) needs(before_volts, "insulation is read with hundreds of volts");
}

}  // namespace

void read_cautions(const ValueNode& document, Definition& definition, Notes& notes) {
  check_ids_once(document, "cautions", "caution", notes);
  constexpr std::size_t longest_brief = 90;  // what stands above every verdict has one line of a small screen for it
  for (const ValueNode& row : list_in(document, "cautions")) {
    const CautionDescriptor caution{text_in(row, "id"), text_in(row, "brief"), text_in(row, "text"),
                                    text_in(row, "source")};
    if (caution_named(caution.id) != nullptr)
      notes.say(*row.find("id"),
                "the caution " + ohmwright::quoted(caution.id) + " is the framework's own and cannot be replaced");
    if (caution.brief.ends_with('.')) notes.say(*row.find("brief"), "a brief text does not end in a full stop");
    if (caution.brief.size() > longest_brief)
      notes.say(*row.find("brief"), "a brief text has " + std::to_string(longest_brief) + " bytes at most; this has " +
                                        std::to_string(caution.brief.size()));
    for (const char* field : {"brief", "text"})
      if (const ValueNode* text = row.find(field)) check_braces(*text, notes);
    definition.descriptor.cautions.push_back(caution);
  }
}

void read_procedures(const ValueNode& document, Definition& definition, Notes& notes) {
  Descriptor& descriptor = definition.descriptor;
  check_ids_once(document, "procedures", "procedure", notes);
  for (const ValueNode& row : list_in(document, "procedures")) {
    ProcedureDescriptor procedure;
    procedure.id = text_in(row, "id");
    procedure.title = text_in(row, "title");
    procedure.measurand = text_in(row, "measurand");
    procedure.minutes = number_in(row, "minutes").value_or(0.0);
    procedure.cautions = texts_in(row, "cautions");
    place_of(row.find("measurand"), "measurand", descriptor.measurands, notes);
    for (const ValueNode& step : list_in(row, "steps")) {
      if (step.text() == nullptr || procedure.steps.size() == step_ids.size()) continue;
      check_braces(step, notes);
      procedure.steps.push_back({step_ids[procedure.steps.size()], *step.text()});
    }
    check_cautions(row, procedure, definition, notes);
    check_texts_once(row, "cautions", "caution", notes);
    descriptor.procedures.push_back(std::move(procedure));
  }
  const ValueNode* list = document.find("procedures");
  for (const MeasurandDescriptor& measurand : descriptor.measurands) {
    const bool has_one =
        std::any_of(descriptor.procedures.begin(), descriptor.procedures.end(),
                    [&](const ProcedureDescriptor& procedure) { return procedure.measurand == measurand.id; });
    if (has_one || list == nullptr) continue;
    notes.say(*list, "no procedure says how " + ohmwright::quoted(measurand.id) +
                         " is read, so nobody would see a caution before it");
  }
}

}  // namespace ohmwright::kind_file
