#include "small_world.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright::locate::testing {

namespace {

/// Outcomes nearer than this on the scale are one bin: some five percent, what a technician writes down alike.
constexpr double one_bin = 0.05;
/// Branches less likely than this are not walked.
constexpr double negligible = 1e-4;

}  // namespace

SmallWorld::SmallWorld(Search& search) : search_(search), appliance_(search.reasoner().prober().appliance()) {
  search_.think();
  for (const Reasoner::Weighed& weighed : search_.reasoner().likeliest(std::numeric_limits<std::size_t>::max())) {
    instances_.push_back(weighed.instance);
    weights_.push_back(weighed.probability);
  }
  for (std::size_t point = 0; point < appliance_.test_points.size(); ++point) {
    add_measurement({point, {}});
    for (std::size_t set_up = 0; set_up < appliance_.set_ups.size(); ++set_up) add_measurement({point, set_up});
  }
}

void SmallWorld::add_measurement(const Measurement& measurement) {
  if (!is_possible(appliance_, measurement)) return;
  if (is_live(appliance_, measurement) && !search_.settings().steps.allow_live) return;
  const Probe probe = appliance_.test_points[measurement.test_point].probe;
  std::vector<SeenReading> bins;
  for (const std::size_t instance : instances_)
    for (const PredictedOutcome& outcome : search_.reasoner().predicted(instance, measurement)) {
      SeenReading seen;
      seen.at = outcome.form == PredictedOutcome::Form::floating ? ghost_voltage_on_scale() : outcome.mean;
      if (outcome.form == PredictedOutcome::Form::over_range) seen = {SeenReading::Form::over_range, 0.0};
      const bool is_new = std::none_of(bins.begin(), bins.end(), [&](const SeenReading& bin) {
        return bin.form == seen.form && std::abs(bin.at - seen.at) <= one_bin;
      });
      if (is_new) bins.push_back(seen);
    }
  std::vector<BinShares> shares;
  for (const std::size_t instance : instances_) {
    const std::vector<PredictedOutcome>& predicted = search_.reasoner().predicted(instance, measurement);
    BinShares& own = shares.emplace_back();
    double over_range = 0.0;
    double values = 0.0;
    for (const SeenReading& bin : bins) {
      own.push_back(likelihood(predicted, bin, probe, search_.settings().readings));
      (bin.form == SeenReading::Form::over_range ? over_range : values) += own.back();
    }
    for (std::size_t bin = 0; bin < bins.size(); ++bin)
      if (bins[bin].form != SeenReading::Form::over_range && values > 0.0) own[bin] *= (1.0 - over_range) / values;
  }
  measurements_.push_back(measurement);
  bins_.push_back(std::move(bins));
  shares_.push_back(std::move(shares));
}

Observed SmallWorld::shown(std::size_t measurement, std::size_t bin) const {
  const Probe probe = appliance_.test_points[measurements_[measurement].test_point].probe;
  const SeenReading& of = bins_[measurement][bin];
  if (of.form == SeenReading::Form::over_range) return OverRange{};
  const double leads = probe == Probe::ohms ? search_.reasoner().prober().lead_resistance() : 0.0;
  const Dimension dimension = dimension_of(probe);
  return StatedValue{AnyQuantity(dimension, scale_of(probe).linear_below * std::sinh(of.at) + leads), std::nullopt,
                     Unit::si(dimension)};
}

void SmallWorld::think(const Seen& seen, const std::vector<std::size_t>& order) {
  while (search_.take_back()) continue;
  for (const std::size_t measurement : order) {
    const auto found =
        std::find_if(seen.begin(), seen.end(), [&](const auto& row) { return row.first == measurement; });
    search_.add({measurements_[measurement], shown(measurement, found->second), {}});
  }
  search_.think();
}

