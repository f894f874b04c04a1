#include <algorithm>
#include <cmath>
#include <numbers>

#include <ohmwright/locate/prober.hpp>
#include <ohmwright/locate/separation.hpp>
#include <ohmwright/locate/site.hpp>
#include <ohmwright/locate/work.hpp>

namespace ohmwright::locate {

namespace {

using locate::Candidate;
using locate::FaultList;
using locate::Instance;
using locate::Measurement;
using locate::PredictedOutcome;
using locate::Prober;

/// Cells on a probe's scale: 5 % of the reading where the scale is logarithmic.
constexpr double cell_width = 0.05;
constexpr std::size_t cells = 600;
constexpr std::size_t over_range_cell = cells;
constexpr std::size_t floating_cell = cells + 1;
constexpr double alike_below = 0.1;
/// Ways of being of one candidate that are looked at, evenly among those there are: few milliohms of a wire more or
/// less part nothing.
constexpr std::size_t most_read = 6;

double standard_normal_below(double x) { return 0.5 * std::erfc(-x / std::numbers::sqrt2); }

/// How a reading may come out: probability by cell.
using Histogram = std::vector<double>;

void add_value(double weight, double mean, double uncertainty, Histogram& histogram) {
  const double u = std::max(uncertainty, 0.2 * cell_width);
  const auto cell_of = [](double at) {
    return static_cast<std::size_t>(std::clamp(at / cell_width, 0.0, static_cast<double>(cells - 1)));
  };
  constexpr double reach = 4.0;
  const std::size_t first = cell_of(mean - reach * u);
  const std::size_t last = cell_of(mean + reach * u);
  for (std::size_t cell = first; cell <= last; ++cell) {
    const double from =
        cell == first ? 0.0 : standard_normal_below((static_cast<double>(cell) * cell_width - mean) / u);
    const double to =
        cell == last ? 1.0 : standard_normal_below((static_cast<double>(cell + 1) * cell_width - mean) / u);
    histogram[cell] += weight * (to - from);
  }
}

/// How it reads with that candidate.
Histogram reading_of(Prober& prober, const Candidate& candidate, const Measurement& measurement) {
  Histogram histogram(cells + 2, 0.0);
  const std::vector<Instance> instances = prober.instances(candidate);
  const std::size_t step = (instances.size() + most_read - 1) / most_read;
  double sum = 0.0;
  for (std::size_t i = 0; i < instances.size(); i += step) {
    const Instance& instance = instances[i];
    sum += instance.weight;
    for (const PredictedOutcome& outcome : prober.predict(instance, measurement)) {
      const double weight = instance.weight * outcome.weight;
      if (outcome.form == PredictedOutcome::Form::value)
        add_value(weight, outcome.mean, outcome.uncertainty, histogram);
      else
        histogram[outcome.form == PredictedOutcome::Form::over_range ? over_range_cell : floating_cell] += weight;
    }
  }
  for (double& probability : histogram) probability /= sum;
  return histogram;
}

bool read_alike(const Histogram& a, const Histogram& b, double below) {
  double difference = 0.0;
  for (std::size_t cell = 0; cell < a.size(); ++cell) difference += std::abs(a[cell] - b[cell]);
  return 0.5 * difference < below;
}

std::vector<Measurement> allowed_measurements(const Appliance& appliance) {
  std::vector<Measurement> measurements;
  for (std::size_t point = 0; point < appliance.test_points.size(); ++point) {
    measurements.push_back({point, std::nullopt});
    for (std::size_t set_up = 0; set_up < appliance.set_ups.size(); ++set_up)
      if (const Measurement after{point, set_up}; locate::is_possible(appliance, after)) measurements.push_back(after);
  }
  // Ohms first: they take less arithmetic and part most.
  std::stable_partition(measurements.begin(), measurements.end(), [&](const Measurement& measurement) {
    return appliance.test_points[measurement.test_point].probe == Probe::ohms;
  });
  return measurements;
}

/// Candidates of which some pairs have read alike so far. Measurement by measurement those that are told apart from
/// all others drop out, so that most are predicted for a few measurements only.
class Alikeness {
 public:
  Alikeness(std::size_t count, double below) : count_(count), below_(below), alike_(count * count, true) {}

  bool are_alike(std::size_t a, std::size_t b) const { return alike_[a * count_ + b]; }

