#include <nlohmann/json.hpp>

#include <ohmwright/report/log_report.hpp>
#include <ohmwright/report/log_verdict_json.hpp>

namespace ohmwright {

namespace {

using Json = nlohmann::ordered_json;

template <class Value>
void put(Json& json, const char* name, const std::optional<Value>& value) {
  if (value) json[name] = *value;
}

Json defrost_json(const cycles::Defrost& defrost) {
  Json json{{"start_second", defrost.start_second},
            {"end_second", defrost.end_second},
            {"load_is_logged", defrost.has_load},
            {"coil_is_logged", defrost.has_coil},
            {"heater_is_seen", defrost.heater_is_seen},
            {"rise_is_seen", defrost.rise_is_seen},
            {"is_cut", defrost.is_cut},
            {"cause", cycles::name_of(defrost.cause)},
            {"ground", cycles::name_of(defrost.ground)},
            {"energy_joule", defrost.energy_joule},
            {"plateau_second", defrost.plateau_second}};
  put(json, "peak_kelvin", defrost.peak_kelvin);
  put(json, "drip_second", defrost.drip_second);
  put(json, "recovery_second", defrost.recovery_second);
  put(json, "interval_second", defrost.interval_second);
  put(json, "interval_running_second", defrost.interval_running_second);
  if (defrost.frost)
    json["frost"] = {{"kilogram", defrost.frost->kilogram},
                     {"standard_uncertainty", defrost.frost->uncertainty_kilogram}};
  return json;
}

Json gap_json(const cycles::LogGap& gap) {
  return {{"after_line", gap.after_line}, {"start_second", gap.start_second}, {"second", gap.second}};
}

Json gaps_json(const cycles::LogCoverage& coverage) {
  Json json{{"count", coverage.gaps}, {"missing_rows", coverage.missing_rows}, {"first", Json::array()}};
  for (const cycles::LogGap& gap : coverage.first_gaps) json["first"].push_back(gap_json(gap));
  if (coverage.gaps > 0) json["longest"] = gap_json(coverage.longest_gap);
  return json;
}

}  // namespace

std::string log_json(const LogReport& report, const Sentences& say) {
  const cycles::LogAnalysis& analysis = report.analysis;
  Json json{{"rows", report.reader.rows()},
            {"span_second", analysis.coverage.span_second},
            {"gap_second", analysis.coverage.gap_second},
            {"hidden_share", analysis.coverage.hidden_share},
            {"asks_for_a_test", cycles::asks_for_a_test(report.verdicts)}};
  put(json, "start_second", report.reader.start_second());
  put(json, "run_share", analysis.run_share);
  json["run_count"] = analysis.run_count;
  json["never_stops"] = analysis.never_stops;
  json["energy_joule"] = analysis.energy_joule;
  json["door_count"] = analysis.door_count;
  json["defrosts"] = Json::array();
  for (const cycles::Defrost& defrost : analysis.defrosts) json["defrosts"].push_back(defrost_json(defrost));
  json["verdicts"] = Json::array();
  for (const cycles::LogVerdict& verdict : report.verdicts) json["verdicts"].push_back(log_verdict_json(verdict, say));
  json["findings"] = Json::array();
  for (const cycles::LogFinding& finding : report.reader.findings())
    json["findings"].push_back(log_finding_json(finding));
  for (const cycles::LogFinding& finding : analysis.findings) json["findings"].push_back(log_finding_json(finding));
  json["gaps"] = gaps_json(analysis.coverage);
  json["troubles"] = Json::array();
  for (std::size_t i = 0; i < cycles::log_trouble_count; ++i) {
    const auto sort = static_cast<cycles::LogTrouble>(i);
    const cycles::TroubleCount& trouble = report.reader.troubles().of(sort);
    if (trouble.count > 0)
      json["troubles"].push_back(
          {{"sort", cycles::name_of(sort)}, {"count", trouble.count}, {"first_lines", trouble.first_lines}});
  }
  json["thresholds"] = Json::array();
  for (const cycles::LogThreshold& threshold : analysis.thresholds)
    json["thresholds"].push_back({{"id", threshold.id}, {"value", threshold.value}});
  return json.dump(2) + '\n';
}

}  // namespace ohmwright
