#include <algorithm>
#include <cmath>
#include <utility>

#include <ohmwright/report/remarked_search.hpp>

namespace ohmwright {

namespace {

/// One way to be is the likeliest when it is by this factor.
constexpr double clearly_likelier = 1.2;

}  // namespace

RemarkedSearch::RemarkedSearch(const LocateReport& of, const Sentences& in)
    : report(of), say(in), prober(of.reasoner.prober()), appliance(prober.appliance()), faults(of.reasoner.faults()) {
  const std::vector<locate::Reasoner::Weighed> first = of.reasoner.likeliest(1);
  if (!first.empty()) likeliest = first.front().instance;
}

void RemarkedSearch::remark(std::string_view pattern, std::initializer_list<FindingArgument> arguments) {
  std::string text = say(pattern, arguments);
  if (std::find(remarks.begin(), remarks.end(), text) == remarks.end()) remarks.push_back(std::move(text));
}

std::string RemarkedSearch::title(const locate::TakenReading& reading) const {
  return appliance.test_points[reading.measurement.test_point].title;
}

Probe RemarkedSearch::probe(const locate::TakenReading& reading) const {
  return appliance.test_points[reading.measurement.test_point].probe;
}

const locate::Candidate* RemarkedSearch::candidate_with(std::initializer_list<std::uint16_t> with) const {
  for (const locate::Candidate& candidate : faults.candidates())
    if (!candidate.outside_cause && candidate.faults.size() == with.size() &&
        std::is_permutation(candidate.faults.begin(), candidate.faults.end(), with.begin()))
      return &candidate;
  return nullptr;
}

std::optional<std::uint16_t> RemarkedSearch::only_fault() const {
  if (!likeliest) return std::nullopt;
  const locate::Candidate& candidate = *report.reasoner.instance(*likeliest).candidate;
  if (candidate.faults.size() != 1 || candidate.outside_cause) return std::nullopt;
  return candidate.faults.front();
}

std::optional<double> RemarkedSearch::value_of(const locate::Candidate& candidate,
                                               const locate::Measurement& measurement) const {
  return value_of(prober, candidate, measurement);
}

std::optional<double> RemarkedSearch::value_of(locate::Prober& by, const locate::Candidate& candidate,
                                               const locate::Measurement& measurement) const {
  const std::vector<locate::Instance> instances = by.instances(candidate);
  const locate::Instance* of = &instances[instances.size() / 2];
  for (const locate::Instance& instance : instances)
    if (instance.weight > clearly_likelier * of->weight) of = &instance;
  const locate::PredictedOutcome* outcome = likeliest_of(by.predict(*of, measurement));
  if (outcome == nullptr || outcome->form != locate::PredictedOutcome::Form::value) return std::nullopt;
  const locate::Scale scale = locate::scale_of(appliance.test_points[measurement.test_point].probe);
  return scale.linear_below * std::sinh(outcome->mean);
}

double RemarkedSearch::likelihood_of(const locate::Candidate& candidate, const locate::Measurement& measurement,
                                     const locate::SeenReading& seen) const {
  double sum = 0.0;
  for (const locate::Instance& instance : prober.instances(candidate))
    sum += instance.weight * locate::likelihood(prober.predict(instance, measurement), seen,
                                                appliance.test_points[measurement.test_point].probe, prober.model());
  return sum;
}

const locate::PredictedOutcome* RemarkedSearch::likeliest_of(const std::vector<locate::PredictedOutcome>& outcomes) {
  const auto found = std::max_element(outcomes.begin(), outcomes.end(),
                                      [](const auto& a, const auto& b) { return a.weight < b.weight; });
  return found == outcomes.end() ? nullptr : &*found;
}

}  // namespace ohmwright
