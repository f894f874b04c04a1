#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <boost/container/static_vector.hpp>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/electrical.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>
#include <ohmwright/uncertainty/estimate.hpp>

namespace ohmwright {

/// A condition with its errors.
struct PreparedCondition {
  std::uint16_t condition = not_found;  ///< index into `Descriptor::conditions`
  Estimate value;                       ///< SI unit of the condition
};

/// What the instrument showed.
enum class Shown : std::uint8_t { value, over_range, contact_open, contact_closed };

/// A reading turned into an estimate: leads subtracted, meter and conditions with their error sources.
struct PreparedReading {
  PreparedReading() = default;
  /// Leaves the room for conditions and states as it is: `PreparedReading{}` would first write kilobytes of noughts.
  explicit PreparedReading(std::uint16_t of_reading) : reading(of_reading) {}

  std::uint16_t reading = 0;  ///< index into the readings given
  /// Index into `Descriptor::measurands`; `not_found` where it is set aside and no rule sees it (swapped_probes.hpp).
  std::uint16_t measurand = not_found;
  Shown shown = Shown::value;
  Estimate value;                 ///< SI; only when a value is shown
  double displayed = 0.0;         ///< SI, before the leads were subtracted
  double range_full_scale = 0.0;  ///< SI: what over-range means, "more than this"
  double lead_resistance = 0.0;   ///< SI, with its half-width: below both a reading is a short
  double lead_half_width = 0.0;
  double meter_half_width = 0.0;  ///< SI: error limits of the instrument alone, without leads and scatter
  Connection connection = Connection::unstated;
  Moisture moisture = Moisture::unstated;
  Supply supply = Supply::unstated;
  boost::container::static_vector<PreparedCondition, most_conditions> conditions;
  boost::container::static_vector<StateValue, most_states> states;

  /// The condition with that index, or null.
  const Estimate* condition(std::uint16_t index) const {
    for (const PreparedCondition& c : conditions)
      if (c.condition == index) return &c.value;
    return nullptr;
  }
  /// Index of the value that the state had; nothing where it was not said.
  std::optional<std::uint16_t> state(std::uint16_t index) const {
    for (const StateValue& set : states)
      if (set.state == index) return set.value;
    return std::nullopt;
  }
};

/// Half-width of a duration that was read without a stated uncertainty, with a meter that shows none: noted by a watch
/// to the minute [s] (common practice, no source).
inline constexpr double watch_half_width = 60.0;

/// The readings of one part, ready to be judged: made once, judged as often as wanted.
class OHMWRIGHT_CORE_API Evidence {
 public:
  /// Turns readings into estimates (docs/arithmetic.md, "From reading to estimate").
  /// Throws InputError for a measurand, condition or state that the kind does not have, a value of another dimension, a
  /// meter that cannot read it, and more readings than one verdict can weigh.
  Evidence(const Descriptor& descriptor, std::span<const Reading> readings, const MeterSet& meters);

  std::span<const PreparedReading> readings() const { return prepared_; }
  std::span<const ErrorSource> sources() const { return sources_; }

  /// The source that stands for the doubt of the kind's own model (a curve outside its span); rectangular. A rule adds
  /// a term of it to what it judges; the same for all readings of a part, since one model is wrong in one way.
  static constexpr SourceIndex model_source = 0;

  /// The source of `Descriptor::error_sources` with that index; each is there once, for all readings of a part.
  static constexpr SourceIndex own_source(std::uint16_t index) { return static_cast<SourceIndex>(1 + index); }

  /// Puts a reading's label into a finding's argument: "reading 2".
  const std::string& label(const PreparedReading& reading) const { return labels_[reading.reading]; }

 private:
  friend class EvidenceBuilder;

  std::vector<PreparedReading> prepared_;
  std::vector<ErrorSource> sources_;
  std::vector<std::string> labels_;
};

}  // namespace ohmwright
