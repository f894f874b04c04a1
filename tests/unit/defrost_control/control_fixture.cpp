#include "control_fixture.hpp"

#include <stdexcept>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/quantity/observed.hpp>

#include "control_part.hpp"

namespace ohmwright::defrost_control::testing_support {

namespace {

MeterFunction function_of(Dimension dimension, std::initializer_list<double> full_scales) {
  MeterFunction function;
  function.dimension = dimension;
  for (const double full_scale : full_scales)
    function.ranges.push_back(
        {AnyQuantity(dimension, full_scale), 0.9, 3, AnyQuantity(dimension, full_scale / 6000.0)});
  return function;
}

/// 6000 counts, 0.9 % + 3, leads 0.2 ± 0.05 ohm.
MeterSet basic_meter() {
  return MeterSet({{"basic",
                    "Basic meter",
                    "test",
                    {function_of(Dimension::resistance, {600.0, 6e3, 60e3, 600e3, 6e6, 60e6}),
                     function_of(Dimension::voltage, {0.6, 6.0, 60.0, 600.0})},
                    parse_stated_value("0.2 ohm +- 0.05 ohm", Dimension::resistance),
                    false}});
}

void add_condition(Reading& reading, std::string_view id, std::string_view value, Dimension dimension) {
  if (!value.empty()) reading.conditions.push_back({std::string(id), parse_stated_value(value, dimension), {}, false});
}

Reading reading_of(const Typed& typed) {
  const MeasurandDescriptor& measurand = descriptor().measurands.at(index_of(descriptor().measurands, typed.measurand));
  ObservedOptions options;
  options.contact_words = measurand.takes_contact_state;
  Reading reading{.measurand = std::string(typed.measurand),
                  .observed = parse_observed(typed.value, measurand.dimension, options)};
  add_condition(reading, "part_temperature", typed.at, Dimension::temperature);
  add_condition(reading, "line_voltage", typed.line, Dimension::voltage);
  add_condition(reading, "load_current", typed.load, Dimension::current);
  add_condition(reading, "frequency", typed.hertz, Dimension::frequency);
  add_condition(reading, "run_share", typed.share, Dimension::ratio);
  add_condition(reading, "stand_in", typed.stand_in, Dimension::resistance);
  if (!typed.position.empty()) reading.states.push_back({"position", std::string(typed.position)});
  if (typed.stood) reading.states.push_back({"moved", "no"});
  if (typed.shaft_stood) reading.states.push_back({"moved", "not-the-shaft"});
  reading.connection = typed.connection;
  reading.supply = typed.supply;
  if (!typed.range.empty()) reading.range = parse_stated_value(typed.range, Dimension::resistance).value;
  return reading;
}

}  // namespace

ControlRatings ratings(const std::string& json) {
  std::vector<Problem> problems;
  const Document document = parse_document(json, "ratings");
  const auto read = read_ratings(document.root, problems);
  if (!read) throw std::runtime_error(problems.empty() ? "refused" : problems.front().text);
  return *read;
}

std::vector<Problem> problems_of(const std::string& json) {
  std::vector<Problem> problems;
  const Document document = parse_document(json, "ratings");
  (void)read_ratings(document.root, problems);
  return problems;
}

ControlRatings timer() {
  return ratings(R"({"type": "cam-timer", "voltage": "120 V", "frequency": "60 Hz", "motor_least": "4 kohm",
                     "motor_most": "12 kohm", "contact_resistance": "0.2 ohm", "defrost_time_least": "20 min",
                     "defrost_time_most": "30 min", "interval_least": "6 h", "interval_most": "12 h"})");
}

ControlRatings board() {
  return ratings(R"({"type": "relay-board", "voltage": "230 V", "contact_resistance": "0.2 ohm",
                     "defrost_time_most": "45 min", "interval_least": "6 h", "interval_most": "96 h"})");
}

ControlRatings sensor_board() {
  return ratings(R"({"type": "thermistor-board", "voltage": "230 V", "sensor_supply": "5 V",
                     "sensor_supply_tolerance": "10 %", "sensor_pull_up": "10 kohm"})");
}

ControlRatings solid_state_board() {
  return ratings(R"({"type": "relay-board", "voltage": "230 V", "switching": "solid-state"})");
}

const Descriptor& descriptor() {
  static const ControlKind kind;
  return kind.descriptor();
}

Evidence evidence_of(const std::vector<Typed>& typed) {
  std::vector<Reading> readings;
  for (const Typed& one : typed) readings.push_back(reading_of(one));
  return {descriptor(), readings, basic_meter()};
}

Findings judge(const ControlRatings* ratings, const std::vector<Typed>& typed) {
  const ControlPart part(ratings == nullptr ? std::nullopt : std::optional(*ratings));
  Findings findings;
  part.judge(evidence_of(typed), {}, findings);
  return findings;
}

Findings judge(const ControlRatings& ratings, const std::vector<Typed>& typed) { return judge(&ratings, typed); }

Outcome verdict_on(const ControlRatings& ratings, const std::vector<Typed>& typed) {
  const ControlPart part{std::optional(ratings)};
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

}  // namespace ohmwright::defrost_control::testing_support
