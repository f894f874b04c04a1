#include <ohmwright/component/contact_seen.hpp>

namespace ohmwright {

ContactSeen contact_seen(double ohms) {
  if (ohms <= closed_up_to_ohms) return ContactSeen::closed;
  if (ohms < poor_up_to_ohms) return ContactSeen::poor;
  if (ohms < leaking_up_to_ohms) return ContactSeen::leaking;
  return ohms >= leaking_up_to_ohms ? ContactSeen::open : ContactSeen::nothing;  // not a number is nothing
}

ContactSeen contact_seen(const PreparedReading& reading) {
  switch (reading.shown) {
    case Shown::contact_closed:
      return ContactSeen::closed;
    case Shown::contact_open:
    case Shown::over_range:
      return ContactSeen::open;
    case Shown::value:
      return contact_seen(reading.value.value());
  }
  return ContactSeen::nothing;
}

}  // namespace ohmwright
