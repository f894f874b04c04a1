#include <nlohmann/json.hpp>

#include <ohmwright/report/job_report.hpp>

namespace ohmwright {

namespace {

using ReportJson = nlohmann::ordered_json;

void set_text(ReportJson& object, const char* name, const std::string& text) {
  if (!text.empty()) object[name] = text;
}

ReportJson reading_of_job(const job::MeasuredValue& reading) {
  ReportJson json{{"entry", reading.entry},
                  {"time", reading.when},
                  {"visit", reading.visit},
                  {"place", reading.place},
                  {"shown", reading.shown},
                  {"outcome", reading.outcome ? name_of(*reading.outcome) : std::string_view("not-judged")}};
  if (reading.probability) json["probability_within"] = *reading.probability;
  set_text(json, "headline", reading.headline);
  json["reasons"] = reading.reasons;
  json["doubt"] = reading.doubt;
  set_text(json, "meter", reading.meter);
  json["agreed_live"] = reading.agreed_live;
  return json;
}

ReportJson replacement_of_job(const job::ReplacedPart& part) {
  ReportJson json{{"time", part.when}, {"part", part.part.empty() ? part.title : part.part}};
  set_text(json, "old", part.old_ratings);
  set_text(json, "new", part.new_ratings);
  json["equivalence"] = name_of(part.equivalence);
  set_text(json, "because", part.because);
  return json;
}

ReportJson possible_json(const std::vector<PossibleFaultLine>& rows) {
  ReportJson list = ReportJson::array();
  for (const PossibleFaultLine& row : rows) list.push_back({{"fault", row.label}, {"probability", row.probability}});
  return list;
}

}  // namespace

std::string job_json(const JobReport& report, const Sentences& say) {
  const JobContent content = job_content(report, say);
  const job::ServiceCall& call = report.call;
  ReportJson json{{"job", report.line.number}, {"id", report.line.id}, {"title", call.title}};
  set_text(json, "complaint", call.complaint);
  set_text(json, "appliance", report.appliance_title);
  json["state"] = job::name_of(call.state);
  set_text(json, "call_back", call.call_back);
  json["customer"] = {{"what_was_wrong", content.wrong},
                      {"what_was_done", content.done},
                      {"proof", content.proof},
                      {"what_to_watch", content.watch}};
  if (!content.warning.empty()) json["customer"]["warning"] = content.warning;
  json["phone"] = ReportJson::object();
  for (const auto& [question, answer] : call.phone) json["phone"][question] = answer;
  json["readings"] = ReportJson::array();
  for (const job::MeasuredValue& reading : call.readings) json["readings"].push_back(reading_of_job(reading));
  json["possible_before"] = possible_json(report.possible_before);
  json["possible_now"] = possible_json(report.possible_now);
  json["replaced"] = ReportJson::array();
  ReportJson mended = ReportJson::array();
  for (const job::ReplacedPart& part : call.replaced) {
    if (part.was_mended())
      mended.push_back({{"time", part.when}, {"part", part.part}, {"done", part.mended}});
    else
      json["replaced"].push_back(replacement_of_job(part));
  }
  if (!mended.empty()) json["mended"] = std::move(mended);
  json["checks"] = ReportJson::array();
  for (const job::Check& check : call.checks)
    json["checks"].push_back({{"time", check.when},
                              {"what", job::name_of(check.form)},
                              {"outcome", name_of(check.outcome)},
                              {"text", check.text},
                              {"lines", check.lines}});
  json["notes"] = content.notes;
  json["visits"] = call.visits;
  json["cautions"] = ReportJson::array();
  for (const JobCaution& caution : report.cautions)
    json["cautions"].push_back({{"id", caution.id}, {"text", caution.text}, {"source", caution.source}});
  json["open_points"] = content.open_points;
  json["unproved"] = content.unproved;
  return json.dump(2) + '\n';
}

}  // namespace ohmwright
