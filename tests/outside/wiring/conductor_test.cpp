#include "part/conductor.hpp"

#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "part/electrical_model.hpp"
#include "part/wiring_ratings.hpp"
#include "rules/names.hpp"

// IEC 60228, maximum resistance of conductors at 20 °C, as the tables of cable makers print it; IEC 60028 for copper;
// Ohm and Joule; a nodal analysis.

namespace ohmwright::wiring {
namespace {

struct Printed {
  const char* area;
  double plain_stiff, coated_stiff, plain_flexible, coated_flexible;  // ohm/km
};

constexpr std::array<Printed, 7> table{{
    {"0.5", 36.0, 36.7, 39.0, 40.1},
    {"0.75", 24.5, 24.8, 26.0, 26.7},
    {"1", 18.1, 18.2, 19.5, 20.0},
    {"1.5", 12.1, 12.2, 13.3, 13.7},
    {"2.5", 7.41, 7.56, 7.98, 8.21},
    {"4", 4.61, 4.70, 4.95, 5.09},
    {"6", 3.08, 3.11, 3.30, 3.39},
}};

double per_kilometre(const char* area, Metal metal, Stranding stranding) {
  return 1000.0 * most_ohms_per_metre({*cross_section_named(area), metal, stranding});
}

TEST(ConductorOutside, MostOhmsOfTheStandard) {
  for (const Printed& row : table) {
    EXPECT_NEAR(per_kilometre(row.area, Metal::plain_copper, Stranding::solid), row.plain_stiff, 1e-9) << row.area;
    EXPECT_NEAR(per_kilometre(row.area, Metal::plain_copper, Stranding::stranded), row.plain_stiff, 1e-9) << row.area;
    EXPECT_NEAR(per_kilometre(row.area, Metal::tinned_copper, Stranding::stranded), row.coated_stiff, 1e-9) << row.area;
    EXPECT_NEAR(per_kilometre(row.area, Metal::plain_copper, Stranding::flexible), row.plain_flexible, 1e-9)
        << row.area;
    EXPECT_NEAR(per_kilometre(row.area, Metal::tinned_copper, Stranding::flexible), row.coated_flexible, 1e-9)
        << row.area;
  }
}

// What annealed copper of the nominal area has lies below what the standard allows, and above three quarters of it: a
// row typed wrongly would stand out.
TEST(ConductorOutside, CopperHasLessThanIsAllowed) {
  for (const Printed& row : table) {
    const double copper = 1000.0 * copper_ohms_per_metre({*cross_section_named(row.area)});
    EXPECT_NEAR(copper, 17.241379 / std::stod(row.area), 1e-5);  // IEC 60028: 0.017241 ohm mm²/m at 20 °C
    EXPECT_LT(copper, row.plain_stiff);
    EXPECT_GT(copper, 0.75 * row.coated_flexible);
  }
}

// IEC 60028: 0.00393 /K at 20 °C. The correction factors of the standard are its inverse: 0.980 at 25 °C, 1.020 at
// 15 °C, 1.042 at 10 °C, 1.064 at 5 °C in three digits, of which the last two are those of 1/(1 + 0.004 (t - 20)).
TEST(ConductorOutside, CopperGainsWithHeat) {
  EXPECT_NEAR(copper_factor(Temperature::from_celsius(20.0)), 1.0, 1e-12);
  EXPECT_NEAR(copper_factor(Temperature::from_celsius(70.0)), 1.1965, 1e-12);
  EXPECT_NEAR(1.0 / copper_factor(Temperature::from_celsius(25.0)), 0.980, 1e-3);
  EXPECT_NEAR(1.0 / copper_factor(Temperature::from_celsius(15.0)), 1.020, 5e-4);
  EXPECT_NEAR(1.0 / copper_factor(Temperature::from_celsius(10.0)), 1.042, 2e-3);
  // Winding law with 234.5: the same copper, 0.1 % apart at most over the heat of an appliance.
  for (const double celsius : {-30.0, 0.0, 60.0, 105.0})
    EXPECT_NEAR(copper_factor(Temperature::from_celsius(celsius)), (234.5 + celsius) / 254.5, 1e-3);
}

// The sound splice and the one of 5 ohm of a defrost branch lie where the model says that good and bad ones lie.
TEST(ElectricalModelOutside, SplicesOfAWorkedCircuit) {
  WiringRatings splice;
  splice.form = Form::splice;
  splice.contact_resistance = Resistance::from_value(0.1);
  const auto between = [&](std::uint16_t fault, double ohms) {
    std::vector<Element> elements;
    append_model(&splice, fault, {}, elements);
    const Element& one = elements.front();
    return std::abs(ohms / one.value_in_si - 1.0) <= one.relative_half_width;
  };
  EXPECT_TRUE(between(not_found, 0.05));
  EXPECT_FALSE(between(not_found, 5.0));
  EXPECT_TRUE(between(fault_high_resistance, 5.0));
  EXPECT_FALSE(between(fault_high_resistance, 0.05));
}

// Nodal analysis: a 5 ohm splice between a contact of 0.05 ohm, a timer motor of 8000 ohm and a heater of 32 ohm reads
// 4.996889 ohm at its own ends: a path beside it lowers it by less than a thousandth.
TEST(ElectricalModelOutside, ASpliceInItsPlace) {
  const double around = 0.05 + 0.05 + 8000.0 + 0.05 + 32.0;
  EXPECT_NEAR(1.0 / (1.0 / 5.0 + 1.0 / around), 4.996889, 5e-7);
}

}  // namespace
}  // namespace ohmwright::wiring
