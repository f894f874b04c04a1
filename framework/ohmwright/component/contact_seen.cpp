#include <ohmwright/component/contact_seen.hpp>

namespace ohmwright {

ContactSeen contact_seen(double ohms, const ContactEndsInOhms& ends) {
  if (ohms <= ends.closed_up_to) return ContactSeen::closed;
  if (ohms < ends.poor_up_to) return ContactSeen::poor;
  if (ohms < ends.leaking_up_to) return ContactSeen::leaking;
  return ohms >= ends.leaking_up_to ? ContactSeen::open : ContactSeen::nothing;  // not a number is nothing
}

namespace {

/// "More than 20 ohm" is no open contact, and an OL of which the range is not known says nothing.
bool is_past_a_bad_contact(const PreparedReading& reading, const ContactEndsInOhms& ends) {
  return reading.range_full_scale >= ends.poor_up_to;
}

/// On a range of megohms a closed contact and one of a kilohm both show nothing but noughts.
bool is_too_coarse(const PreparedReading& reading, const ContactEndsInOhms& ends) {
  return reading.meter_half_width > ends.closed_up_to &&
         reading.displayed - reading.meter_half_width <= ends.closed_up_to;
}

}  // namespace

ContactSeen contact_seen(const PreparedReading& reading, const ContactEndsInOhms& ends) {
  switch (reading.shown) {
    case Shown::contact_closed:
      return ContactSeen::closed;
    case Shown::contact_open:
      return ContactSeen::open;
    case Shown::over_range:
      return is_past_a_bad_contact(reading, ends) ? ContactSeen::open : ContactSeen::nothing;
    case Shown::value:
      return is_too_coarse(reading, ends) ? ContactSeen::nothing : contact_seen(reading.value.value(), ends);
  }
  return ContactSeen::nothing;
}

}  // namespace ohmwright
