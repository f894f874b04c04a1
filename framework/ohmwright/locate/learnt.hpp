#pragma once

#include <span>
#include <vector>

#include <boost/container/small_vector.hpp>

#include <ohmwright/locate/contact_states.hpp>
#include <ohmwright/locate/error_source.hpp>
#include <ohmwright/locate/prediction.hpp>
#include <ohmwright/locate/shared_errors.hpp>

namespace ohmwright::locate {

/// What readings taken together teach of an instance, if it is true: of the errors that they share, and of the contacts
/// that stay as they were found. Those taken are weighed by it one after the other, those to come are expected by it.
class Learnt {
 public:
  /// Probability (a density on the scale, for a value) that a reading which comes out in one of these ways was meant as
  /// it was seen, given what was learnt before. Then takes it in, where it was most likely meant; `misread` is its
  /// likelihood as a slip.
  double take_in(std::span<const PredictedOutcome> outcomes, const SeenReading& seen, Probe probe, double misread,
                 const ReadingModel& model);

  /// The set-up was brought about anew: whether it took this time, no reading before tells.
  void forget_set_up(std::size_t set_up) { contacts_.forget(source::of_set_up(set_up)); }

  /// Whether it says anything of what a reading that may come out in these ways will be.
  bool speaks_of(std::span<const PredictedOutcome> outcomes) const;
  /// These ways as they are to be expected now: how likely each is, where it lies and how wide.
  std::vector<PredictedOutcome> expected(std::span<const PredictedOutcome> outcomes) const;

 private:
  double likelihood_of_way(const PredictedOutcome& outcome, const SeenReading& seen, Probe probe,
                           const ReadingModel& model) const;

  SharedErrors errors_;
  ContactStates contacts_;
  boost::container::small_vector<double, 8> meant_;  ///< of the reading at hand, by its ways
};

}  // namespace ohmwright::locate
