#pragma once

#include <span>
#include <vector>

#include <ohmwright/course/bench.hpp>
#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/locate/faults.hpp>

namespace ohmwright::course {

/// What the engine makes of readings at a bench, whoever took them. Keeps its predictions, so that the work of a second
/// student at the same bench is cheap. Belongs to one thread.
class Reasoning {
 public:
  /// Both must outlive it. Takes the faults that `faults_at` the bench finds.
  Reasoning(const Bench& bench, const Meter& meter);
  /// With these faults, made of the bench's appliance.
  Reasoning(const Bench& bench, const Meter& meter, locate::FaultList faults);

  const locate::FaultList& faults() const { return faults_; }

  locate::Diagnosis after(std::span<const locate::TakenReading> readings, const locate::Signs& looks);

  /// Probability that exactly these parts (by index, ascending) are at fault, whatever else outside of them is; of
  /// none: that no part is.
  double probability_of(const locate::Diagnosis& diagnosis, std::span<const std::size_t> parts) const;

  /// Probability that these parts are at fault, whatever else is: a worn fan that still turns shows in no reading, and
  /// must not hide what does.
  double probability_of_at_least(const locate::Diagnosis& diagnosis, std::span<const std::size_t> parts) const;

  /// Whether these parts, and no others that show, are told to be at fault: that they are with `decided_probability`,
  /// that nothing else is with `least_tellable`.
  bool is_told(const locate::Diagnosis& diagnosis, std::span<const std::size_t> parts) const;

 private:
  std::vector<std::size_t> parts_of_candidate(std::size_t candidate) const;

  locate::FaultList faults_;
  locate::Prober prober_;
  locate::Reasoner reasoner_;
};

/// Of the parts on the table, this share is good.
inline constexpr double good_on_the_table = 1.0 / 3.0;

/// The faults that an exercise at the bench may hide and its answers may name, with their prior probabilities.
///
/// Of an appliance all that `locate` considers. Of a part on the table those that come neither and go nor stay hidden
/// from an ohmmeter (told in at least one of eight trial draws of a stream of its own, so that it is the same for every
/// set and every passphrase), and the part is good with `good_on_the_table`, as it is drawn. All of them, where none
/// can be told.
locate::FaultList faults_at(const Bench& bench, const Meter& meter);

/// What is at fault if the candidate holds.
std::vector<PartFault> faults_of(const locate::FaultList& faults, const locate::Candidate& candidate);

/// The parts of faults, each once, ascending.
std::vector<std::size_t> parts_of(std::span<const PartFault> faults);

/// An answer counts as decided from here on: what `locate` calls likely.
inline constexpr double decided_probability = 0.95;
/// And that no other part is at fault, from here on: lower, as a second fault that shows in no reading may always be
/// there (assumed).
inline constexpr double least_tellable = 0.8;

}  // namespace ohmwright::course
