#include <array>
#include <utility>

#include <nlohmann/json.hpp>

#include <ohmwright/appliance/looks.hpp>
#include <ohmwright/report/locate_remarks.hpp>
#include <ohmwright/report/locate_words.hpp>

namespace ohmwright {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::array<std::string_view, 5> standing_words{"open", "likely", "found", "no-more-steps", "sealed-system"};
constexpr std::array<std::string_view, 7> lack_words{"",          "range", "reading", "temperature",
                                                     "judgement", "state", "unit"};
constexpr std::array<std::string_view, 3> step_words{"measure", "look", "replace"};

Json stated_json(const StatedValue& stated) {
  Json json{{"value", stated.value.value_in_si()}};
  if (stated.half_width) json["half_width"] = *stated.half_width;
  json["unit"] = si_unit_of(stated.value.dimension());
  return json;
}

/// "timer.position" and "defrost": as a file of readings says it.
std::pair<std::string, std::string> state_names(const Appliance& appliance, const SetState& set) {
  const PlacedPart& part = appliance.parts[set.part];
  const StateDescriptor& state = part.kind->descriptor().states[set.value.state];
  return {part.id + "." + std::string(state.id), std::string(state.values[set.value.value].id)};
}

Json measurement_json(const Appliance& appliance, const locate::Measurement& measurement) {
  Json json{{"test_point", appliance.test_points[measurement.test_point].id}};
  if (measurement.low_impedance) json["low_impedance"] = true;
  if (!measurement.set_up) return json;
  const SetUp& set_up = appliance.set_ups[*measurement.set_up];
  if (!set_up.only_stated) {
    json["set_up"] = set_up.id;
    return json;
  }
  if (set_up.based_on) json["set_up"] = appliance.set_ups[*set_up.based_on].id;
  for (const SetState& row : set_up.states) {
    const auto [name, value] = state_names(appliance, row);
    json["states"][name] = value;
  }
  for (const SetTemperature& row : set_up.temperatures)
    json["temperatures"][appliance.zones[row.zone].id] = stated_json(row.temperature);
  return json;
}

Json shown_json(const Observed& observed) {
  if (const auto* contact = std::get_if<ContactState>(&observed))
    return {{"state", *contact == ContactState::open ? "open" : "closed"}};
  if (std::holds_alternative<OverRange>(observed)) return {{"state", "over-range"}};
  return stated_json(std::get<StatedValue>(observed));
}

Json answer_json(const LocateReport& report, const locate::AnswerSet& answer, const Sentences& say) {
  const Appliance& appliance = report.reasoner.prober().appliance();
  Json json{{"parts", Json::array()}, {"probability", answer.probability}};
  for (const std::size_t part : answer.parts) json["parts"].push_back(appliance.parts[part].id);
  if (answer.outside_cause) json["outside_cause"] = appliance.outside_causes[*answer.outside_cause].id;
  json["text"] = answer_label(report.reasoner.faults(), report.diagnosis, answer, say);
  return json;
}

Json step_json(const LocateReport& report, const locate::Step& step) {
  const Appliance& appliance = report.reasoner.prober().appliance();
  Json json{{"do", step_words.at(static_cast<std::size_t>(step.form))}};
  if (step.form == locate::Step::Form::measure) json.update(measurement_json(appliance, step.measurement));
  if (step.form == locate::Step::Form::look)
    json[outside_cause_of_look(appliance, step.subject) ? "outside_cause" : "look"] =
        look_words(appliance, step.subject).id;
  if (step.form == locate::Step::Form::replace) json["part"] = appliance.parts[step.subject].id;
  json["minutes"] = step.minutes;
  json["gain_bits"] = step.gain_bits;
  if (step.form == locate::Step::Form::measure) {
    json["live"] = locate::is_live(appliance, step.measurement);
    json["cautions"] = locate::cautions_of(appliance, report.work, step.measurement);
  }
  return json;
}

}  // namespace

std::string locate_json(const LocateReport& report, const Sentences& say) {
  const Appliance& appliance = report.reasoner.prober().appliance();
  constexpr double least_written = 1e-4;
  constexpr std::size_t most_steps = 10;
  Json json{{"appliance", appliance.id},
            {"standing", standing_words.at(static_cast<std::size_t>(report.standing.form))}};
  if (report.standing.lacks != locate::Standing::Lacks::nothing)
    json["lacks"] = lack_words.at(static_cast<std::size_t>(report.standing.lacks));
  if (const auto& fits = report.standing.fits)
    json["other_class"] = {{"part", appliance.parts[fits->part].id}, {"class", fits->title}};
  if (const auto& warm = report.standing.warm_part) json["may_be_warm"] = appliance.parts[*warm].id;
  const bool stops = report.standing.form == locate::Standing::Form::sealed_system;  // and nothing is named beside it
  json["possible_faults"] = Json::array();
  for (const locate::AnswerSet& answer : locate::answers(report.reasoner.faults(), report.diagnosis))
    if (!stops && answer.probability >= least_written)
      json["possible_faults"].push_back(answer_json(report, answer, say));
  json["parts"] = Json::array();
  for (std::size_t i = 0; i < appliance.parts.size() && !stops; ++i)
    json["parts"].push_back({{"part", appliance.parts[i].id}, {"probability", report.diagnosis.parts[i]}});
  json["nothing_wrong"] = report.diagnosis.nothing_wrong;
  json["readings"] = Json::array();
  for (std::size_t i = 0; i < report.readings.size(); ++i) {
    Json reading = measurement_json(appliance, report.readings[i].measurement);
    reading["observed"] = shown_json(report.readings[i].observed);
    if (const auto& range = report.readings[i].range)
      reading["range"] = {{"value", range->value_in_si()}, {"unit", si_unit_of(range->dimension())}};
    if (!report.readings[i].note.empty()) reading["note"] = report.readings[i].note;
    reading["probability_unexplained"] = report.diagnosis.misread[i];
    json["readings"].push_back(std::move(reading));
  }
  json["remarks"] = stops ? std::vector<std::string>{} : locate_remarks(report, say);
  json["steps"] = Json::array();
  for (std::size_t i = 0; i < report.steps.size() && i < most_steps; ++i)
    json["steps"].push_back(step_json(report, report.steps[i]));
  return json.dump(2) + '\n';
}

}  // namespace ohmwright
