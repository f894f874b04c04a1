#include <ohmwright/cycles/log_row.hpp>
#include <ohmwright/quantity/letter_case.hpp>

namespace ohmwright::cycles {

std::string_view name_of(LogQuantity quantity) {
  switch (quantity) {
    case LogQuantity::coil_temperature:
      return "coil_temperature";
    case LogQuantity::cabinet_temperature:
      return "cabinet_temperature";
    case LogQuantity::power:
      return "power";
    case LogQuantity::current:
      return "current";
  }
  return "";
}

std::optional<LogQuantity> log_quantity_named(std::string_view name) {
  const std::string spoken = spoken_name(name);
  for (const LogQuantity quantity : log_quantities)
    if (spoken_name(name_of(quantity)) == spoken) return quantity;
  return std::nullopt;
}

Dimension measured_dimension(LogQuantity quantity) {
  switch (quantity) {
    case LogQuantity::power:
      return Dimension::power;
    case LogQuantity::current:
      return Dimension::current;
    default:
      return Dimension::temperature;
  }
}

}  // namespace ohmwright::cycles
