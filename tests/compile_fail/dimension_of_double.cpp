// Only the quantity types have a dimension.
#include <ohmwright/quantity/any_quantity.hpp>

namespace ohmwright {

#ifdef OHMWRIGHT_POSITIVE_CONTROL
constexpr Dimension dimension = dimension_of<Resistance>;
#else
constexpr Dimension dimension = dimension_of<double>;
#endif

}  // namespace ohmwright
