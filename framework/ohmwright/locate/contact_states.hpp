#pragma once

#include <cstdint>
#include <span>

#include <boost/container/small_vector.hpp>

#include <ohmwright/locate/prediction.hpp>

namespace ohmwright::locate {

/// What readings taken together tell of the contacts that may be either way, if an instance is true: a relay that was
/// found closed is still closed at the next test point, and a burnt contact of 20 ohm has 20 ohm there, too. At another
/// temperature nothing is known of it. A set-up that did not take at one test point has not taken at the next. Each of
/// them by itself: that two of them move together, which a reading may tell, is not kept.
class ContactStates {
 public:
  /// Probability of that way, given what was learnt of its contacts [0…1].
  double weight_of(const PredictedOutcome& outcome) const;
  /// Whether a reading said anything of a contact of that way.
  bool speaks_of(const PredictedOutcome& outcome) const;

  /// Takes in a reading. `meant`: its probability with each of the ways; `misread`: with none of them, after which
  /// nothing is known that was not known before.
  void learn(std::span<const PredictedOutcome> outcomes, std::span<const double> meant, double misread);
  /// Nothing of it is known any more.
  void forget(std::uint64_t source);

 private:
  /// A resistance that a closed contact may have, with its probability if it is closed.
  struct Ohms {
    double ohm = 0.0;
    double probability = 0.0;
  };
  using AllOhms = boost::container::small_vector<Ohms, 8>;
  struct Known {
    std::uint64_t source = 0;
    double open = 0.0;  ///< probability
    AllOhms ohms;       ///< empty for a contact that has one resistance whenever it is closed
  };
  const Known* find(std::uint64_t source) const;
  double probability_of(const StandingContact& state) const;
  double probability_of_ohm(const StandingContact& state) const;
  /// Probability that it is open, after a reading.
  double open_after(const StandingContact& contact, std::span<const PredictedOutcome> outcomes,
                    std::span<const double> meant, double misread) const;
  /// Resistances of it while it is closed, after a reading.
  AllOhms ohms_after(const StandingContact& contact, std::span<const PredictedOutcome> outcomes,
                     std::span<const double> meant, double misread) const;

  boost::container::small_vector<Known, 4> known_;
};

}  // namespace ohmwright::locate
