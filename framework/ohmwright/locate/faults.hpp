#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <boost/container/static_vector.hpp>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright::locate {

/// Weights of faults in place of those that the kinds assume: by "part.fault", else "kind.fault", else the id of an
/// outside cause.
using WeightOverrides = std::map<std::string, double>;

/// What the weights stand for, and what else is assumed before anything is read (docs/arithmetic.md, "Finding the
/// fault"). All figures are assumptions, no source.
struct PriorSettings {
  double odds_of_unit_weight = 0.01;  ///< odds that a fault of weight 1 is there, before anything is known
  double nothing_wrong_weight = 0.5;  ///< weight of "nothing of all this is wrong", as of a fault
  double repaired_place = 4.0;        ///< factor for a part that was worked on before
  std::size_t most_faults = 2;        ///< at once, 1 to 5
};

/// One fault that a part of this appliance can have.
struct PossibleFault {
  PartFault fault;
  double odds = 0.0;
  std::string_view assumed_by;  ///< source of its weight
  double with_volts = 1.0;      ///< share of its shocks and trips that the volts at its place bring about
};

/// A set of faults that may explain what is seen: on screens a possible fault.
struct Candidate {
  static constexpr std::size_t most_faults = 5;

  boost::container::static_vector<std::uint16_t, most_faults> faults;  ///< indices into `FaultList::faults`
  std::optional<std::size_t> outside_cause;                            ///< index into `Appliance::outside_causes`
  double prior = 0.0;

  bool nothing_wrong() const { return faults.empty() && !outside_cause; }
};

/// Which parts are at fault, sorted, and 1 + the outside cause, 0 for none: fault modes of one part are one answer.
using AnswerKey = std::pair<std::vector<std::size_t>, std::size_t>;

/// Whether all that is at fault in `other` is in `key`, too; "nothing is wrong" is in nothing but itself.
bool takes_in(const AnswerKey& key, const AnswerKey& other);

/// Every fault and every candidate of an appliance with its prior probability.
class FaultList {
 public:
  /// `repaired` are the parts that were worked on before. Throws InputError for an override that names nothing, and
  /// where so many faults at once make more candidates than there is room for.
  FaultList(const Appliance& appliance, const PriorSettings& settings, const WeightOverrides& overrides = {},
            std::span<const std::size_t> repaired = {});

  const Appliance& appliance() const { return *appliance_; }
  std::span<const PossibleFault> faults() const { return faults_; }
  std::span<const Candidate> candidates() const { return candidates_; }

  /// The fault that a part has in a candidate, or `not_found`.
  std::uint16_t fault_of(const Candidate& candidate, std::size_t part) const;
  AnswerKey answer_of(const Candidate& candidate) const;
  const FaultModeDescriptor& mode(std::size_t fault) const;
  /// "heater.open"
  std::string name(std::size_t fault) const;

 private:
  void add_faults(const PriorSettings& settings, const WeightOverrides& overrides,
                  std::span<const std::size_t> repaired);
  void add_candidates(const PriorSettings& settings, const WeightOverrides& overrides);
  void add_candidate(std::span<const std::size_t> set, std::optional<std::size_t> outside, double odds);
  bool is_effect(std::size_t fault, std::size_t outside) const;
  double odds_of(std::span<const std::size_t> set, std::optional<std::size_t> outside) const;

  const Appliance* appliance_;
  std::vector<PossibleFault> faults_;
  std::vector<Candidate> candidates_;
};

}  // namespace ohmwright::locate
