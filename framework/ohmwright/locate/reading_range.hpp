#pragma once

#include <optional>
#include <string>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/locate/diagnosis.hpp>

namespace ohmwright::locate {

/// What OL of ohms is more than.
struct OverRangeLimit {
  double ohm = 0.0;
  /// False where the user turns to a range and did not say which: it is more than the smallest one's top, no more.
  bool is_known = true;
};

/// The range that was set, else the largest of a meter that tries them all, else the top of the smallest.
OverRangeLimit over_range_limit(const Meter& meter, const std::optional<AnyQuantity>& set_range);

/// The range that the display itself told, by its end ("> 20 kohm") or by the unit beside OL ("OL kohm": the largest
/// that shows its values with it).
std::optional<AnyQuantity> range_told_by(const OverRange& over, const Meter& meter);

/// Whether it is OL of ohms on a range that nobody stated: it condemns nothing until somebody does.
bool is_of_unknown_range(const TakenReading& reading, Probe probe, const Meter& meter);

/// Standard uncertainty that a value has past that of the smallest range that shows it, for having been read on a
/// larger one [SI]; 0 where no range was stated.
double uncertainty_of_range(const Meter& meter, Probe probe, double value_in_si,
                            const std::optional<AnyQuantity>& set_range);

/// What a probe on bare metal adds [ohm], half-width of a rectangle (common practice, no source).
inline constexpr double probe_contact_ohm = 0.1;

/// Standard uncertainty [SI] of what is another at every reading of one value: the last digit, probes on bare metal.
double uncertainty_of_repeat(const Meter& meter, Probe probe, double value_in_si);

/// Throws InputError, `label` first, for a range that the meter has not or that cannot show the value.
void refuse_impossible_range(const TakenReading& reading, Probe probe, const Meter& meter, const std::string& label);

}  // namespace ohmwright::locate
