#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string_view>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/uncertainty/function_ref.hpp>

namespace ohmwright {

// Ohms read with everything connected are judged alike whatever the part. Another path can only lower what it reads, so
// nothing read in circuit passes it. Too much condemns it: at points proved dead, with the probes swapped to the same
// effect, and where nothing that was read of it alone says otherwise.

/// What the part read otherwise (alone, or under its load) says beside a reading in circuit.
enum class ReadAlone : std::uint8_t {
  no,        ///< not read so
  unstated,  ///< not condemned by that, but nobody said whether a lead was off
  right,     ///< not condemned by that, its leads said to be off
  wrong,     ///< condemned by that already
};

/// The same by the outcome of that judgement.
constexpr ReadAlone read_alone(Outcome outcome, bool stated_off) {
  if (outcome == Outcome::out_of_limits) return ReadAlone::wrong;
  return stated_off ? ReadAlone::right : ReadAlone::unstated;
}

/// One reading in circuit, held against a good part where it was read.
struct SeenInCircuit {
  double reads_so_high = 1.0;        ///< P(a good part reads as much or more) [0…1]
  double reads_so_low = 1.0;         ///< P(a good part reads as little or less) [0…1]
  std::optional<double> lower = {};  ///< what a good part has at least there, where a sentence tells it [ohm]
  std::optional<double> upper = {};  ///< what it has at most there [ohm]
  ReadAlone read_alone = ReadAlone::no;
};

/// The chances for a reading of ohms between limits that may have doubts of their own [ohm]; `lower` may be null: there
/// is no such limit. A reading past its range is held against `upper`.
OHMWRIGHT_CORE_API SeenInCircuit seen_between(const PreparedReading& reading, const Estimate* lower,
                                              const Estimate& upper, std::span<const ErrorSource> sources);

/// The texts that a rule on readings in circuit begins with, made in this order by `in_circuit_rule`; a kind's own
/// follow from `first_own` on.
struct InCircuitText {
  enum : TextIndex {
    everything_between_probes,  ///< the only one that condemns
    high_not_proved,
    swapped_differ,
    right_alone,
    right_where_unstated,
    low_means_nothing,
    clears_nothing,
    beside_others,
    not_comparable,
    no_in_circuit,
    only_live,
    first_own,
  };
};

/// A kind's own wording of those texts; empty: ours, in which {upper} stands. {lower} and {upper} may stand in those of
/// a reading that is held against limits.
struct InCircuitWording {
  std::string_view everything_between_probes;  ///< has to be given: it names what lies between the probes
  std::string_view clears_nothing;             ///< has to be given: it names what a path beside it may hide
  std::string_view high_not_proved = {};
  std::string_view swapped_differ = {};
  std::string_view right_alone = {};
  std::string_view right_where_unstated = {};
  std::string_view low_means_nothing = {};
  std::string_view beside_others = {};
  std::string_view not_comparable = {};
};

/// The rule "in-circuit" of a kind, with its texts and then the kind's own.
OHMWRIGHT_CORE_API RuleDescriptor in_circuit_rule(const InCircuitWording& wording,
                                                  std::initializer_list<TextEntry> own = {});

/// For a kind that has no more to tell than `judge_in_circuit` tells.
inline void nothing_more_to_tell(const PreparedReading& /*reading*/, Finding& /*finding*/) {}

/// What a kind says of its part. The functions are called in `judge_in_circuit` and not kept.
struct InCircuitRule {
  std::uint16_t rule = 0;                              ///< index into `Descriptor::rules`
  FunctionRef<bool(const PreparedReading&)> is_of_it;  ///< whether that measurand is one that the rule is on
  std::uint16_t swapped = not_found;  ///< measurand: the same with swapped probes; without one it is not asked for
  std::uint16_t volts = not_found;    ///< measurand: volts between the points, near zero of which prove them dead too
  /// Nothing where it cannot be compared: no ratings, no temperature.
  FunctionRef<std::optional<SeenInCircuit>(const PreparedReading&)> see;
  /// Tells what the kind's own sentences need, and may take another text than ours; never another outcome.
  FunctionRef<void(const PreparedReading&, Finding&)> tell = nothing_more_to_tell;
};

/// Judges every reading in circuit that the rule is on and adds a finding for each, or one silent finding. Allocates
/// nothing.
OHMWRIGHT_CORE_API void judge_in_circuit(const InCircuitRule& rule, const Evidence& evidence,
                                         const JudgeSettings& settings, Findings& findings);

/// Whether it left something open for want of points proved dead and probes swapped. `own`: texts that the kind took in
/// place of `high_not_proved`.
OHMWRIGHT_CORE_API bool asks_to_prove_dead_and_swap(const Findings& findings, std::uint16_t rule,
                                                    std::initializer_list<TextIndex> own = {});

/// Whether it left something open that the part read alone would tell. `own`: texts that the kind took in place of
/// `right_alone`.
OHMWRIGHT_CORE_API bool asks_to_read_alone(const Findings& findings, std::uint16_t rule,
                                           std::initializer_list<TextIndex> own = {});

}  // namespace ohmwright
