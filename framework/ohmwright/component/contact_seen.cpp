#include <ohmwright/component/contact_seen.hpp>

namespace ohmwright {

ContactSeen contact_seen(double ohms) {
  if (ohms <= closed_up_to_ohms) return ContactSeen::closed;
  if (ohms < poor_up_to_ohms) return ContactSeen::poor;
  if (ohms < leaking_up_to_ohms) return ContactSeen::leaking;
  return ohms >= leaking_up_to_ohms ? ContactSeen::open : ContactSeen::nothing;  // not a number is nothing
}

namespace {

/// "More than 20 ohm" is no open contact, and an OL of which the range is not known says nothing.
bool is_past_a_bad_contact(const PreparedReading& reading) { return reading.range_full_scale >= poor_up_to_ohms; }

/// On a range of megohms a closed contact and one of a kilohm both show nothing but noughts.
bool is_too_coarse(const PreparedReading& reading) {
  return reading.meter_half_width > closed_up_to_ohms &&
         reading.displayed - reading.meter_half_width <= closed_up_to_ohms;
}

}  // namespace

ContactSeen contact_seen(const PreparedReading& reading) {
  switch (reading.shown) {
    case Shown::contact_closed:
      return ContactSeen::closed;
    case Shown::contact_open:
      return ContactSeen::open;
    case Shown::over_range:
      return is_past_a_bad_contact(reading) ? ContactSeen::open : ContactSeen::nothing;
    case Shown::value:
      return is_too_coarse(reading) ? ContactSeen::nothing : contact_seen(reading.value.value());
  }
  return ContactSeen::nothing;
}

}  // namespace ohmwright
