// Every reading of a worked example, through the appliance's file and the kinds that it names.
//
// Source of the figures: the branch of a frost-free refrigerator by nodal analysis in a program of its own, for 13
// cases in two positions of the timer; 177 of its readings equal those of a circuit simulator (ngspice 39)
// within 2.3e-11, where that answers. Printed digits, so half of the last one is the tolerance.

#include <algorithm>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include <ohmwright/locate/prober.hpp>

#include "exact_upright.hpp"

namespace ohmwright::testing {
namespace {

using namespace locate;

constexpr double over_range = std::numeric_limits<double>::infinity();

/// One row: what is wrong, and what is read then.
struct Row {
  std::string name;
  Strayed strayed;
  std::vector<std::string> faults;
  std::string set_up;
  std::vector<double> shown;
};

void PrintTo(const Row& row, std::ostream* out) { *out << row.name; }

Meter plain_meter() {
  return {.name = "meter",
          .title = "meter",
          .source = "test",
          .functions = {},
          .lead_resistance = parse_stated_value("0 ohm", Dimension::resistance)};
}

template <class List>
std::size_t named(const List& rows, const std::string& id) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (rows[i].id == id) return i;
  ADD_FAILURE() << id;
  return 0;
}

class OfTheUpright : public ::testing::TestWithParam<Row> {
 protected:
  OfTheUpright() {
    const Row& row = GetParam();
    for (const Candidate& one : faults_.candidates()) {
      std::vector<std::string> has;
      for (const std::uint16_t fault : one.faults) has.push_back(faults_.name(fault));
      if (!one.outside_cause && std::is_permutation(has.begin(), has.end(), row.faults.begin(), row.faults.end()))
        instance_.candidate = &one;
    }
  }

  double shown(const std::string& test_point, const std::string& set_up) {
    Measurement measurement{named(appliance_.test_points, test_point), {}};
    if (!set_up.empty()) measurement.set_up = named(appliance_.set_ups, set_up);
    const std::vector<PredictedOutcome>& outcomes = prober_.predict(instance_, measurement);
    const auto likeliest = std::max_element(outcomes.begin(), outcomes.end(),
                                            [](const auto& a, const auto& b) { return a.weight < b.weight; });
    if (likeliest->form == PredictedOutcome::Form::over_range) return over_range;
    if (likeliest->form == PredictedOutcome::Form::floating) return -1.0;
    const Scale scale = scale_of(appliance_.test_points[measurement.test_point].probe);
    return scale.linear_below * std::sinh(likeliest->mean);
  }

  void expect_row(const std::vector<std::string>& test_points, const std::string& set_up, double digits) {
    ASSERT_NE(instance_.candidate, nullptr);
    const std::vector<double>& expected = GetParam().shown;
    ASSERT_EQ(expected.size(), test_points.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
      const double read = shown(test_points[i], set_up);
      if (expected[i] == over_range)
        EXPECT_EQ(read, over_range) << test_points[i];
      else
        EXPECT_NEAR(read, expected[i], digits) << test_points[i];
    }
  }

