#pragma once

#include <span>
#include <string_view>

namespace ohmwright::heater {

/// A class of heaters seen in appliances, without a brand.
struct GenericClass {
  std::string_view name;  ///< of its file among the ratings
  double volt = 0.0;
  double watt = 0.0;

  double ohms() const { return volt * volt / watt; }
};

/// The classes of ratings/, for parts of which nothing is known.
std::span<const GenericClass> generic_classes();

}  // namespace ohmwright::heater
