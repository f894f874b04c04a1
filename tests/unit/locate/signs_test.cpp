// Likelihood of what was seen without a meter. Figures by hand from docs/arithmetic.md, "Signs", with a table of the
// normal density: φ(0) = 0.398942, φ(2.995732) = 0.004487, φ(3.744665) = 0.000360, Φ(-0.990210) = 0.161036.

#include <gtest/gtest.h>

#include <ohmwright/locate/signs.hpp>

#include "timer_appliance.hpp"

namespace ohmwright::locate {
namespace {

using namespace testing;

// found_if: 0.95 where it is there, 0.005 where it is not.
TEST(ALook, AtAPartTellsOfItsFaultsAlone) {
  Appliance appliance = timer_appliance();
  const std::size_t heater = part_named(appliance, "heater");
  OutsideCause& gasket = appliance.outside_causes.emplace_back();
  gasket.id = "gasket";
  gasket.weight = 1.0;
  PartLook& burnt = appliance.part_looks.emplace_back();
  burnt.id = "burnt";
  burnt.tells = {{heater, 0}};
  const FaultList faults(appliance, PriorSettings{.most_faults = 1});
  Signs signs;
  signs.looked_at = {{1, true}};
  for (const Candidate& candidate : faults.candidates()) {
    const bool is_it =
        !candidate.faults.empty() && faults.faults()[candidate.faults.front()].fault == PartFault{heater, 0};
    EXPECT_DOUBLE_EQ(likelihood_of_signs(faults, candidate, signs, SignModel{}), is_it ? 0.95 : 0.005);
  }
}

class AfterAThaw : public ::testing::Test {
 protected:
  Appliance appliance = timer_appliance();
  PriorSettings one_fault{.most_faults = 1};
  FaultList faults{appliance, one_fault};
  SignModel model;

  double likelihood(const std::string& fault, const Signs& signs) const {
    for (const Candidate& candidate : faults.candidates()) {
      const bool is_it = fault.empty() ? candidate.nothing_wrong()
                                       : !candidate.faults.empty() && faults.name(candidate.faults.front()) == fault;
      if (is_it) return likelihood_of_signs(faults, candidate, signs, model);
    }
    ADD_FAILURE() << "no candidate " << fault;
    return 0.0;
  }

  static Signs ran_well(double days, std::optional<double> hours_unplugged = {}) {
    Signs signs;
    signs.thaw.emplace();
    signs.thaw->for_how_long = Duration::from_value(86400.0 * days);
    if (hours_unplugged) signs.thaw->unplugged = Duration::from_value(3600.0 * *hours_unplugged);
    return signs;
  }
};

// Frost over the whole coil shows with 1 - 0.95 · 0.1 = 0.905 of a thermostat stuck open and 0.05 of nothing: after a
// thaw with the power 0.3 of that.
TEST_F(AfterAThaw, FrostWeighsByItsPower) {
  Signs fresh;
  fresh.symptoms = {{"frost-whole-coil", true}};
  EXPECT_NEAR(likelihood("thermostat.stuck-open", fresh), 0.905, 1e-12);
  EXPECT_NEAR(likelihood("", fresh), 0.05, 1e-12);
  Signs thawed = fresh;
  thawed.was_thawed = true;
  EXPECT_NEAR(likelihood("thermostat.stuck-open", thawed), 0.970498, 1e-6);
  EXPECT_NEAR(likelihood("", thawed), 0.407091, 1e-6);
  Signs none = fresh;
  none.symptoms.front().is_there = false;
  none.was_thawed = true;
  EXPECT_NEAR(likelihood("thermostat.stuck-open", none), 0.493534, 1e-6);  // 0.095^0.3
}

TEST_F(AfterAThaw, OtherSignsKeepTheirWeight) {
  Signs thawed;
  thawed.symptoms = {{"warm-cabinet", true}};
  thawed.was_thawed = true;
  EXPECT_NEAR(likelihood("heater.open", thawed), 1.0 - 0.95 * 0.3, 1e-12);
}

// Four days are the median of what fills with frost again, a fifth of a day that of all else.
TEST_F(AfterAThaw, DaysSpeakOfFrostAndHoursOfAllElse) {
  EXPECT_NEAR(likelihood("thermostat.stuck-open", ran_well(4.0)), 0.429491, 1e-6);
  EXPECT_NEAR(likelihood("", ran_well(4.0)), 0.029198, 1e-6);
  EXPECT_NEAR(likelihood("thermostat.stuck-open", ran_well(0.2)), 0.056239, 1e-6);
  EXPECT_NEAR(likelihood("", ran_well(0.2)), 0.379018, 1e-6);
}

// Four hours without power thaw it with Φ(ln(4/8)/0.7); what was not thawed tells nothing.
TEST_F(AfterAThaw, AShortTimeWithoutPowerTellsLess) {
  EXPECT_NEAR(likelihood("thermostat.stuck-open", ran_well(4.0, 4.0)), 0.280233, 1e-6);
}

}  // namespace
}  // namespace ohmwright::locate
