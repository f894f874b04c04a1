#include <algorithm>
#include <utility>

#include <ohmwright/locate/learnt.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_remarks.hpp>
#include <ohmwright/report/locate_steps.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/search_in_words.hpp>

namespace ohmwright {

namespace {

using locate::AnswerSet;
using locate::Standing;
using locate::Step;

constexpr const char* flammable = "flammable-refrigerant";
constexpr std::size_t most_expected = 4;
constexpr std::size_t most_instead = 3;

class LocateSentences {
 public:
  LocateSentences(const LocateReport& report, const Sentences& say) : words_(report, say) {}

  LocateContent make() {
    say_headline(words_, content_);
    if (words_.report.standing.form == Standing::Form::sealed_system) return stop();
    possible();
    say_evidence(words_, content_);
    content_.remarks = locate_remarks(words_.report, words_.say);
    cautions_of_arrival();
    steps();
    content_.brief_cautions.push_back(words_.local_codes());
    say_afterwards(words_, content_);
    say_assumed(words_, content_);
    return std::move(content_);
  }

 private:
  /// Nothing to replace, to measure or to weigh stands beside the stop.
  LocateContent stop() {
    say_evidence(words_, content_);
    if (may_be_gas_about())
      content_.brief_cautions = content_.cautions = {caution_words(words_.appliance, flammable, false, words_.say)};
    else
      cautions_of_arrival();
    content_.brief_cautions.push_back(words_.local_codes());
    return std::move(content_);
  }

  /// Signs of a leak of what burns, or may: nobody goes near the plug then, not even to pull it.
  bool may_be_gas_about() const {
    const std::vector<std::string> arrival = locate::cautions_of_arrival(words_.appliance);
    return std::find(arrival.begin(), arrival.end(), flammable) != arrival.end() &&
           locate::speaks_of_refrigerant_leak(words_.report.signs);
  }

  void possible() {
    double listed = 0.0;
    for (const AnswerSet& answer : words_.answers) {
      if (content_.possible.size() == SearchInWords::most_listed || answer.probability < SearchInWords::least_listed)
        break;
      content_.possible.push_back({words_.label_with_share(answer), answer.probability});
      listed += answer.probability;
    }
    content_.others = 1.0 - listed < SearchInWords::least_listed ? 0.0 : 1.0 - listed;
  }

  void steps() {
    const bool goes_on =
        words_.report.standing.form == Standing::Form::open || words_.report.standing.form == Standing::Form::likely;
    if (!goes_on || words_.report.steps.empty()) return;
    const Step& first = words_.report.steps.front();
    if (asks_for_a_thermometer()) {
      content_.next = thermometer();
      for (const Step& step : words_.report.steps)
        if (content_.instead.size() < most_instead)
          content_.instead.push_back(step_title(words_.appliance, step, words_.say));
      return;
    }
    StepContent next;
    next.title = step_title(words_.appliance, first, words_.say);
    if (first.form == Step::Form::measure) {
      next.before = work_lines(words_.appliance, work_before(words_.report.work, first), first.measurement, words_.say);
      next.way_out = way_out_line(words_.appliance, first.measurement, words_.say);
      describe_expected(first, next);
      for (const std::string& id : locate::cautions_of(words_.appliance, words_.report.work, first.measurement)) {
        next.cautions.push_back(caution_words(words_.appliance, id, true, words_.say));
        caution(id);
      }
      next.cautions.push_back(words_.local_codes());
    }
    content_.next = std::move(next);
    for (std::size_t i = 1; i < words_.report.steps.size() && content_.instead.size() < most_instead; ++i)
      content_.instead.push_back(step_title(words_.appliance, words_.report.steps[i], words_.say));
  }

  /// What a temperature that nobody measured keeps from being named is settled by measuring that, and by nothing else
  /// as soon.
  bool asks_for_a_thermometer() const {
    const locate::Standing& standing = words_.report.standing;
    return words_.report.asks_temperatures && standing.lacks == Standing::Lacks::temperature &&
           !locate::is_said(words_.report.reasoner.prober().site(), standing.lacking);
  }

  StepContent thermometer() const {
    constexpr double minutes = 5.0;  // for it to settle (assumed, no source)
    const Zone& zone = words_.appliance.zones[words_.report.standing.lacking];
    StepContent next;
    next.title = words_.say(OHMWRIGHT_TEXT("Measure the temperature of the {zone}, beside the part, and say so (--zone "
                                           "{id}=...; about {minutes})"),
                            {{"zone", zone.title}, {"id", zone.id}, {"minutes", minutes_text(minutes)}});
    return next;
  }

  void describe_expected(const Step& step, StepContent& next) const {
    for (const AnswerSet& answer : words_.answers) {
      if (next.expected.size() == most_expected || answer.probability < SearchInWords::least_listed) break;
      if (const std::optional<std::string> shows = shown_by(answer, step.measurement))
        next.expected.push_back({words_.label(answer), *shows});
    }
    const auto is_same = [&](const ExpectedReading& row) { return row.shows == next.expected.front().shows; };
    if (next.expected.empty() || !std::all_of(next.expected.begin(), next.expected.end(), is_same)) return;
    // The step is there for what would show another value: the likeliest that does.
    constexpr std::size_t most_asked = 40;
    for (std::size_t i = 0; i < words_.answers.size() && i < most_asked; ++i) {
      const std::optional<std::string> shows = shown_by(words_.answers[i], step.measurement);
      if (!shows || *shows == next.expected.front().shows) continue;
      if (next.expected.size() == most_expected) next.expected.pop_back();
      next.expected.push_back({words_.label(words_.answers[i]), *shows});
      return;
    }
  }

  /// What the fault that stands for an answer would show: the likeliest of the ways it may be, and where a temperature
  /// that nobody measured, or how far the fault goes, makes that many values, all of them.
  std::optional<std::string> shown_by(const AnswerSet& answer, const locate::Measurement& measurement) const {
    std::vector<locate::PredictedOutcome> ways;
    for (const std::size_t instance : words_.likeliest_instances(answer)) {
      locate::Reasoner& reasoner = words_.report.reasoner;
      const auto& predicted = reasoner.predicted(instance, measurement);
      const locate::Learnt learnt = reasoner.learnt(instance);  // what was read of a leak is what it shows elsewhere
      const std::vector<locate::PredictedOutcome> outcomes =
          learnt.speaks_of(predicted) ? learnt.expected(predicted) : predicted;
      const auto likeliest = std::max_element(outcomes.begin(), outcomes.end(),
                                              [](const auto& a, const auto& b) { return a.weight < b.weight; });
      if (likeliest != outcomes.end()) ways.push_back(*likeliest);
    }
    if (ways.empty()) return std::nullopt;
    return shown_text(ways, words_.appliance.test_points[measurement.test_point].probe, words_.say);
  }

  /// Each once, in the order in which they come.
  void caution(const std::string& id) {
    const std::string brief = caution_words(words_.appliance, id, true, words_.say);
    if (std::find(content_.brief_cautions.begin(), content_.brief_cautions.end(), brief) !=
        content_.brief_cautions.end())
      return;
    content_.brief_cautions.push_back(brief);
    content_.cautions.push_back(caution_words(words_.appliance, id, false, words_.say));
  }

  void cautions_of_arrival() {
    for (const std::string& id : locate::cautions_of_arrival(words_.appliance)) caution(id);
  }

  SearchInWords words_;
  LocateContent content_;
};

}  // namespace

LocateContent locate_content(const LocateReport& report, const Sentences& say) {
  return LocateSentences(report, say).make();
}

}  // namespace ohmwright
