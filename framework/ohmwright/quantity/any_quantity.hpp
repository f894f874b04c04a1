#pragma once

#include <cassert>

#include <ohmwright/quantity/dimension.hpp>

namespace ohmwright {

/// A physical value whose dimension is known at run time: what files, arguments and the plugin boundary carry.
///
/// Held as a number in the SI unit of its dimension. Converts from every static quantity type, and back with `as`.
class AnyQuantity {
 public:
  constexpr AnyQuantity(Dimension dimension, double value_in_si) : value_in_si_(value_in_si), dimension_(dimension) {}

  // A static quantity is one, so the conversion is implicit. Nothing else converts: a bare number has no unit.
  template <StaticQuantity Quantity>
  constexpr AnyQuantity(Quantity value) : value_in_si_(value.value()), dimension_(dimension_of<Quantity>) {}
  constexpr AnyQuantity(Temperature value) : value_in_si_(value.kelvin()), dimension_(Dimension::temperature) {}

  /// What the value measures.
  constexpr Dimension dimension() const { return dimension_; }
  /// The number in `si_unit_of(dimension())`. (Not called si_value, since <signal.h> makes that a macro.)
  constexpr double value_in_si() const { return value_in_si_; }

  /// The value as a static type. The caller has made sure of the dimension (parsing does): anything else is our
  /// mistake.
  template <StaticQuantity Quantity>
  Quantity as() const {
    assert(dimension_ == dimension_of<Quantity>);
    if constexpr (std::is_same_v<Quantity, Temperature>) {
      return Temperature::from_kelvin(value_in_si_);
    } else {
      return Quantity::from_value(value_in_si_);
    }
  }

  friend constexpr bool operator==(AnyQuantity, AnyQuantity) = default;

 private:
  double value_in_si_;
  Dimension dimension_;
};

}  // namespace ohmwright
