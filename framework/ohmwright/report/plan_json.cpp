#include <array>

#include <nlohmann/json.hpp>

#include <ohmwright/appliance/looks.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/plan_words.hpp>

namespace ohmwright {

namespace {

using PlanJson = nlohmann::ordered_json;
using locate::PlanAnswer;
using locate::PlanPlace;
using locate::Step;

constexpr std::array<std::string_view, 5> plan_standings{"open", "likely", "found", "no-more-steps", "sealed-system"};

PlanJson end_json(const PlanReport& report, const PlanPlace& place, const Sentences& say) {
  const Appliance& appliance = report.faults.appliance();
  PlanJson json{{"standing", plan_standings.at(static_cast<std::size_t>(place.standing.form))},
                {"parts", PlanJson::array()},
                {"probability", place.standing.probability},
                {"text", ending_text(report, place, say)}};
  for (const std::size_t part : place.standing.parts) json["parts"].push_back(appliance.parts[part].id);
  if (place.standing.outside_cause) json["outside_cause"] = appliance.outside_causes[*place.standing.outside_cause].id;
  return json;
}

PlanJson shows_json(const PlanReport& report, const Step& step, const PlanAnswer& answer) {
  if (answer.form == PlanAnswer::Form::yes) return {{"look", "found"}};
  if (answer.form == PlanAnswer::Form::no) return {{"look", "fine"}};
  if (answer.readings.form == locate::SeenReading::Form::over_range) return {{"state", "over-range"}};
  const auto [low, high] = shown_range(report, step, answer.readings);
  const Probe probe = report.faults.appliance().test_points[step.measurement.test_point].probe;
  return {{"lower", low}, {"upper", high}, {"unit", si_unit_of(locate::dimension_of(probe))}};
}

}  // namespace

std::string plan_json(const PlanReport& report, const Sentences& say) {
  const Appliance& appliance = report.faults.appliance();
  const std::vector<std::size_t> numbers = step_numbers(report.plan);
  PlanJson json{{"appliance", appliance.id}, {"minutes", report.plan.minutes}, {"named", report.plan.named}};
  json["steps"] = PlanJson::array();
  if (numbers.front() == 0) json["end"] = end_json(report, report.plan.places.front(), say);
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    const PlanPlace& place = report.plan.places[i];
    if (!place.step) continue;
    const Step& step = *place.step;
    PlanJson row{{"number", numbers[i]}, {"reached", place.reached}};
    if (step.form == Step::Form::measure) {
      row["do"] = "measure";
      row["test_point"] = appliance.test_points[step.measurement.test_point].id;
      if (step.measurement.set_up) row["set_up"] = appliance.set_ups[*step.measurement.set_up].id;
      row["live"] = locate::is_live(appliance, step.measurement);
      row["cautions"] = locate::cautions_of(appliance, place.work, step.measurement);
    } else {
      row["do"] = "look";
      row[outside_cause_of_look(appliance, step.subject) ? "outside_cause" : "look"] =
          look_words(appliance, step.subject).id;
    }
    row["minutes"] = step.minutes;
    row["answers"] = PlanJson::array();
    for (const PlanAnswer& answer : place.answers) {
      PlanJson branch{{"shows", shows_json(report, step, answer)}, {"probability", answer.probability}};
      if (numbers[answer.next] > 0)
        branch["next"] = numbers[answer.next];
      else
        branch["end"] = end_json(report, report.plan.places[answer.next], say);
      row["answers"].push_back(std::move(branch));
    }
    json["steps"].push_back(std::move(row));
  }
  return json.dump(2) + '\n';
}

}  // namespace ohmwright
