#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <tuple>
#include <vector>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/locate/learnt.hpp>
#include <ohmwright/locate/prediction.hpp>

namespace ohmwright::locate {

/// A reading as it is weighed, with the readings given that it stands for.
struct WeighedReading {
  Measurement measurement;
  Probe probe = Probe::ohms;
  SeenReading seen;
  bool is_planned = false;
  std::vector<std::size_t> given;
  std::size_t values = 0;  ///< how many of them `seen.at` is the mean of
  /// Its set-up was brought about more than once: in one and the same, no measurement reads one way and then another.
  bool is_of_many_set_ups = false;
};

/// What a reading says; the test leads' resistance is subtracted from ohms. Nothing where it says nothing: OL of volts.
std::optional<SeenReading> seen_reading(const TakenReading& reading, Probe probe, const Meter& meter);

/// Whether two readings of one measurement are the same but for what fingers and contacts do, and for ranges that were
/// too low: OL on one and a value above it on the next.
bool agree(const SeenReading& a, const SeenReading& b);

/// Whether they agree or, of classes of readings of a plan, may: some reading is in both.
bool may_agree(const SeenReading& a, const SeenReading& b);

/// Whether another of the readings is of the same measurement and may agree with this one: it was no slip, then.
bool was_read_twice_alike(const Prober& prober, std::span<const TakenReading> readings, std::size_t reading);

/// At how many test points ohms were read when all of them showed an open way; none where one showed anything else. A
/// broken test lead, the wrong jack or a flat battery shows OL everywhere: one cause for all, and no fault of a part.
std::size_t points_that_all_show_open(const Prober& prober, std::span<const TakenReading> readings);

/// A measurement as something to sort and look up by.
std::tuple<std::size_t, std::size_t, bool> place_of(const Measurement& measurement);

/// The readings, those of one measurement that agree as one: their errors are the same. In one order, whatever theirs.
std::vector<WeighedReading> join_repeats(const Prober& prober, std::span<const TakenReading> readings);

/// Of readings together, if an instance is true.
struct JointLikelihood {
  /// Times two to the power of `exponent`: the product over very many readings has no place in a number.
  double of_all = 1.0;
  int exponent = 0;
  std::vector<double> misread;  ///< by reading: probability that it was a slip
};

/// `predictions` are what the instance says of each reading. What each of them teaches of errors that readings share
/// and of contacts goes into `learnt`, by which the next one is weighed.
JointLikelihood likelihood_of_all(std::span<const WeighedReading> readings,
                                  std::span<const std::vector<PredictedOutcome>* const> predictions,
                                  const ReadingModel& model, Learnt& learnt);

}  // namespace ohmwright::locate
