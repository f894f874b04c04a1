#include <cmath>

#include <gtest/gtest.h>

#include <ohmwright/cycles/frost.hpp>

namespace ohmwright::cycles {
namespace {

// Worked by hand and by an independent program with GUM (JCGM 100:2008) 5.1.2: P = 450 W, u 9 W; share 0.6, u 0.1;
// t = 700 s, u 20 s; latent heat of fusion 333.55 kJ/kg (handbooks, from memory).
TEST(Frost, OfAPlateauWithItsUncertainty) {
  const FrostMass frost = frost_from_plateau({450.0, 9.0}, {0.6, 0.1}, {700.0, 20.0});
  EXPECT_NEAR(frost.kilogram, 0.566632, 0.566632e-5);
  EXPECT_NEAR(frost.uncertainty_kilogram, 0.096484, 0.096484e-5 * 10.0);  // six printed digits
}

// The plateau of 0.5 kg at 450 W: 370.611 s when all heat melts, 617.685 s at 0.6, 1223.139 s at 0.303 (the efficiency
// measured in a domestic freezer, Int. J. Refrigeration 33 (2010) 589-599).
TEST(Frost, TakesThePlateausOfHalfAKilogram) {
  EXPECT_NEAR(frost_from_plateau({450.0, 0.0}, {1.0, 0.0}, {370.611, 0.0}).kilogram, 0.5, 1e-6);
  EXPECT_NEAR(frost_from_plateau({450.0, 0.0}, {0.6, 0.0}, {617.685, 0.0}).kilogram, 0.5, 1e-6);
  EXPECT_NEAR(frost_from_plateau({450.0, 0.0}, {0.303, 0.0}, {1223.139, 0.0}).kilogram, 0.5, 1e-6);
}

// GUM 4.3.7: two edges, each rectangular within one step of 60 s, u = 60/sqrt(6) = 24.494897 s.
TEST(Duration, BetweenRowsHasItsUncertainty) { EXPECT_NEAR(duration_uncertainty(60.0), 24.494897, 1e-6); }

TEST(Frost, OfNothingIsNothing) { EXPECT_EQ(frost_from_plateau({450.0, 9.0}, {0.6, 0.1}, {0.0, 1.0}).kilogram, 0.0); }

}  // namespace
}  // namespace ohmwright::cycles
