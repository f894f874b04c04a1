#include "heater_fixture.hpp"

#include <stdexcept>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/quantity/observed.hpp>

#include "heater_part.hpp"

namespace ohmwright::heater::testing_support {

namespace {

MeterFunction function_of(Dimension dimension, std::initializer_list<double> full_scales) {
  MeterFunction function;
  function.dimension = dimension;
  for (const double full_scale : full_scales)
    function.ranges.push_back(
        {AnyQuantity(dimension, full_scale), 0.9, 3, AnyQuantity(dimension, full_scale / 6000.0)});
  return function;
}

Condition condition(std::string_view id, std::string_view value, Dimension dimension) {
  return {std::string(id), parse_stated_value(value, dimension), {}, false};
}

Reading reading_of(const Typed& typed) {
  const MeasurandDescriptor& measurand = descriptor().measurands.at(index_of(descriptor().measurands, typed.measurand));
  ObservedOptions options;
  options.contact_words = measurand.takes_contact_state;
  options.names_range_end = true;
  Reading reading{.measurand = std::string(typed.measurand),
                  .observed = parse_observed(typed.value, measurand.dimension, options)};
  if (!typed.at.empty()) reading.conditions.push_back(condition("part_temperature", typed.at, Dimension::temperature));
  if (!typed.line.empty()) reading.conditions.push_back(condition("line_voltage", typed.line, Dimension::voltage));
  if (!typed.test.empty()) reading.conditions.push_back(condition("test_voltage", typed.test, Dimension::voltage));
  reading.connection = typed.connection;
  reading.supply = typed.supply;
  reading.moisture = typed.moisture;
  if (!typed.range.empty()) reading.range = parse_stated_value(typed.range, Dimension::resistance).value;
  return reading;
}

}  // namespace

MeterSet basic_meter() {
  return MeterSet({{"basic",
                    "Basic meter",
                    "test",
                    {function_of(Dimension::resistance, {600.0, 6e3, 60e3, 600e3, 6e6, 60e6}),
                     function_of(Dimension::voltage, {6.0, 60.0, 600.0}), function_of(Dimension::current, {6.0, 60.0}),
                     function_of(Dimension::power, {600.0, 6000.0})},
                    parse_stated_value("0.2 ohm +- 0.05 ohm", Dimension::resistance),
                    false}});
}

const Descriptor& descriptor() {
  static const HeaterKind kind;
  return kind.descriptor();
}

Evidence evidence_of(const std::vector<Typed>& typed, const MeterSet& meters) {
  std::vector<Reading> readings;
  for (const Typed& one : typed) readings.push_back(reading_of(one));
  return {descriptor(), readings, meters};
}

Findings judge(const HeaterRatings* ratings, const std::vector<Typed>& typed) {
  const HeaterPart part(ratings == nullptr ? std::nullopt : std::optional(*ratings));
  Findings findings;
  part.judge(evidence_of(typed), {}, findings);
  return findings;
}

Findings judge(const HeaterRatings& ratings, const std::vector<Typed>& typed) { return judge(&ratings, typed); }

Outcome verdict_on(const HeaterRatings& ratings, const std::vector<Typed>& typed) {
  const HeaterPart part{std::optional(ratings)};
  return ohmwright::judge(part, descriptor(), evidence_of(typed), {}).outcome;
}

const Finding& finding_of(const Findings& findings, RuleIndex rule) {
  for (const Finding& finding : findings.findings())
    if (finding.rule == rule) return finding;
  throw std::logic_error("the rule said nothing");
}

Outcome outcome_of(const Findings& findings, RuleIndex rule) { return finding_of(findings, rule).outcome; }

std::string_view text_of(const Findings& findings, RuleIndex rule) {
  return descriptor().rules[rule].texts[finding_of(findings, rule).text].id;
}

std::vector<std::string> advice_of(const Findings& findings) {
  std::vector<std::string> ids;
  for (const Advice& advice : findings.advice()) ids.emplace_back(descriptor().advice[advice.text].id);
  return ids;
}

}  // namespace ohmwright::heater::testing_support
