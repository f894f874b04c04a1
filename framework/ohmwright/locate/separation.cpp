#include <algorithm>
#include <cmath>

#include <ohmwright/locate/normal.hpp>
#include <ohmwright/locate/prober.hpp>
#include <ohmwright/locate/separation.hpp>
#include <ohmwright/locate/site.hpp>
#include <ohmwright/locate/work.hpp>

namespace ohmwright::locate {

namespace {

/// Cells on a probe's scale: 5 % of the reading where the scale is logarithmic.
constexpr double cell_width = 0.05;
constexpr std::size_t cells = 600;
constexpr std::size_t over_range_cell = cells;
constexpr std::size_t floating_cell = cells + 1;
constexpr double alike_below = 0.1;
/// Ways of being of one candidate that are looked at, evenly among those there are: few milliohms of a wire more or
/// less part nothing.
constexpr std::size_t most_read = 6;

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
        cell == first ? 0.0 : normal_probability_below((static_cast<double>(cell) * cell_width - mean) / u);
    const double to =
        cell == last ? 1.0 : normal_probability_below((static_cast<double>(cell + 1) * cell_width - mean) / u);
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
      if (const Measurement after{point, set_up}; is_possible(appliance, after)) measurements.push_back(after);
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

/// Candidates of one appliance, nothing wrong first, and which of them no allowed measurement tells apart.
struct Compared {
  FaultList faults;
  std::vector<Candidate> candidates;
  Alikeness alikeness;

  const PartFault& fault_of(std::size_t candidate) const {
    return faults.faults()[candidates[candidate].faults.front()].fault;
  }
};

/// Every set-up is taken to have been reached: a slip is no limit of what can be told.
Compared compare_single_faults(const Appliance& appliance, const Meter& meter, std::span<const ApplianceFinding> known,
                               double below) {
  PriorSettings one_fault;
  one_fault.most_faults = 1;
  FaultList faults(appliance, one_fault);
  std::vector<Candidate> candidates = single_faults(faults, known);
  const std::size_t count = candidates.size();
  Compared compared{std::move(faults), std::move(candidates), Alikeness(count, below)};
  ReadingModel reached;
  reached.set_up_missed = reached.temperature_missed = 0.0;
  Prober prober(compared.faults, site_as_found(appliance), meter, reached);
  for (const Measurement& measurement : allowed_measurements(appliance))
    compared.alikeness.weigh(prober, compared.candidates, measurement);
  return compared;
}

}  // namespace

std::vector<ApplianceFinding> never_told_apart(const Appliance& appliance, const Meter& meter,
                                               std::span<const ApplianceFinding> known) {
  using Form = ApplianceFinding::Form;
  const Compared compared = compare_single_faults(appliance, meter, known, alike_below);
  const Alikeness& alikeness = compared.alikeness;
  const std::size_t count = compared.candidates.size();
  std::vector<ApplianceFinding> findings;
  for (std::size_t i = 1; i < count; ++i)
    if (alikeness.are_alike(0, i))
      findings.push_back({Form::unseen_fault, compared.fault_of(i).part, compared.fault_of(i), {}});
  std::vector<bool> is_told(count, false);
  for (std::size_t i = 1; i < count; ++i) {
    if (alikeness.are_alike(0, i) || is_told[i]) continue;
    for (std::size_t j = i + 1; j < count; ++j) {
      if (alikeness.are_alike(0, j) || is_told[j] || !alikeness.are_alike(i, j)) continue;
      is_told[j] = true;
      findings.push_back(
          {Form::never_told_apart, compared.fault_of(i).part, compared.fault_of(i), compared.fault_of(j)});
    }
  }
  return findings;
}

std::vector<PartFault> separable_faults(const Appliance& appliance, const Meter& meter, double told_from) {
  const Compared compared = compare_single_faults(appliance, meter, {}, told_from);
  std::vector<PartFault> separable;
  for (std::size_t i = 1; i < compared.candidates.size(); ++i) {
    bool is_told = !compared.alikeness.are_alike(0, i);
    for (std::size_t j = 1; j < compared.candidates.size() && is_told; ++j)
      is_told = compared.fault_of(i).part == compared.fault_of(j).part || !compared.alikeness.are_alike(i, j);
    if (is_told) separable.push_back(compared.fault_of(i));
  }
  return separable;
}

}  // namespace ohmwright::locate
