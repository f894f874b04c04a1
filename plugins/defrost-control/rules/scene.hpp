#pragma once

#include <string_view>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/verdict/decision.hpp>

#include "part/control_ratings.hpp"
#include "rules/contact_grid.hpp"
#include "rules/load.hpp"
#include "rules/names.hpp"

namespace ohmwright::defrost_control {

/// Everything that the rules of one call to `judge` share.
struct Scene {
  const ControlRatings* ratings;  ///< null: nothing is known of the part
  const Evidence& evidence;
  const JudgeSettings& settings;
  Findings& findings;
  ContactGrid grid;
  OutputSeen seen_output;  ///< under load

  Scene(const ControlRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out);

  /// Of a good closed contact [ohm]; of one of which nothing is known 0.2 ohm (common practice, no source).
  double most_ohms_of_contact() const {
    return (ratings == nullptr ? ControlRatings{}.contact_resistance : ratings->contact_resistance).value();
  }
  bool is_timer() const { return ratings != nullptr && ratings->is_timer(); }
  bool is_board() const { return ratings != nullptr && !ratings->is_timer(); }
  bool sure(double probability) const { return probability >= settings.confidence; }
};

/// The last reading of a measurand that shows a value and was not taken live, or null.
const PreparedReading* last_dead(const Evidence& evidence, MeasurandIndex measurand);

/// Whether a reading says that in the time watched nothing moved on.
inline bool stood(const PreparedReading& reading) {
  const std::optional<std::uint16_t> seen = reading.state(moved);
  return seen == std::optional<std::uint16_t>(stood_still) || seen == std::optional<std::uint16_t>(shaft_stood_still);
}

/// Whether a mark on its shaft stands where it stood: a cam creeps on all the time that its motor has power.
inline bool shaft_stood(const PreparedReading& reading) {
  return reading.state(moved) == std::optional<std::uint16_t>(shaft_stood_still);
}

/// Puts an estimate and its limits into a finding; an infinite limit is none.
void put_judged(Finding& finding, const Estimate& estimate, double lower, double upper, Dimension dimension,
                const Conformance& p);

inline AnyQuantity volts(double value) { return {Dimension::voltage, value}; }
inline AnyQuantity amperes(double value) { return {Dimension::current, value}; }
inline AnyQuantity watts(double value) { return {Dimension::power, value}; }
inline AnyQuantity seconds(double value) { return {Dimension::duration, value}; }
inline AnyQuantity hertz(double value) { return {Dimension::frequency, value}; }

}  // namespace ohmwright::defrost_control