  void weigh(Prober& prober, const std::vector<Candidate>& candidates, const Measurement& measurement) {
    std::vector<Histogram> readings(count_);
    for (std::size_t i = 0; i < count_; ++i)
      if (is_open(i)) readings[i] = reading_of(prober, candidates[i], measurement);
    for (std::size_t a = 0; a < count_; ++a)
      for (std::size_t b = a + 1; b < count_; ++b)
        if (are_alike(a, b) && !read_alike(readings[a], readings[b], below_))
          alike_[a * count_ + b] = alike_[b * count_ + a] = false;
  }

 private:
  bool is_open(std::size_t candidate) const {
    for (std::size_t other = 0; other < count_; ++other)
      if (other != candidate && are_alike(candidate, other)) return true;
    return false;
  }

  std::size_t count_;
  double below_;
  std::vector<bool> alike_;
};

/// Nothing wrong first, then every single fault that the file does not rule out.
std::vector<Candidate> single_faults(const FaultList& faults, std::span<const ApplianceFinding> known) {
  std::vector<Candidate> candidates{Candidate{}};
  for (const Candidate& candidate : faults.candidates()) {
    if (candidate.faults.size() != 1 || candidate.outside_cause) continue;
    const PartFault& fault = faults.faults()[candidate.faults.front()].fault;
    const bool is_known = std::any_of(known.begin(), known.end(), [&](const ApplianceFinding& finding) {
      return finding.form == ApplianceFinding::Form::unseen_fault && finding.fault == fault;
    });
    if (!is_known && faults.appliance().parts[fault.part].weight_of(fault.fault) > 0.0) candidates.push_back(candidate);
  }
  return candidates;
}

}  // namespace

std::vector<ApplianceFinding> never_told_apart(const Appliance& appliance, const Meter& meter,
                                               std::span<const ApplianceFinding> known) {
  using Form = ApplianceFinding::Form;
  locate::PriorSettings one_fault;
  one_fault.most_faults = 1;
  const FaultList faults(appliance, one_fault);
  Prober prober(faults, locate::site_as_found(appliance), meter, {});
  const std::vector<Candidate> candidates = single_faults(faults, known);
  Alikeness alikeness(candidates.size(), alike_below);
  for (const Measurement& measurement : allowed_measurements(appliance))
    alikeness.weigh(prober, candidates, measurement);
  const auto fault_of = [&](std::size_t candidate) {
    return faults.faults()[candidates[candidate].faults.front()].fault;
  };
  std::vector<ApplianceFinding> findings;
  for (std::size_t i = 1; i < candidates.size(); ++i)
    if (alikeness.are_alike(0, i)) findings.push_back({Form::unseen_fault, fault_of(i).part, fault_of(i), {}});
  std::vector<bool> is_told(candidates.size(), false);
  for (std::size_t i = 1; i < candidates.size(); ++i) {
    if (alikeness.are_alike(0, i) || is_told[i]) continue;
    for (std::size_t j = i + 1; j < candidates.size(); ++j) {
      if (alikeness.are_alike(0, j) || is_told[j] || !alikeness.are_alike(i, j)) continue;
      is_told[j] = true;
      findings.push_back({Form::never_told_apart, fault_of(i).part, fault_of(i), fault_of(j)});
    }
  }
  return findings;
}

std::vector<PartFault> separable_faults(const Appliance& appliance, const Meter& meter, double told_from) {
  locate::PriorSettings one_fault;
  one_fault.most_faults = 1;
  const FaultList faults(appliance, one_fault);
  Prober prober(faults, locate::site_as_found(appliance), meter, {});
  const std::vector<Candidate> candidates = single_faults(faults, {});
  Alikeness alikeness(candidates.size(), told_from);
  for (const Measurement& measurement : allowed_measurements(appliance))
    alikeness.weigh(prober, candidates, measurement);
  const auto fault_of = [&](std::size_t candidate) {
    return faults.faults()[candidates[candidate].faults.front()].fault;
  };
  std::vector<PartFault> separable;
  for (std::size_t i = 1; i < candidates.size(); ++i) {
    bool is_told = !alikeness.are_alike(0, i);
    for (std::size_t j = 1; j < candidates.size() && is_told; ++j)
      is_told = fault_of(i).part == fault_of(j).part || !alikeness.are_alike(i, j);
    if (is_told) separable.push_back(fault_of(i));
  }
  return separable;
}

}  // namespace ohmwright::locate
