#include <algorithm>
#include <array>
#include <utility>

#include "reading/definition_reader.hpp"
#include "reading/figure_reader.hpp"

namespace ohmwright::kind_file {

namespace {

struct TypeName {
  std::string_view name;
  ElementType type;
  Dimension dimension;  ///< of its value
};
constexpr std::array<TypeName, 5> types{{{"resistance", ElementType::resistance, Dimension::resistance},
                                         {"capacitance", ElementType::capacitance, Dimension::capacitance},
                                         {"inductance", ElementType::inductance, Dimension::inductance},
                                         {"open", ElementType::open, Dimension::ratio},
                                         {"closed", ElementType::closed, Dimension::ratio}}};

/// The figure that ratings have to state for a part to have this; `not_found`: every part has it.
std::uint16_t if_rated_in(const ValueNode& node, const Definition& definition, Notes& notes) {
  const ValueNode* figure = node.find("if_rated");
  return figure == nullptr ? not_found : place_of(figure, "figure of the ratings", definition.ratings, notes);
}

class ElementReader {
 public:
  ElementReader(const ValueNode& node, const Definition& definition, Notes& notes)
      : node_(node), definition_(definition), notes_(notes) {}

  ElementRow read() {
    ElementRow row;
    read_terminals(row);
    row.if_rated = if_rated_in(node_, definition_, notes_);
    const std::string_view type = text_in(node_, "type");
    if (type == "contact") {
      refuse({"nominal_of", "times"}, type);
      row.value = figure_in(node_, "value", Dimension::resistance, definition_, notes_);
      read_tolerance(row);
      row.of_rule = rule_in("contact_of");
      if (row.of_rule != not_found && definition_.rules[row.of_rule].whole &&
          definition_.rules[row.of_rule].contact() == nullptr)
        notes_.say(*node_.find("contact_of"), "that rule is on no contact");
      return row;
    }
    for (const TypeName& known : types)
      if (known.name == type) read_of_type(known, row);
    return row;
  }

 private:
  bool has(std::string_view field) const { return node_.find(field) != nullptr; }

  void refuse(std::initializer_list<std::string_view> fields, std::string_view type) {
    for (const std::string_view field : fields)
      if (has(field))
        notes_.say(*node_.find(field),
                   "an element of type " + ohmwright::quoted(type) + " has no " + ohmwright::quoted(field));
  }

  void read_terminals(ElementRow& row) {
    std::array<std::uint16_t, 2> ends{0, 0};
    std::size_t end = 0;
    for (const ValueNode& node : list_in(node_, "between")) {
      if (node.text() == nullptr || end == ends.size()) continue;
      const std::uint16_t index = end_named(node);
      ends[end++] = index == not_found ? std::uint16_t{0} : index;
    }
    row.from = ends[0];
    row.to = ends[1];
  }

  /// A terminal, or a point within the part.
  std::uint16_t end_named(const ValueNode& node) {
    const auto& points = definition_.points;
    const auto found = std::find(points.begin(), points.end(), *node.text());
    if (found == points.end()) return terminal_named(node, definition_, notes_);
    return static_cast<std::uint16_t>(definition_.descriptor.terminals.size() +
                                      static_cast<std::size_t>(found - points.begin()));
  }

  std::uint16_t rule_in(std::string_view field) {
    if (!has(field)) {
      notes_.say(node_, "the field " + ohmwright::quoted(field) + " is missing: the rule that it follows");
      return not_found;
    }
    return place_of(node_.find(field), "rule", definition_.descriptor.rules, notes_);
  }

  void read_of_type(const TypeName& known, ElementRow& row) {
    row.type = known.type;
    refuse({"contact_of"}, known.name);
    if (known.dimension == Dimension::ratio) {
      refuse({"value", "nominal_of", "times", "tolerance"}, known.name);
      return;
    }
    row.times = number_in(node_, "times").value_or(1.0);
    read_tolerance(row);
    if (has("value") == has("nominal_of")) {
      notes_.say(node_, "an element has either \"value\" or \"nominal_of\", the rule whose nominal value it has");
    } else if (has("value")) {
      row.value = figure_in(node_, "value", known.dimension, definition_, notes_);
    } else {
      row.of_rule = rule_in("nominal_of");
      check_nominal(known, row);
    }
  }

  void read_tolerance(ElementRow& row) {
    if (const ValueNode* tolerance = node_.find("tolerance"))
      row.tolerance = quantity_in(*tolerance, Dimension::ratio, notes_).value_or(0.0);
    if (row.tolerance < 0.0 || row.tolerance > 1.0)
      notes_.say(*node_.find("tolerance"), "a tolerance lies between 0 % and 100 %, such as \"5 %\"");
  }

  void check_nominal(const TypeName& known, const ElementRow& row) {
    if (row.of_rule == not_found) return;
    const RuleForm& rule = definition_.rules[row.of_rule];
    if (!rule.whole) return;
    const bool has_nominal = rule.limits() != nullptr && rule.limits()->has_nominal();
    const bool of_dimension =
        rule.measurand != not_found && definition_.descriptor.measurands[rule.measurand].dimension == known.dimension;
    if (!has_nominal || !of_dimension)
      notes_.say(*node_.find("nominal_of"), "that rule has no nominal " + std::string(name_of(known.dimension)));
  }

  const ValueNode& node_;
  const Definition& definition_;
  Notes& notes_;
};

std::vector<ElementRow> elements_in(const ValueNode& object, const Definition& definition, Notes& notes) {
  std::vector<ElementRow> rows;
  for (const ValueNode& node : list_in(object, "elements"))
    rows.push_back(ElementReader(node, definition, notes).read());
  return rows;
}

}  // namespace

void read_elements(const ValueNode& document, Definition& definition, Notes& notes) {
  definition.points = texts_in(document, "points");
  check_texts_once(document, "points", "point", notes);
  const auto& terminals = definition.descriptor.terminals;
  for (const ValueNode& node : list_in(document, "points"))
    if (node.text() != nullptr && std::find(terminals.begin(), terminals.end(), *node.text()) != terminals.end())
      notes.say(node, "the point " + ohmwright::quoted(*node.text()) + " is a terminal, which a probe can reach");
  definition.elements = elements_in(document, definition, notes);
  check_ids_once(document, "fault_modes", "fault mode", notes);
  for (const ValueNode& row : list_in(document, "fault_modes")) {
    FaultModeDescriptor mode;
    mode.id = text_in(row, "id");
    mode.title = text_in(row, "title");
    mode.prior_weight = number_in(row, "weight").value_or(0.0);
    mode.prior_source = text_in(row, "weight_source");
    for (const ValueNode& symptom : list_in(row, "symptoms"))
      mode.symptoms.push_back({text_in(symptom, "symptom"), number_in(symptom, "probability").value_or(0.0)});
    mode.looks_upstream = texts_in(row, "looks_upstream");
    definition.faulty_elements.push_back(elements_in(row, definition, notes));
    definition.faults_if_rated.push_back(if_rated_in(row, definition, notes));
    definition.descriptor.fault_modes.push_back(std::move(mode));
  }
}

}  // namespace ohmwright::kind_file
