#include <array>
#include <string_view>

#include <nlohmann/json.hpp>

#include <ohmwright/report/labels.hpp>
#include <ohmwright/report/reading_circumstances.hpp>
#include <ohmwright/report/verdict_report.hpp>
#include <ohmwright/safety/safe_to_energise.hpp>

namespace ohmwright {

namespace {

using Json = nlohmann::ordered_json;

Json quantity_json(AnyQuantity value) {
  return {{"value", value.value_in_si()}, {"unit", si_unit_of(value.dimension())}};
}

Json limits_json(const Limits& limits) {
  Json json = Json::object();
  if (limits.lower) json["lower"] = limits.lower->value_in_si();
  if (limits.upper) json["upper"] = limits.upper->value_in_si();
  const std::optional<AnyQuantity>& either = limits.lower ? limits.lower : limits.upper;
  json["unit"] = si_unit_of(either->dimension());
  return json;
}

Json reason_json(const VerdictReport& report, const Finding& finding, const Sentences& say) {
  const RuleDescriptor& rule = report.descriptor.rules[finding.rule];
  const TextEntry& text = rule.texts[finding.text];
  Json json{{"rule", rule.id}, {"verdict", name_of(finding.outcome)}};
  if (finding.measured) {
    json["measured"] = quantity_json(*finding.measured);
    if (finding.measured_uncertainty) json["measured"]["standard_uncertainty"] = *finding.measured_uncertainty;
  }
  if (finding.limits.lower || finding.limits.upper) json["limits"] = limits_json(finding.limits);
  if (finding.meaning == ProbabilityMeaning::within_limits) json["probability_within"] = finding.probability;
  if (finding.meaning == ProbabilityMeaning::observed_if_within)
    json["probability_observed_if_within"] = finding.probability;
  json["text_id"] = text.id;
  json["text"] = with_plain_spaces(say.in_domain(report.descriptor.text_domain, text.english, view(finding.arguments)));
  return json;
}

Json advice_json(const VerdictReport& report, const Advice& advice, const Sentences& say) {
  const AdviceDescriptor& text = report.descriptor.advice[advice.text];
  Json json{
      {"id", text.id},
      {"text", with_plain_spaces(say.in_domain(report.descriptor.text_domain, text.english, view(advice.arguments)))}};
  if (advice.probability_decided) json["probability_decided"] = *advice.probability_decided;
  return json;
}

Json observed_json(const Observed& observed) {
  if (const auto* contact = std::get_if<ContactState>(&observed))
    return {{"state", *contact == ContactState::open ? "open" : "closed"}};
  if (const auto* over = std::get_if<OverRange>(&observed)) {
    Json json{{"state", "over-range"}};
    if (over->more_than) json["more_than"] = quantity_json(*over->more_than);
    return json;
  }
  return quantity_json(std::get<StatedValue>(observed).value);
}

/// What was said of the reading's circumstances; nothing of what was not.
void add_circumstances(const Reading& reading, Json& json) {
  if (reading.connection != Connection::unstated)
    json["connection"] = reading.connection == Connection::lead_off ? "lead-off" : "in-circuit";
  if (reading.moisture != Moisture::unstated) json["moisture"] = reading.moisture == Moisture::dry ? "dry" : "wet";
  constexpr std::array<std::string_view, 4> supplies{"unstated", "unplugged", "proved-dead", "live"};
  if (reading.supply != Supply::unstated) json["supply"] = supplies.at(static_cast<std::size_t>(reading.supply));
  for (const NamedState& state : reading.states) json["states"][state.state] = state.value;
  if (!reading.meter.empty()) json["meter"] = reading.meter;
  if (reading.range) json["range"] = quantity_json(*reading.range);
  if (reading.leads) json["leads"] = quantity_json(reading.leads->value);
}

Json reading_json(const Reading& reading) {
  Json json{{"label", reading.label}, {"measurand", reading.measurand}, {"observed", observed_json(reading.observed)}};
  if (!reading.repeats.empty()) json["repeats"] = reading.repeats;
  json["conditions"] = Json::array();
  for (const Condition& condition : reading.conditions) {
    Json entry{{"id", condition.id}, {"value", quantity_json(condition.value.value)}};
    if (condition.value.half_width) entry["half_width"] = *condition.value.half_width;
    entry["assumed"] = condition.uncertainty_assumed;
    json["conditions"].push_back(std::move(entry));
  }
  add_circumstances(reading, json);
  return json;
}

}  // namespace

std::string verdict_json(const VerdictReport& report, const Sentences& say) {
  Json json{{"kind", report.descriptor.id}, {"part", report.part_name}, {"verdict", name_of(report.verdict.outcome)}};
  json["probability_within"] = report.verdict.probability_within ? Json(*report.verdict.probability_within) : Json();
  if (const std::optional<Drawing>& drawing = report.verdict.drawing)
    json["drawing"] = {
        {"seed", drawing->seed}, {"trials", drawing->trials}, {"standard_error", drawing->standard_error}};
  json["confidence"] = report.confidence;
  json["not_yet_proved_safe"] = Json::array();
  for (const RuleDescriptor* rule : not_yet_proved_safe(report.descriptor, report.verdict.findings))
    json["not_yet_proved_safe"].push_back(
        {{"rule", rule->id}, {"title", say.in_domain(report.descriptor.text_domain, rule->title)}});
  json["holds_if"] = Json::array();
  if (holds_only_if_alone(report)) json["holds_if"].push_back("lead-off");
  json["set_aside"] = Json::array();
  for (const SwappedPair& pair : set_aside_pairs(report))
    json["set_aside"].push_back({{"reading", report.evidence.label(report.evidence.readings()[pair.plain])},
                                 {"swapped", report.evidence.label(report.evidence.readings()[pair.swapped])},
                                 {"text", set_aside_sentence(report, pair, say)}});
  json["readings"] = Json::array();
  for (const Reading& reading : report.readings) json["readings"].push_back(reading_json(reading));
  json["reasons"] = Json::array();
  for (const Finding& finding : report.verdict.findings) json["reasons"].push_back(reason_json(report, finding, say));
  json["budget"] = Json::array();
  for (const BudgetShare& share : report.verdict.budget) {
    const ErrorSource& source = report.evidence.sources()[share.source];
    json["budget"].push_back({{"source", source_label(source, report.descriptor, say)},
                              {"id", source.id},
                              {"of", source.of},
                              {"share", share.share}});
  }
  json["advice"] = Json::array();
  for (const Advice& advice : report.verdict.advice) json["advice"].push_back(advice_json(report, advice, say));
  json["cautions"] = Json::array();
  for (const std::string_view id : caution_ids(report.descriptor, report.readings, report.verdict.advice)) {
    const CautionText caution = caution_text(report.descriptor, id);
    json["cautions"].push_back({{"id", id}, {"text", say.in_domain(caution.domain, caution.english)}});
  }
  json["meter"] = {{"title", report.meter_title}, {"assumed", report.meter_assumed}};
  for (const OtherInstrument& other : report.other_instruments)
    json["other_instruments"].push_back(
        {{"measurand", other.measurand}, {"title", other.title}, {"assumed", other.assumed}});
  return json.dump(2) + '\n';
}

}  // namespace ohmwright
