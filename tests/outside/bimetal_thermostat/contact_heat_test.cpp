#include <gtest/gtest.h>

#include "thermostat_fixture.hpp"

// Drop I·r and heat I²·r of a contact at 3.75 A (Ohm, Joule; by hand).

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

struct Row {
  const char* volts;
  double ohms;
  double watts;
  double half_of_last_digit;
  Outcome outcome;
};

TEST(ContactHeatOutside, ThreeContacts) {
  for (const Row& row : {Row{"0.1875 V", 0.05, 0.703, 5e-4, Outcome::within_limits},
                         Row{"1.875 V", 0.5, 7.031, 5e-4, Outcome::out_of_limits},
                         Row{"7.5 V", 2.0, 28.1, 5e-2, Outcome::out_of_limits}}) {
    const Findings findings =
        judge(plain_ratings(),
              {{.value = row.volts, .supply = Supply::live, .measurand = "drop", .load = "3.75 A +- 0.1 A"}});
    const Finding& finding = finding_of(findings, drop_under_load);
    EXPECT_EQ(finding.outcome, row.outcome) << row.volts;
    EXPECT_NEAR(argument(finding, "resistance"), row.ohms, 1e-12);
    EXPECT_NEAR(argument(finding, "heat"), row.watts, row.half_of_last_digit);
  }
}

// A live circuit of 120 V with a contact of 20 ohm: 119.885 V before it, 73.908 V after it, 2.2988 A (nodal analysis,
// two programs; volts rounded to a millivolt).
TEST(ContactHeatOutside, AContactOfTwentyOhm) {
  const Findings findings =
      judge(plain_ratings(),
            {{.value = "45.977 V", .supply = Supply::live, .measurand = "drop", .load = "2.2988 A +- 0.1 A"}});
  EXPECT_NEAR(argument(finding_of(findings, drop_under_load), "resistance"), 20.0, 1e-3);
  EXPECT_EQ(outcome_of(findings, drop_under_load), Outcome::out_of_limits);
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
