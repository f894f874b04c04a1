#pragma once

#include <boost/container/static_vector.hpp>

#include <ohmwright/uncertainty/fusion.hpp>

#include "rules/scene.hpp"

namespace ohmwright::kind_file {

/// A reading that a rule on limits can be judged by.
struct MovedReading {
  const PreparedReading* reading = nullptr;
  double factor = 1.0;       ///< by which the limits at the reference are multiplied where it was taken
  std::optional<double> at;  ///< the condition there that is told [SI]
  ConditionValues conditions{};
};

/// What the readings of a measurand offer to a rule on limits.
struct LimitsReadings {
  boost::container::static_vector<MovedReading, most_fused> usable;
  boost::container::static_vector<Estimate, most_fused> at_reference;  ///< the usable ones, moved there
  double rest_apart = 0.0;  ///< how far one that no longer fitted in lies off, in standard uncertainties
  double shown = 0.0;       ///< how many values these are, with the repeats of each
  bool jumping = false;     ///< the repeats of one of them
  const PreparedReading* over_range = nullptr;  ///< the one of the widest range
  bool connection_unstated = false;             ///< of one of those two
  bool in_circuit = false;
  bool live = false;
  bool wet = false;
  bool no_condition = false;
  bool out_of_reach = false;

  bool any_alone() const { return !usable.empty() || over_range != nullptr || no_condition || out_of_reach; }
};

/// `difference` stands for a measurand that was not read, or is null; it has to outlive what is returned.
LimitsReadings limits_readings(const Scene& scene, std::uint16_t rule, const PreparedReading* difference = nullptr);

/// The difference that stands for the rule's measurand; nothing where its file names none, where the measurand was read
/// itself, where one of the two was not, or where nothing is left. The error that both share goes out.
std::optional<PreparedReading> difference_reading(const Scene& scene, std::uint16_t rule);

/// The conditions that a movement needs, as they were where the reading was taken; nothing where one was not given.
std::optional<ConditionValues> conditions_of(const Movement& movement, const PreparedReading& reading);

/// The limit of a good part where the reading was taken, with the errors of its condition [SI].
Estimate moved_limit(const LimitsForm& form, const KnownRule& rule, const PreparedReading& reading, double limit);

}  // namespace ohmwright::kind_file
