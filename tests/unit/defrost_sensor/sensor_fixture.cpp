#include "sensor_fixture.hpp"

#include <cmath>
#include <stdexcept>

#include <ohmwright/component/judgement.hpp>

#include "rules/deviation.hpp"
#include "sensor_kind.hpp"
#include "sensor_part.hpp"

namespace ohmwright::defrost_sensor::testing_support {

BetaCurve::Figures beta_3977() {
  BetaCurve::Figures figures;
  figures.reference_resistance = ohm(10000);
  figures.beta_kelvin = 3977;
  return figures;
}

std::array<CurvePoint, 3> worked_points() {
  return {{{celsius(5), ohm(25000)}, {celsius(25), ohm(10000)}, {celsius(45), ohm(4000)}}};
}

SteinhartHartCurve worked_steinhart_hart() {
  return {SteinhartHartCurve::through(worked_points()), {celsius(5), celsius(45)}};
}

FourCoefficientCurve published_four_coefficient() {
  return {{ohm(10000), -14.6337, 4791.842, -115334, -3.730535e6}, {celsius(-40), celsius(85)}};
}

SensorRatings ratings_with(std::shared_ptr<const Curve> curve, double resistance) {
  return {std::move(curve), Tolerance(OfResistance{resistance}), {}, {}};
}

SensorRatings plain_ratings() {
  BetaCurve::Figures figures = beta_3977();
  figures.stated_span = TemperatureSpan{celsius(-40), celsius(85)};
  return ratings_with(std::make_shared<BetaCurve>(figures));
}

namespace {

MeterSet meter_with_leads(std::string_view leads) {
  const auto of = [](Dimension dimension, double value) { return AnyQuantity(dimension, value); };
  MeterFunction ohms;
  ohms.dimension = Dimension::resistance;
  for (const double full_scale : {600.0, 6e3, 60e3, 600e3, 6e6, 60e6})
    ohms.ranges.push_back(
        {of(Dimension::resistance, full_scale), 0.9, 3, of(Dimension::resistance, full_scale / 6000)});
  MeterFunction volts;
  volts.dimension = Dimension::voltage;
  for (const double full_scale : {0.6, 6.0, 60.0})
    volts.ranges.push_back({of(Dimension::voltage, full_scale), 0.9, 3, of(Dimension::voltage, full_scale / 6000)});
  return MeterSet(
      {{"basic", "Basic meter", "test", {ohms, volts}, parse_stated_value(leads, Dimension::resistance), false}});
}

Condition condition(std::string_view id, std::string_view value, std::string_view error_source) {
  return {std::string(id), parse_stated_value(value, Dimension::temperature), std::string(error_source), false};
}

Reading reading_of(const Typed& typed) {
  const bool is_voltage = typed.measurand == "voltage";
  Reading reading{.measurand = std::string(typed.measurand),
                  .observed = parse_observed(typed.value, is_voltage ? Dimension::voltage : Dimension::resistance)};
  for (const std::string_view repeat : typed.repeats)
    reading.repeats.push_back(parse_stated_value(repeat, Dimension::resistance).value.value_in_si());
  if (!typed.at.empty()) reading.conditions.push_back(condition("part_temperature", typed.at, typed.bath));
  if (!typed.coil_at.empty()) reading.conditions.push_back(condition("coil_temperature", typed.coil_at, {}));
  reading.connection = typed.connection;
  reading.moisture = typed.moisture;
  reading.supply = typed.supply;
  if (!typed.range.empty()) reading.range = parse_stated_value(typed.range, Dimension::resistance).value;
  return reading;
}

}  // namespace

MeterSet basic_meter() { return meter_with_leads("0.2 ohm +- 0.05 ohm"); }
MeterSet no_leads_meter() { return meter_with_leads("0 ohm"); }

const Descriptor& descriptor() {
  static const SensorKind kind;
  return kind.descriptor();
}

Evidence evidence_of(const std::vector<Typed>& typed, const MeterSet& meters) {
  std::vector<Reading> readings;
  for (const Typed& one : typed) readings.push_back(reading_of(one));
  return {descriptor(), readings, meters};
}

Findings judge(const SensorRatings* ratings, const std::vector<Typed>& typed, const MeterSet& meters,
               double confidence) {
  const SensorPart part(ratings == nullptr ? std::nullopt : std::optional(*ratings));
  Findings findings;
  part.judge(evidence_of(typed, meters), {confidence}, findings);
  return findings;
}

Findings judge(const SensorRatings& ratings, const std::vector<Typed>& typed, const MeterSet& meters,
               double confidence) {
  return judge(&ratings, typed, meters, confidence);
}

Verdict verdict_on(const SensorRatings* ratings, const std::vector<Typed>& typed, const MeterSet& meters) {
  const SensorPart part(ratings == nullptr ? std::nullopt : std::optional(*ratings));
  return ohmwright::judge(part, descriptor(), evidence_of(typed, meters), {});
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

double argument(const Finding& finding, std::string_view name) {
  for (const FindingArgument& argument : finding.arguments) {
    if (argument.name != name) continue;
    if (const auto* quantity = std::get_if<AnyQuantity>(&argument.value)) return quantity->value_in_si();
    return std::get<double>(argument.value);
  }
  throw std::logic_error("no argument " + std::string(name));
}

Finding judge_slope(std::string_view cold, std::string_view warm, const MeterSet& meters) {
  BetaCurve::Figures figures = beta_3977();
  figures.beta_kelvin = 3968.471669;  // the slope of the readings: u(B) is taken there
  figures.stated_span = TemperatureSpan{celsius(-40), celsius(85)};
  const SensorRatings ratings = ratings_with(std::make_shared<BetaCurve>(figures));
  const Findings findings =
      judge(ratings, {{.value = cold, .at = "0.1 degC +- 0.2 K"}, {.value = warm, .at = "24.8 degC +- 0.5 K"}}, meters);
  return finding_of(findings, two_temperatures);
}

Estimate log_ratio_with_common_gain(double first, double first_counts, double second, double second_counts,
                                    double gain) {
  const double sqrt3 = std::sqrt(3.0);
  BetaCurve::Figures figures = beta_3977();
  figures.beta_kelvin = 3968.471669;
  const BetaCurve curve(figures);
  Estimate cold(celsius(0.1).kelvin());
  cold.add_term(3, 0.2 / sqrt3);
  Estimate warm(celsius(24.8).kelvin());
  warm.add_term(4, 0.5 / sqrt3);
  Estimate ratio(std::log(first / second));
  ratio.add_term(0, gain / sqrt3);   // of the first…
  ratio.add_term(0, -gain / sqrt3);  // …and of the second, the same source
  ratio.add_term(1, first_counts / first / sqrt3);
  ratio.add_term(2, -second_counts / second / sqrt3);
  ratio.add_uncertainty(nominal_log_resistance(curve, cold), -1.0);
  ratio.add_uncertainty(nominal_log_resistance(curve, warm), 1.0);
  return ratio;
}

double slope_uncertainty(const Estimate& log_ratio) {
  return log_ratio.standard_uncertainty() / (1.0 / celsius(0.1).kelvin() - 1.0 / celsius(24.8).kelvin());
}

}  // namespace ohmwright::defrost_sensor::testing_support
