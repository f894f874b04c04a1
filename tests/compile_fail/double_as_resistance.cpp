// A bare number has no unit.
#include <ohmwright/quantity/units.hpp>

namespace ohmwright {

#ifdef OHMWRIGHT_POSITIVE_CONTROL
Resistance measured() { return 11e3 * si::ohms; }
#else
Resistance measured() { return 11e3; }
#endif

}  // namespace ohmwright
