// The earth bond and the refrigerant's label: what may pass, and what never does.

#include <string>

#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/safety/earth_bond.hpp>
#include <ohmwright/safety/refrigerant.hpp>

namespace ohmwright {
namespace {

Outcome bond(const std::string& ohm, const std::string& current) {
  std::optional<StatedValue> with;
  if (!current.empty()) with = parse_stated_value(current, Dimension::current);
  return judge_earth_bond(parse_stated_value(ohm, Dimension::resistance), with).outcome;
}

/// EN 50106: 0.2 ohm with the cord, read with 10 A at least; ±30 % of a tester by EN 61557-4 (from memory).
TEST(EarthBond, IsDecidedWithItsTestCurrent) {
  EXPECT_EQ(bond("0.12ohm", "10A"), Outcome::within_limits);
  EXPECT_EQ(bond("0.12ohm", "25A"), Outcome::within_limits);
  EXPECT_EQ(bond("0ohm", "10A"), Outcome::within_limits);
  EXPECT_EQ(bond("5ohm", "10A"), Outcome::out_of_limits);
  // 0.18 ohm ± 30 % reaches from 0.126 to 0.234 ohm; (0.2 - 0.126) / 0.108 = 69 % of it is within.
  EXPECT_EQ(bond("0.18ohm", "10A"), Outcome::undecided);
  EXPECT_NEAR(judge_earth_bond(parse_stated_value("0.18ohm", Dimension::resistance),
                               parse_stated_value("10A", Dimension::current))
                  .probability_within,
              0.074 / 0.108, 1e-9);
  EXPECT_EQ(bond("0.18 ± 0.01 ohm", "10A"), Outcome::within_limits);
}

TEST(EarthBond, NeverPassesByAnOrdinaryMeter) {
  for (const char* current : {"", "0.2A", "9.9A"}) {
    EXPECT_EQ(bond("0.12ohm", current), Outcome::undecided) << current;
    EXPECT_EQ(bond("0ohm", current), Outcome::undecided) << current;
    EXPECT_EQ(bond("5ohm", current), Outcome::out_of_limits) << current;
  }
  EXPECT_THROW(bond("-1ohm", "10A"), InputError);
  EXPECT_THROW(bond("0.1ohm", "-10A"), InputError);
}

/// ISO 817 (from memory).
TEST(Refrigerant, MayBurnUnlessTheTableSaysThatItDoesNot) {
  for (const char* burns : {"R-600a", "r600a", "R 290", "propane", "Isobutane", "R-441A", "R-436A", "R-32", "R-1270",
                            "R-1234yf", "R-152a", "unknown", "", "R-9999", "isobutane (R-600a)", "flammable"})
    EXPECT_TRUE(refrigerant_may_burn(burns)) << burns;
  for (const char* does_not : {"R-134a", "R134A", "134a", "R-12", "R-404A", "R-410A", "non-flammable", "none", "other"})
    EXPECT_FALSE(refrigerant_may_burn(does_not)) << does_not;
  EXPECT_EQ(refrigerant_safety_class("R-32"), "A2L");
  EXPECT_EQ(refrigerant_safety_class("R-1234ze(E)"), "A2L");
  EXPECT_EQ(refrigerant_safety_class("R-9999"), std::nullopt);
}

}  // namespace
}  // namespace ohmwright