bool SmallWorld::is_over(const Seen& seen) {
  const auto known = standings_.find(seen);
  if (known != standings_.end()) return known->second;
  std::vector<std::size_t> order;
  for (const auto& [measurement, bin] : seen) order.push_back(measurement);
  think(seen, order);
  const bool is_left = std::any_of(search_.steps().begin(), search_.steps().end(), [&](const Step& step) {
    return std::none_of(order.begin(), order.end(),
                        [&](std::size_t taken) { return measurements_[taken] == step.measurement; });
  });
  const bool over = search_.standing().form != Standing::Form::open || !is_left;
  standings_.emplace(seen, over);
  return over;
}

std::vector<double> SmallWorld::chances(const Seen& seen, std::size_t measurement) const {
  std::vector<double> sums(bins_[measurement].size(), 0.0);
  double all = 0.0;
  for (std::size_t h = 0; h < weights_.size(); ++h) {
    double weight = weights_[h];
    for (const auto& [taken, bin] : seen) weight *= shares_[taken][h][bin];
    if (!(weight > 0.0)) continue;
    all += weight;
    for (std::size_t bin = 0; bin < sums.size(); ++bin) sums[bin] += weight * shares_[measurement][h][bin];
  }
  for (double& sum : sums) sum /= all;
  return sums;
}

namespace {

template <class Seen>
Seen with(Seen seen, std::size_t measurement, std::size_t bin) {
  const std::pair<std::size_t, std::size_t> row{measurement, bin};
  seen.insert(std::upper_bound(seen.begin(), seen.end(), row), row);
  return seen;
}

/// What of the work decides the minutes of later steps.
std::vector<std::size_t> key_of(const WorkState& work) {
  std::vector<std::size_t> key{static_cast<std::size_t>(work.power), work.set_up ? *work.set_up + 1 : 0};
  for (const bool off : work.covers_off) key.push_back(off ? 1 : 0);
  return key;
}

}  // namespace

double SmallWorld::minutes_of_policy() { return policy_from({}, {}); }

double SmallWorld::policy_from(const Seen& seen, const std::vector<std::size_t>& order) {
  if (is_over(seen)) return 0.0;
  think(seen, order);
  for (const Step& step : search_.steps()) {
    const auto at = std::find(measurements_.begin(), measurements_.end(), step.measurement);
    const auto index = static_cast<std::size_t>(at - measurements_.begin());
    if (std::find(order.begin(), order.end(), index) != order.end()) continue;  // asked for again: once at most here
    std::vector<std::size_t> longer = order;
    longer.push_back(index);
    double minutes = step.minutes;
    const std::vector<double> chance = chances(seen, index);
    for (std::size_t bin = 0; bin < chance.size(); ++bin)
      if (chance[bin] > negligible) minutes += chance[bin] * policy_from(with(seen, index, bin), longer);
    return minutes;
  }
  return 0.0;
}

double SmallWorld::least_minutes() { return least_from({}, work_at_arrival(appliance_)); }

double SmallWorld::least_from(const Seen& seen, const WorkState& work) {
  if (is_over(seen)) return 0.0;
  const std::pair key{seen, key_of(work)};
  if (const auto known = least_.find(key); known != least_.end()) return known->second;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t index = 0; index < measurements_.size(); ++index) {
    const bool taken = std::any_of(seen.begin(), seen.end(), [&](const auto& row) { return row.first == index; });
    if (taken) continue;
    double minutes = minutes_of(appliance_, search_.settings().steps.times, work, measurements_[index]);
    const WorkState next = after(appliance_, work, measurements_[index]);
    const std::vector<double> chance = chances(seen, index);
    for (std::size_t bin = 0; bin < chance.size() && minutes < least; ++bin)
      if (chance[bin] > negligible) minutes += chance[bin] * least_from(with(seen, index, bin), next);
    least = std::min(least, minutes);
  }
  if (std::isinf(least)) least = 0.0;
  least_.emplace(key, least);
  return least;
}

}  // namespace ohmwright::locate::testing
