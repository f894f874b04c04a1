#include <ohmwright/quantity/unit_table.hpp>

#include "reading/definition_reader.hpp"

namespace ohmwright::kind_file {

namespace {

void check_unit(const ValueNode& row, Dimension dimension, Notes& notes) {
  const ValueNode* unit = row.find("unit");
  if (unit == nullptr || unit->text() == nullptr || Unit::named(*unit->text(), dimension)) return;
  notes.say(*unit, std::string(phrase_of(dimension)) + " has no unit " + ohmwright::quoted(*unit->text()) +
                       "; its unit is " + ohmwright::quoted(si_unit_of(dimension)));
}

/// The two terminals that it is read between, where the file says so.
void read_ends(const ValueNode& row, const Definition& definition, MeasurandDescriptor& measurand, Notes& notes) {
  const ValueNode::Array& ends = list_in(row, "between");
  if (ends.size() != 2) return;
  measurand.from = terminal_named(ends[0], definition, notes);
  measurand.to = terminal_named(ends[1], definition, notes);
  if (measurand.from != not_found && measurand.from == measurand.to)
    notes.say(*row.find("between"), "between one terminal and itself nothing is read");
  if (measurand.from == not_found || measurand.to == not_found || measurand.from == measurand.to)
    measurand.from = measurand.to = not_found;
}

/// The measurands that a condition says something of; none stands for all.
void read_of(const ValueNode& row, const Definition& definition, ConditionDescriptor& condition, Notes& notes) {
  for (const ValueNode& node : list_in(row, "of"))
    if (place_of(&node, "measurand", definition.descriptor.measurands, notes) != not_found)
      condition.of.emplace_back(*node.text());
  check_texts_once(row, "of", "measurand", notes);
}

/// One word must mean one thing on the command line.
void check_option(const ValueNode& document, const ValueNode& row, std::string_view field, const Definition& definition,
                  Notes& notes) {
  const ValueNode* option = row.find(field);
  if (option == nullptr || option->text() == nullptr) return;
  const std::string shown = "the option " + ohmwright::quoted("--" + *option->text());
  if (index_of(definition.descriptor.measurands, *option->text()) != not_found)
    notes.say(*option, shown + " is the name of a measurand");
  for (const ValueNode& other : list_in(document, "conditions"))
    if (&other != &row && text_in(other, "id") == *option->text() && field == "option")
      notes.say(*option, shown + " is the name of another condition");
}

}  // namespace

void read_measurands(const ValueNode& document, Definition& definition, Notes& notes) {
  check_ids_once(document, "measurands", "measurand", notes);
  for (const ValueNode& row : list_in(document, "measurands")) {
    MeasurandDescriptor measurand;
    measurand.id = text_in(row, "id");
    measurand.title = text_in(row, "title");
    measurand.dimension = dimension_in(row, "dimension");
    measurand.default_unit = text_in(row, "unit");
    measurand.takes_contact_state = flag_in(row, "contact_words", false);
    measurand.takes_bare_number = flag_in(row, "bare_number", false);
    check_unit(row, measurand.dimension, notes);
    read_ends(row, definition, measurand, notes);
    if (measurand.takes_contact_state && measurand.dimension != Dimension::resistance)
      notes.say(*row.find("contact_words"), "\"open\" and \"closed\" are read off a resistance only");
    definition.descriptor.measurands.push_back(measurand);
  }
}

void read_conditions(const ValueNode& document, Definition& definition, Notes& notes) {
  check_ids_once(document, "conditions", "condition", notes);
  std::vector<std::string_view> options;
  for (const ValueNode& row : list_in(document, "conditions")) {
    ConditionDescriptor condition;
    condition.id = text_in(row, "id");
    condition.title = text_in(row, "title");
    condition.option = text_in(row, "option");
    condition.dimension = dimension_in(row, "dimension");
    condition.default_unit = text_in(row, "unit");
    check_unit(row, condition.dimension, notes);
    if (const ValueNode* doubt = row.find("doubt")) {
      condition.default_half_width = half_width_in(*doubt, "half_width", condition.dimension, notes);
      condition.default_half_width_source = text_in(*doubt, "source");
    }
    read_of(row, definition, condition, notes);
    check_option(document, row, "option", definition, notes);
    if (condition.id != condition.option) check_option(document, row, "id", definition, notes);
    for (const std::string_view other : options)
      if (other == condition.option)
        notes.say(*row.find("option"), "the option " + ohmwright::quoted("--" + std::string(other)) + " stands twice");
    options.push_back(condition.option);
    definition.descriptor.conditions.push_back(condition);
  }
}

void read_charts(const ValueNode& document, Definition& definition, Notes& notes) {
  for (const ValueNode& row : list_in(document, "charts")) {
    const std::uint16_t measurand =
        place_of(row.find("measurand"), "measurand", definition.descriptor.measurands, notes);
    const std::uint16_t condition =
        place_of(row.find("condition"), "condition", definition.descriptor.conditions, notes);
    if (measurand == not_found || condition == not_found) continue;
    const Dimension dimension = definition.descriptor.conditions[condition].dimension;
    const auto end = [&](std::string_view field) {
      const ValueNode* node = row.find(field);
      return node == nullptr ? std::nullopt : quantity_in(*node, dimension, notes);
    };
    const std::optional<double> from = end("from");
    const std::optional<double> to = end("to");
    if (!from || !to) continue;
    if (*from >= *to) notes.say(row, "the chart does not end above its beginning");
    ChartAxis axis;
    axis.measurand = definition.descriptor.measurands[measurand].id;
    axis.condition = definition.descriptor.conditions[condition].id;
    axis.from = AnyQuantity(dimension, *from);
    axis.to = AnyQuantity(dimension, *to);
    axis.logarithmic = flag_in(row, "logarithmic", false);
    definition.descriptor.charts.push_back(axis);
  }
}

}  // namespace ohmwright::kind_file
