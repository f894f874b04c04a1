#pragma once

#include <cstdint>
#include <span>

#include <boost/container/small_vector.hpp>

#include <ohmwright/locate/prediction.hpp>

namespace ohmwright::locate {

/// What readings taken together tell of the contacts that may be either way, if an instance is true: a relay that was
/// found closed is still closed at the next test point. At another temperature nothing is known of it. Each contact by
/// itself: that two of them move together, which a reading may tell, is not kept.
class ContactStates {
 public:
  /// Probability of that way, given what was learnt of its contacts [0…1].
  double weight_of(const PredictedOutcome& outcome) const;

  /// Takes in a reading. `meant`: its probability with each of the ways; `misread`: with none of them, after which
  /// nothing is known that was not known before.
  void learn(std::span<const PredictedOutcome> outcomes, std::span<const double> meant, double misread);

 private:
  struct Known {
    std::uint64_t source = 0;
    double open = 0.0;  ///< probability
  };
  double share_of(const StandingContact& state) const;
  /// Probability that it is open, after a reading.
  double open_after(const StandingContact& contact, std::span<const PredictedOutcome> outcomes,
                    std::span<const double> meant, double misread) const;

  boost::container::small_vector<Known, 4> known_;
};

}  // namespace ohmwright::locate
