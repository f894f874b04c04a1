// A small run of fixed seed; the program `calibration` prints the large one.

#include <cmath>

#include <gtest/gtest.h>

#include "kinds.hpp"
#include "tally.hpp"

namespace ohmwright::calibration {
namespace {

constexpr std::uint64_t seed = 1;
constexpr std::size_t parts = 60'000;

class Calibration : public ::testing::TestWithParam<CalibratedKind> {
 protected:
  Tally tally_of(const Workshop& workshop) const {
    return run({*part_, built_registry().kind(GetParam().kind).descriptor(), meter_, workshop, parts, seed});
  }
  const std::shared_ptr<const Part> part_ = part_of(built_registry(), GetParam());
  const Meter meter_ = basic_meter();
};

/// Every tenth is met, and in it the share of parts that are truly within agrees with what was stated: half a
/// percentage point, and three standard deviations of the count that a run of this size has.
TEST_P(Calibration, StatedProbabilitiesAreKeptInAFlatPopulation) {
  const Tally tally = tally_of(*flat_workshop(built_registry(), GetParam()));
  double chi_squared = 0.0;
  for (const Decile& decile : tally.deciles) {
    ASSERT_GT(decile.count, 0U);
    const double p = decile.stated_share();
    const double scatter = std::sqrt(p * (1.0 - p) / static_cast<double>(decile.count));
    const double off = decile.observed_share() - p;
    EXPECT_NEAR(off, 0.0, 0.005 + 3.0 * scatter) << decile.count << " parts stated near " << p;
    chi_squared += off * off / (scatter * scatter + 0.005 * 0.005 / 3.0);
  }
  // All together: small errors of one sign add up. 29.588 is exceeded by chi squared of 10 degrees of freedom once in a
  // thousand (NIST/SEMATECH handbook, table 1.3.6.7.4).
  EXPECT_LT(chi_squared, 29.588);
  EXPECT_LT(tally.verdicts.bad_among_passed(), 0.05);
  EXPECT_LT(tally.verdicts.good_among_condemned(), 0.05);
}

TEST_P(Calibration, OfABenchOfFailedAppliancesTheVerdictsErrLessThanTheTradesRules) {
  const Tally tally = tally_of(*bench_workshop(built_registry(), GetParam()));
  EXPECT_LT(tally.verdicts.bad_among_passed(), tally.by_the_trade.back().bad_among_passed());
  EXPECT_LT(tally.verdicts.good_among_condemned(), 0.05);
}

TEST_P(Calibration, TheSameSeedGivesTheSameParts) {
  const std::unique_ptr<Workshop> flat = flat_workshop(built_registry(), GetParam());
  const Tally first = tally_of(*flat);
  const Tally second = tally_of(*flat);
  EXPECT_EQ(first.verdicts.passed, second.verdicts.passed);
  EXPECT_EQ(first.deciles[5].stated, second.deciles[5].stated);
}

INSTANTIATE_TEST_SUITE_P(Built, Calibration, ::testing::ValuesIn(calibrated_kinds(built_registry())),
                         [](const auto& kind) {
                           std::string name = kind.param.title;
                           for (char& letter : name)
                             if (letter == '-' || letter == ' ') letter = '_';
                           return name;
                         });

}  // namespace
}  // namespace ohmwright::calibration
