#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include <ohmwright/locate/search.hpp>

namespace ohmwright::locate::testing {

/// A search so small that every way through it can be walked: what may be wrong, each with what every measurement
/// shows of it. Outcomes are binned: the middles of what is predicted, each with the share of its density there among
/// all of them. A measurement is made once at most. Whether parts are named is for the search to say.
class SmallWorld {
 public:
  /// `search` is fresh and outlives the world. Live measurements count if its settings allow them.
  explicit SmallWorld(Search& search);

  /// Minutes to be expected until parts are named or no step is left, if the first of the steps offered is taken.
  double minutes_of_policy();
  /// The least that any choice of measurements can reach, by dynamic programming.
  double least_minutes();

  std::size_t hypotheses() const { return weights_.size(); }
  std::size_t measurements() const { return measurements_.size(); }
  std::size_t states() const { return standings_.size(); }

 private:
  /// Readings taken: measurement and bin, in the order of the measurements.
  using Seen = std::vector<std::pair<std::size_t, std::size_t>>;
  /// Probability of a bin for one hypothesis.
  using BinShares = std::vector<double>;
  void add_measurement(const Measurement& measurement);
  Observed shown(std::size_t measurement, std::size_t bin) const;
  void think(const Seen& seen, const std::vector<std::size_t>& order);
  bool is_over(const Seen& seen);
  /// By bin: its probability after what was seen.
  std::vector<double> chances(const Seen& seen, std::size_t measurement) const;
  double policy_from(const Seen& seen, const std::vector<std::size_t>& order);
  double least_from(const Seen& seen, const WorkState& work);

  Search& search_;
  const Appliance& appliance_;
  std::vector<double> weights_;  ///< by hypothesis
  std::vector<std::size_t> instances_;
  std::vector<Measurement> measurements_;
  std::vector<std::vector<SeenReading>> bins_;  ///< by measurement
  std::vector<std::vector<BinShares>> shares_;  ///< by measurement and hypothesis
  std::map<Seen, bool> standings_;
  std::map<std::pair<Seen, std::vector<std::size_t>>, double> least_;
};

}  // namespace ohmwright::locate::testing
