#include <algorithm>
#include <cmath>

#include <ohmwright/component/reading_questions.hpp>

namespace ohmwright {

namespace {

bool same_within_errors(const PreparedReading& a, const PreparedReading& b, double share) {
  if (shows_more_than_range(a) || shows_more_than_range(b)) return shows_more_than_range(a) && shows_more_than_range(b);
  if (a.shown != Shown::value || b.shown != Shown::value) return a.shown == b.shown;
  Estimate difference = a.value;
  difference.add_scaled(b.value, -1.0);
  const double allowed = 2.0 * difference.standard_uncertainty() + share * std::abs(a.value.value());
  return std::abs(difference.value()) <= allowed;
}

}  // namespace

bool is_within_lead_resistance(const PreparedReading& reading, const LeadReach& reach) {
  if (reading.shown == Shown::contact_closed) return true;
  if (reading.shown != Shown::value || reading.meter_half_width > reach.coarsest_ohms) return false;
  // Not the scatter of repeats: readings of 11 and 110 kohm have much of it and are no short.
  const double leads = reading.lead_resistance + reading.lead_half_width + reading.meter_half_width;
  return reading.displayed <= std::max(leads, reach.smallest_ohms);
}

const PreparedReading* last_value(const Evidence& evidence, std::uint16_t measurand) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : evidence.readings())
    if (reading.measurand == measurand && reading.shown == Shown::value) last = &reading;
  return last;
}

bool swapped_probes_agree(const Evidence& evidence, const PreparedReading& reading, std::uint16_t swapped,
                          double share) {
  const auto readings = evidence.readings();
  return std::any_of(readings.begin(), readings.end(), [&](const PreparedReading& other) {
    return other.measurand == swapped && !is_live(other) && same_within_errors(reading, other, share);
  });
}

}  // namespace ohmwright
