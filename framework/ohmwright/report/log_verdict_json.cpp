#include <nlohmann/json.hpp>

#include <ohmwright/report/log_verdict_json.hpp>
#include <ohmwright/report/log_words.hpp>
#include <ohmwright/report/paragraph.hpp>

namespace ohmwright {

using VerdictJson = nlohmann::ordered_json;

VerdictJson log_verdict_json(const cycles::LogVerdict& verdict, const Sentences& say) {
  VerdictJson json{{"rule", verdict.rule}, {"verdict", name_of(verdict.outcome)}, {"text_id", verdict.text}};
  if (verdict.outcome != Outcome::silent && verdict.meaning == ProbabilityMeaning::within_limits)
    json["probability_within"] = verdict.probability;
  if (verdict.outcome != Outcome::silent && verdict.meaning == ProbabilityMeaning::observed_if_within)
    json["probability_seen_if_within"] = verdict.probability;
  if (verdict.measured) {
    json["measured"] = {{"value", verdict.measured->value_in_si()},
                        {"unit", si_unit_of(verdict.measured->dimension())},
                        {"standard_uncertainty", verdict.measured_uncertainty.value_or(0.0)}};
    VerdictJson limits = VerdictJson::object();
    if (verdict.limits.lower) limits["lower"] = verdict.limits.lower->value_in_si();
    if (verdict.limits.upper) limits["upper"] = verdict.limits.upper->value_in_si();
    limits["unit"] = si_unit_of(verdict.measured->dimension());
    json["limits"] = std::move(limits);
  }
  if (!verdict.doubt.empty()) json["doubt"] = VerdictJson::array();
  for (const cycles::LogDoubt& doubt : verdict.doubt)
    json["doubt"].push_back({{"source", doubt.source}, {"share", doubt.share}});
  for (const cycles::LogArgument& argument : verdict.arguments)
    std::visit([&](const auto& value) { json["arguments"][std::string(argument.name)] = value; }, argument.value);
  json["locate"] = VerdictJson::array();
  for (const std::string_view symptom : verdict.symptoms) {
    json["locate"].push_back("--symptom");
    json["locate"].push_back(symptom);
  }
  json["text"] = with_plain_spaces(log_verdict_text(verdict, say));
  return json;
}

VerdictJson log_finding_json(const cycles::LogFinding& finding) {
  VerdictJson json{{"id", finding.id}, {"asks", finding.asks}};
  for (const cycles::LogArgument& argument : finding.arguments)
    std::visit([&](const auto& value) { json["arguments"][std::string(argument.name)] = value; }, argument.value);
  return json;
}

}  // namespace ohmwright
