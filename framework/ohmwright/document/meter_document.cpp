#include <cmath>

#include <fmt/core.h>

#include <ohmwright/document/checked_files.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/document/source_text.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

/// A resolution is a difference: "1 K" on a range that ends at "400 degC".
Dimension dimension_of_steps(Dimension dimension) {
  return dimension == Dimension::temperature ? Dimension::temperature_difference : dimension;
}

std::optional<double> percent_of(const ValueNode* node, std::vector<Problem>& problems) {
  const std::optional<StatedValue> stated = quantity_of(node, Dimension::ratio, problems);
  if (!stated) return std::nullopt;
  // A bare 0.9 would silently mean 90 %.
  if (stated->unit != Unit::named("%", Dimension::ratio)) {
    problems.push_back(
        node->problem("expected a percentage, such as \"0.9 %\", got " + ohmwright::quoted(*node->text())));
    return std::nullopt;
  }
  // As written: 0.9 must not come back as 0.9000000000000001 for having been a ratio.
  constexpr double steps_of_a_percent = 1e10;
  const double percent =
      std::round(stated->unit.from_si(stated->value.value_in_si()) * steps_of_a_percent) / steps_of_a_percent;
  if (percent >= 0.0 && percent <= 100.0) return percent;
  problems.push_back(node->problem(fmt::format("found {} %; expected 0 % to 100 %", percent)));
  return std::nullopt;
}

std::optional<MeterRange> range_of(const ValueNode& node, Dimension dimension, std::vector<Problem>& problems) {
  const auto full_scale = quantity_of(node.find("full_scale"), dimension, problems);
  const auto percent = percent_of(node.find("percent_of_reading"), problems);
  const auto resolution = quantity_of(node.find("resolution"), dimension_of_steps(dimension), problems);
  if (!full_scale || !percent || !resolution) return std::nullopt;
  if (!(resolution->value.value_in_si() > 0.0) || resolution->value.value_in_si() >= full_scale->value.value_in_si())
    problems.push_back(node.find("resolution")
                           ->problem("the resolution is more than zero and less than the range; found " +
                                     ohmwright::quoted(text_of(node, "resolution"))));
  return MeterRange{full_scale->value, *percent, number_of(node, "counts").value_or(0.0), resolution->value};
}

std::optional<MeterFunction> function_of(const ValueNode& node, std::vector<Problem>& problems) {
  const std::optional<Dimension> dimension = dimension_named(text_of(node, "dimension"));
  if (!dimension) return std::nullopt;
  MeterFunction function;
  function.dimension = *dimension;
  function.one_means_over_range = flag_of(node, "one_means_over_range");
  function.tests_insulation = flag_of(node, "insulation_test");
  if (function.tests_insulation && *dimension != Dimension::resistance)
    problems.push_back(
        node.find("insulation_test")
            ->problem(fmt::format("insulation is read as a resistance; the function reads a {}", name_of(*dimension))));
  for (const ValueNode& entry : list_of(node, "ranges")) {
    const std::optional<MeterRange> range = range_of(entry, *dimension, problems);
    if (!range) continue;
    if (!function.ranges.empty() && range->full_scale.value_in_si() <= function.ranges.back().full_scale.value_in_si())
      problems.push_back(entry.problem("ranges come smallest first; " +
                                       ohmwright::quoted(text_of(entry, "full_scale")) +
                                       " does not reach past the range before it"));
    function.ranges.push_back(*range);
  }
  return function;
}

void add_functions(const ValueNode& root, Meter& meter, std::vector<Problem>& problems) {
  for (const ValueNode& entry : list_of(root, "functions")) {
    std::optional<MeterFunction> function = function_of(entry, problems);
    if (!function) continue;
    if (function_for(meter, function->dimension, function->tests_insulation) != nullptr)
      problems.push_back(entry.problem(fmt::format("the dimension \"{}\" stands twice; put its ranges into one list",
                                                   name_of(function->dimension))));
    meter.functions.push_back(*std::move(function));
  }
}

/// `problems`: what is known to be wrong with it so far.
Meter meter_of(const Document& document, std::vector<Problem> problems) {
  const ValueNode& root = document.root;
  Meter meter{text_of(root, "name"),
              text_of(root, "title"),
              text_of(root, "source"),
              {},
              {AnyQuantity(Dimension::resistance, 0.0), std::nullopt, Unit::si(Dimension::resistance)},
              flag_of(root, "low_impedance"),
              text_of(root, "ranging") != "manual"};
  add_functions(root, meter, problems);
  const ValueNode* leads = root.find("lead_resistance");
  if (const auto stated = quantity_of(leads, Dimension::resistance, problems)) meter.lead_resistance = *stated;
  if (leads == nullptr && function_for(meter, Dimension::resistance) != nullptr)
    problems.push_back(
        root.problem("the field \"lead_resistance\" is missing; a meter that reads resistance states that of its "
                     "leads, such as \"0.2 ohm +- 0.05 ohm\""));
  refuse_if_any(document.file, std::move(problems));
  return meter;
}

}  // namespace

Meter read_meter(const Document& document) { return meter_of(document, meter_schema().problems(document)); }

Meter read_meter_file(const std::string& path) {
  const std::string text = read_source(path, DocumentLimits{}.bytes);
  const Document document = parse_document_to_check(text, name_of_source(path));
  return document.problems.empty() && is_shipped_meter(text) ? meter_of(document, {}) : read_meter(document);
}

}  // namespace ohmwright
