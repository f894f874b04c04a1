#include "thermostat_fixture.hpp"

#include <stdexcept>

#include <ohmwright/component/judgement.hpp>

#include "thermostat_kind.hpp"
#include "thermostat_part.hpp"

namespace ohmwright::bimetal_thermostat::testing_support {

namespace {

TripPoint at(double t, double tolerance) { return {celsius(t), kelvin(tolerance), kelvin(tolerance), Spread::limits}; }

AnyQuantity of(Dimension dimension, double value) { return {dimension, value}; }

MeterSet meter(double percent, double counts, std::string_view leads) {
  MeterFunction ohms_function;
  ohms_function.dimension = Dimension::resistance;
  for (const double full_scale : {600.0, 6e3, 60e3, 600e3, 6e6, 60e6})
    ohms_function.ranges.push_back(
        {of(Dimension::resistance, full_scale), percent, counts, of(Dimension::resistance, full_scale / 6000)});
  MeterFunction volts;
  volts.dimension = Dimension::voltage;
  for (const double full_scale : {0.6, 6.0, 60.0, 600.0})
    volts.ranges.push_back(
        {of(Dimension::voltage, full_scale), percent, counts, of(Dimension::voltage, full_scale / 6000)});
  return MeterSet({{"basic",
                    "Basic meter",
                    "test",
                    {ohms_function, volts},
                    parse_stated_value(leads, Dimension::resistance),
                    false}});
}

void add_condition(Reading& reading, std::string_view id, std::string_view value, std::string_view error_source) {
  if (value.empty()) return;
  const Dimension dimension = descriptor().conditions[index_of(descriptor().conditions, id)].dimension;
  reading.conditions.push_back(
      {std::string(id), parse_stated_value(value, dimension), std::string(error_source), false});
}

}  // namespace

ThermostatRatings plain_ratings() {
  ThermostatRatings ratings;
  ratings.opening = at(13, 3);
  ratings.closing = at(-5, 5);
  ratings.contact_resistance = Resistance::from_value(0.2);
  return ratings;
}

ThermostatRatings type_1_ratings() {
  ThermostatRatings ratings = plain_ratings();
  ratings.action = Action::type_1;
  return ratings;
}

ThermostatRatings ratings_with_link(int leads) {
  ThermostatRatings ratings = plain_ratings();
  ratings.leads = leads;
  ratings.link = ThermalLink{celsius(77), std::nullopt};
  return ratings;
}

ThermostatRatings differential_ratings() {
  ThermostatRatings ratings = plain_ratings();
  ratings.differential = Differential{kelvin(18), kelvin(4)};
  ratings.closing = at(-5, 7);
  ratings.closing_from_differential = true;
  return ratings;
}

MeterSet basic_meter() { return meter(0.9, 3, "0.2 ohm +- 0.05 ohm"); }
MeterSet fine_meter() { return meter(0.01, 0.01, "0 ohm"); }

std::vector<Reading> series(const std::vector<Step>& steps, double half_width) {
  std::vector<Reading> readings;
  for (const Step& step : steps) {
    Reading reading{.measurand = "state", .observed = step.state == 'C' ? ContactState::closed : ContactState::open};
    reading.connection = Connection::lead_off;
    StatedValue temperature = parse_stated_value("0 degC", Dimension::temperature);
    temperature.value = AnyQuantity(celsius(step.celsius));
    temperature.half_width = half_width;
    reading.conditions.push_back({"part_temperature", temperature, "thermometer", false});
    readings.push_back(std::move(reading));
  }
  return readings;
}

const Descriptor& descriptor() {
  static const ThermostatKind kind;
  return kind.descriptor();
}

std::vector<Reading> readings_of(const std::vector<Typed>& typed) {
  std::vector<Reading> readings;
  for (const Typed& one : typed) {
    const MeasurandDescriptor& measurand = descriptor().measurands[index_of(descriptor().measurands, one.measurand)];
    ObservedOptions options;
    options.contact_words = options.continuity_sound = measurand.takes_contact_state;
    Reading reading{.measurand = std::string(one.measurand),
                    .observed = parse_observed(one.value, measurand.dimension, options)};
    add_condition(reading, "part_temperature", one.at, one.thermometer);
    add_condition(reading, "load_current", one.load, {});
    add_condition(reading, "ramp", one.ramp, {});
    add_condition(reading, "lag", one.lag, {});
    reading.connection = one.connection;
    reading.supply = one.supply;
    readings.push_back(std::move(reading));
  }
  return readings;
}

Findings judge(const ThermostatRatings* ratings, const std::vector<Reading>& readings, const MeterSet& meters) {
  const ThermostatPart part(ratings == nullptr ? std::nullopt : std::optional(*ratings));
  Findings findings;
  part.judge(Evidence(descriptor(), readings, meters), {}, findings);
  return findings;
}

Findings judge(const ThermostatRatings& ratings, const std::vector<Typed>& typed, const MeterSet& meters) {
  return judge(&ratings, readings_of(typed), meters);
}

Findings judge_unrated(const std::vector<Typed>& typed) { return judge(nullptr, readings_of(typed), basic_meter()); }

Verdict verdict_on(const ThermostatRatings& ratings, const std::vector<Reading>& readings) {
  const ThermostatPart part(ratings);
  return ohmwright::judge(part, descriptor(), Evidence(descriptor(), readings, basic_meter()), {});
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

const Advice& advice_named(const Findings& findings, AdviceIndex index) {
  for (const Advice& advice : findings.advice())
    if (advice.text == index) return advice;
  throw std::logic_error("no such advice");
}

}  // namespace ohmwright::bimetal_thermostat::testing_support