 private:
  Appliance appliance_ = exact_upright(GetParam().strayed);
  Meter meter_ = plain_meter();
  FaultList faults_{appliance_, PriorSettings{}};
  Prober prober_{faults_, site_as_found(appliance_), meter_, ReadingModel{}};
  Instance instance_;
};

class Ohms : public OfTheUpright {};

TEST_P(Ohms, AreThoseOfTheTable) {
  expect_row({"D-X", "X-N", "D-N", "L-D", "L-N", "H1-H2", "X-H1", "R-N"}, GetParam().set_up, 5.1e-7);
}

const Row ohm_rows[] = {
    {"none_coil_cold", {}, {}, "", {0.05, 31.971715, 32.021315, 0.05, 32.070915, 31.872513, 0.05, 5.714286}},
    {"none_coil_warm", {}, {}, "coil-warm", {8032.15, 32.1, 8000.05, 0.05, 8000, 32, 0.05, 5.714286}},
    {"heater_open", {}, {"heater.open"}, "", {0.05, 8000.1, 8000.05, 0.05, 8000, 8000.2, 0.05, 5.714286}},
    {"heater_turns_shorted_20_percent",
     {.heater = 25.6},
     {},
     "",
     {0.05, 25.617704, 25.667384, 0.05, 25.717062, 25.518343, 0.05, 5.714286}},
    {"bimetal_stuck_open_coil_cold",
     {},
     {"thermostat.stuck-open"},
     "",
     {8032.15, 32.1, 8000.05, 0.05, 8000, 32, 0.05, 5.714286}},
    {"bimetal_contact_20_ohm",
     {.contact = 19.95},
     {},
     "",
     {19.950324, 31.972033, 51.762896, 0.05, 51.812249, 31.872829, 0.05, 5.714286}},
    {"splice_5_ohm",
     {.splice = 4.95},
     {},
     "",
     {0.05, 36.879205, 36.928744, 0.05, 36.978282, 31.872592, 4.996889, 5.714286}},
    {"lead_open", {}, {"heater-lead.open"}, "", {0.05, 8000.1, 8000.05, 0.05, 8000, 32, 0.05, 5.714286}},
    {"defrost_contact_open",
     {},
     {"timer.defrost-contact-open"},
     "",
     {0.05, 32.1, 32.15, 8032.15, 8000, 32, 0.05, 5.714286}},
    {"run_contact_welded",
     {},
     {"timer.run-contact-welded"},
     "",
     {0.049934, 4.955471, 4.920843, 0.049934, 4.886083, 5.024332, 0.049934, 4.851252}},
    {"run_welded_and_bimetal_open",
     {},
     {"timer.run-contact-welded", "thermostat.stuck-open"},
     "",
     {37.910135, 32.1, 5.810135, 0.05, 5.760135, 32, 0.05, 5.710207}},
    {"timer_motor_open", {}, {"timer.motor-open"}, "", {0.05, 32.1, 32.15, 0.05, 32.2, 32, 0.05, 5.714286}},
    {"bimetal_and_timer_motor_open",
     {},
     {"timer.motor-open", "thermostat.stuck-open"},
     "",
     {over_range, 32.1, over_range, 0.05, over_range, 32, 0.05, 5.714286}},
};
INSTANTIATE_TEST_SUITE_P(InDefrost, Ohms, ::testing::ValuesIn(ohm_rows),
                         [](const auto& row) { return row.param.name; });

class OhmsInRun : public OfTheUpright {};

TEST_P(OhmsInRun, AreThoseOfTheTable) {
  expect_row({"D-X", "X-N", "D-N", "L-D", "L-N", "R-N"}, "turned-to-run", 5.1e-7);
}

const Row run_rows[] = {
    {"healthy", {}, {}, "", {0.05, 32.1, 32.15, 37.910135, 5.760135, 5.710207}},
    {"bimetal_open", {}, {"thermostat.stuck-open"}, "", {over_range, 32.1, over_range, over_range, 5.760135, 5.710207}},
    {"heater_open", {}, {"heater.open"}, "", {0.05, over_range, over_range, over_range, 5.760135, 5.710207}},
};
INSTANTIATE_TEST_SUITE_P(Timer, OhmsInRun, ::testing::ValuesIn(run_rows),
                         [](const auto& row) { return row.param.name; });

// Live, in defrost: 0.05 ohm in the neutral of the cord, none in the line. The table has no meter load; one of 10 Mohm
// changes no digit of it. It has no stray capacitance either: our 200 pF to the line bring less than half of its last
// digit to a conductor that 32 ohm pull down.
class Volts : public OfTheUpright {};

TEST_P(Volts, ToThePlugsNeutralAreThoseOfTheTable) {
  expect_row({"D-volts", "X-volts", "H1-volts", "H2-volts"}, "", 5.1e-4);
}

const Row volt_rows[] = {
    {"none", {}, {}, "", {119.814, 119.628, 119.442, 0.373}},
    {"heater_open", {}, {"heater.open"}, "", {120, 120, 120, 0.001}},
    {"bimetal_open", {}, {"thermostat.stuck-open"}, "", {120, 0.001, 0.001, 0.001}},
    {"bimetal_20_ohm", {.contact = 19.95}, {}, "", {119.885, 73.908, 73.793, 0.231}},
    {"splice_5_ohm", {.splice = 4.95}, {}, "", {119.839, 119.677, 103.548, 0.323}},
    {"heater_lead_open", {}, {"heater-lead.open"}, "", {120, 120, 120, 120}},
    {"defrost_contact_open", {}, {"timer.defrost-contact-open"}, "", {0.001, 0.001, 0.001, 0.001}},
};
INSTANTIATE_TEST_SUITE_P(InDefrost, Volts, ::testing::ValuesIn(volt_rows),
                         [](const auto& row) { return row.param.name; });

/// With the supply's neutral open every point is live, what is called neutral too.
class VoltsToEarth : public OfTheUpright {};

TEST_P(VoltsToEarth, AreThoseOfTheTable) {
  expect_row({"D-to-earth", "X-to-earth", "H1-to-earth", "H2-to-earth", "N-to-earth"}, "", 5.1e-2);
}

const Row open_neutral[] = {{"supply_neutral_open", {}, {"cord-neutral.open"}, "", {120, 120, 120, 120, 120}}};
INSTANTIATE_TEST_SUITE_P(InDefrost, VoltsToEarth, ::testing::ValuesIn(open_neutral),
                         [](const auto& row) { return row.param.name; });

}  // namespace
}  // namespace ohmwright::testing
