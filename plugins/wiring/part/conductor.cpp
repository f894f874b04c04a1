#include "part/conductor.hpp"

#include <array>
#include <cassert>

namespace ohmwright::wiring {

namespace {

/// A row of IEC 60228 [ohm/km].
struct Row {
  std::string_view name;
  double square_millimetres;
  double plain_stiff;  ///< classes 1 and 2
  double coated_stiff;
  double plain_flexible;  ///< class 5
  double coated_flexible;
};

constexpr std::array<Row, 7> table{{
    {"0.5", 0.5, 36.0, 36.7, 39.0, 40.1},
    {"0.75", 0.75, 24.5, 24.8, 26.0, 26.7},
    {"1", 1.0, 18.1, 18.2, 19.5, 20.0},
    {"1.5", 1.5, 12.1, 12.2, 13.3, 13.7},
    {"2.5", 2.5, 7.41, 7.56, 7.98, 8.21},
    {"4", 4.0, 4.61, 4.70, 4.95, 5.09},
    {"6", 6.0, 3.08, 3.11, 3.30, 3.39},
}};

constexpr double metres_of_kilometre = 1000.0;
/// Annealed copper at 20 °C [ohm mm²/m].
constexpr double resistivity_of_copper = 1.0 / 58.0;

const Row& row_of(const Conductor& conductor) {
  for (const Row& row : table)
    if (row.square_millimetres == conductor.square_millimetres) return row;
  assert(false && "a cross-section comes from cross_section_named");
  return table.front();
}

}  // namespace

std::optional<double> cross_section_named(std::string_view name) {
  for (const Row& row : table)
    if (row.name == name) return row.square_millimetres;
  return std::nullopt;
}

double most_ohms_per_metre(const Conductor& conductor) {
  const Row& row = row_of(conductor);
  const bool plain = conductor.metal == Metal::plain_copper;
  if (conductor.stranding == Stranding::flexible)
    return (plain ? row.plain_flexible : row.coated_flexible) / metres_of_kilometre;
  return (plain ? row.plain_stiff : row.coated_stiff) / metres_of_kilometre;
}

double copper_ohms_per_metre(const Conductor& conductor) {
  return resistivity_of_copper / conductor.square_millimetres;
}

double copper_factor(Temperature t) { return 1.0 + copper_gain_per_kelvin * (t.celsius() - 20.0); }

}  // namespace ohmwright::wiring
