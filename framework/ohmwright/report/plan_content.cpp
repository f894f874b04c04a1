#include <algorithm>
#include <cmath>
#include <set>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_steps.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/plan_words.hpp>

namespace ohmwright {

namespace {

using locate::PlanAnswer;
using locate::PlanPlace;
using locate::Standing;
using locate::Step;

class PlanSentences {
 public:
  PlanSentences(const PlanReport& report, const Sentences& say)
      : report_(report), say_(say), appliance_(report.faults.appliance()), numbers_(step_numbers(report.plan)) {}

  PlanContent make() {
    headline();
    if (numbers_.front() > 0) add_step(0, {});
    std::sort(content_.steps.begin(), content_.steps.end(),
              [](const PlanStepContent& a, const PlanStepContent& b) { return a.number < b.number; });
    if (!content_.cautions.empty())
      content_.brief_cautions.push_back(
          say_(OHMWRIGHT_TEXT("Local codes and licensed practice come before this list")));
    return std::move(content_);
  }

 private:
  void headline() {
    const PlanPlace& first = report_.plan.places.front();
    if (!first.step) {
      content_.headline = ending_text(report_, first, say_);
      content_.explanation.push_back(say_(OHMWRIGHT_TEXT("There is nothing to plan from here.")));
      return;
    }
    content_.headline = say_(OHMWRIGHT_TEXT("PLAN: start with step 1"));
    content_.explanation.push_back(
        say_(OHMWRIGHT_TEXT("It takes {minutes} on average and ends in {named} of all cases with a fault named, by the "
                            "assumed weights and minutes."),
             {{"minutes", minutes_text(report_.plan.minutes)}, {"named", percent_text(report_.plan.named)}}));
    content_.explanation.push_back(say_(
        OHMWRIGHT_TEXT("A reading that is in none of the answers: measure it again, then give it to locate. At most "
                       "{depth} steps one after the other, {width} answers each."),
        {{"depth", std::to_string(report_.settings.depth)}, {"width", std::to_string(report_.settings.width)}}));
  }

  void add_step(std::size_t index, std::set<std::string> shown) {
    const PlanPlace& place = report_.plan.places[index];
    PlanStepContent step;
    step.number = numbers_[index];
    step.title = step_title(appliance_, *place.step, say_);
    if (place.step->form == Step::Form::measure) {
      step.before = work_lines(appliance_, work_before(place.work, *place.step), place.step->measurement, say_);
      step.way_out = way_out_line(appliance_, place.step->measurement, say_);
      add_cautions(place, step, shown);
    }
    for (const PlanAnswer& answer : place.answers) {
      const std::size_t next = numbers_[answer.next];
      const std::string then = next > 0 ? say_(OHMWRIGHT_TEXT("go to {step}"), {{"step", std::to_string(next)}})
                                        : ending_text(report_, report_.plan.places[answer.next], say_);
      step.answers.push_back({answer_text(*place.step, answer), percent_text(answer.probability), then, next});
    }
    content_.steps.push_back(std::move(step));
    for (const PlanAnswer& answer : place.answers)
      if (numbers_[answer.next] > 0) add_step(answer.next, shown);
  }

  void add_cautions(const PlanPlace& place, PlanStepContent& step, std::set<std::string>& shown) {
    for (const std::string& id : locate::cautions_of(appliance_, place.work, place.step->measurement)) {
      if (shown.insert(id).second) step.brief_cautions.push_back(caution_words(appliance_, id, true, say_));
      if (!in_full_.insert(id).second) continue;
      content_.cautions.push_back(caution_words(appliance_, id, false, say_));
      content_.brief_cautions.push_back(caution_words(appliance_, id, true, say_));
    }
  }

  std::string answer_text(const Step& step, const PlanAnswer& answer) const {
    if (answer.form == PlanAnswer::Form::yes) return say_(OHMWRIGHT_TEXT("found"));
    if (answer.form == PlanAnswer::Form::no) return say_(OHMWRIGHT_TEXT("in order"));
    if (answer.readings.form == locate::SeenReading::Form::over_range) return "OL";
    const auto [low, high] = shown_range(report_, step, answer.readings);
    const Dimension dimension = locate::dimension_of(appliance_.test_points[step.measurement.test_point].probe);
    constexpr int digits = 2;
    const std::string to = say_.quantity(AnyQuantity(dimension, high), digits);
    if (!(answer.readings.at > 0.0)) return say_(OHMWRIGHT_TEXT("up to {high}"), {{"high", to}});
    return say_(OHMWRIGHT_TEXT("{low} to {high}"),
                {{"low", say_.quantity(AnyQuantity(dimension, low), digits)}, {"high", to}});
  }

  const PlanReport& report_;
  const Sentences& say_;
  const Appliance& appliance_;
  std::vector<std::size_t> numbers_;
  std::set<std::string> in_full_;
  PlanContent content_;
};

}  // namespace

std::vector<std::size_t> step_numbers(const locate::Plan& plan) {
  std::vector<std::size_t> numbers;
  std::size_t last = 0;
  for (const PlanPlace& place : plan.places) numbers.push_back(place.step ? ++last : 0);
  return numbers;
}

std::pair<double, double> shown_range(const PlanReport& report, const Step& step, const locate::SeenReading& readings) {
  const Probe probe = report.faults.appliance().test_points[step.measurement.test_point].probe;
  const double leads = probe == Probe::ohms ? report.lead_resistance : 0.0;
  const double unit = locate::scale_of(probe).linear_below;
  const double low = readings.at > 0.0 ? unit * std::sinh(readings.at) + leads : 0.0;
  return {low, unit * std::sinh(readings.to) + leads};
}

std::string ending_text(const PlanReport& report, const PlanPlace& place, const Sentences& say) {
  const FindingArgument fault{"fault", candidate_label(report.faults, place.likeliest, say)};
  const FindingArgument chance{"chance", percent_text(place.standing.probability)};
  switch (place.standing.form) {
    case Standing::Form::settled:
      return say(OHMWRIGHT_TEXT("FOUND: {fault}, {chance}"), {fault, chance});
    case Standing::Form::likely:
      return say(place.standing.parts.empty()
                     ? OHMWRIGHT_TEXT("LIKELY: {fault}, {chance}; put it right and try before any cover comes off")
                     : OHMWRIGHT_TEXT("LIKELY: {fault}, {chance}; read it alone before you buy"),
                 {fault, chance});
    case Standing::Form::sealed_system:
      return say(OHMWRIGHT_TEXT("STOP: sealed refrigerant system, licensed work"));
    case Standing::Form::no_more_steps:
      return say(report.allow_live
                     ? OHMWRIGHT_TEXT("no step tells further; the likeliest is {fault}, {chance}")
                     : OHMWRIGHT_TEXT("no unpowered step tells further; the likeliest is {fault}, {chance}"),
                 {fault, chance});
    case Standing::Form::open:
      break;
  }
  return say(OHMWRIGHT_TEXT("not named yet; the likeliest is {fault}, {chance}: go on with locate"), {fault, chance});
}

PlanContent plan_content(const PlanReport& report, const Sentences& say) { return PlanSentences(report, say).make(); }

}  // namespace ohmwright
