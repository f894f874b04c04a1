#include <algorithm>
#include <cmath>
#include <vector>

#include <ohmwright/batch/summary.hpp>

namespace ohmwright::batch {

namespace {

struct LotPlaces {
  const std::string* name;
  const Places* places;
  double mean;
};

double variance_of_mean(const Places& places) {
  const double deviation = places.standard_deviation();
  return deviation * deviation / static_cast<double>(places.count);
}

Drift drift_between(const Places& lot, double other_mean, double other_variance, std::uint64_t other_count) {
  constexpr std::uint64_t fewest = 10;
  constexpr double least_difference = 0.05;
  constexpr double standard_errors = 3.0;
  Drift drift;
  drift.difference = lot.mean() - other_mean;
  drift.standard_error = std::sqrt(variance_of_mean(lot) + other_variance);
  drift.is_drift = lot.count >= fewest && other_count >= fewest && std::abs(drift.difference) >= least_difference &&
                   std::abs(drift.difference) >= standard_errors * drift.standard_error;
  return drift;
}

/// The lots with two places or more, from the lowest mean to the highest.
std::vector<LotPlaces> lots_in_order(const KindSummary& kind, std::string_view rule) {
  std::vector<LotPlaces> lots;
  for (const auto& [name, population] : kind.lots) {
    const auto found = population.rules.find(rule);
    if (found == population.rules.end() || found->second.places.count < 2) continue;
    lots.push_back({&name, &found->second.places, found->second.places.mean()});
  }
  std::stable_sort(lots.begin(), lots.end(),
                   [](const LotPlaces& one, const LotPlaces& other) { return one.mean < other.mean; });
  return lots;
}

/// The median of the means weighs lots alike. Its variance is that of the middle lot, or of the mean of the middle two;
/// a median of k normal means scatters by pi/2 of a mean's variance over k (large k, Kenney and Keeping, Mathematics of
/// Statistics, 1962, from memory), so the middle's own is on the safe side from three lots on.
struct Middle {
  double mean = 0.0;
  double variance = 0.0;
  std::uint64_t count = 0;
};

Middle middle_of(const std::vector<LotPlaces>& lots) {
  const LotPlaces& upper = lots[lots.size() / 2];
  const LotPlaces& lower = lots[(lots.size() - 1) / 2];
  Middle middle{0.5 * (lower.mean + upper.mean),
                0.25 * (variance_of_mean(*lower.places) + variance_of_mean(*upper.places)), 0};
  if (&upper == &lower) middle.variance *= 2.0;
  for (const LotPlaces& lot : lots) middle.count += lot.places->count;
  return middle;
}

}  // namespace

LotComparison compare_lots(const KindSummary& kind, std::string_view rule) {
  LotComparison comparison;
  const std::vector<LotPlaces> lots = lots_in_order(kind, rule);
  if (lots.size() < 2) return comparison;
  if (lots.size() == 2) {
    for (const auto& [lot, other] : {std::pair(lots[0], lots[1]), std::pair(lots[1], lots[0])})
      comparison.lots[*lot.name] =
          drift_between(*lot.places, other.mean, variance_of_mean(*other.places), other.places->count);
    comparison.two_alone = comparison.lots.begin()->second.is_drift;
    return comparison;
  }
  const Middle middle = middle_of(lots);
  for (const LotPlaces& lot : lots)
    comparison.lots[*lot.name] =
        drift_between(*lot.places, middle.mean, middle.variance, middle.count - lot.places->count);
  return comparison;
}

}  // namespace ohmwright::batch
