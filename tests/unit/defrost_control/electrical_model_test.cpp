#include "part/electrical_model.hpp"

#include <gtest/gtest.h>

#include "control_fixture.hpp"
#include "part/expectation.hpp"

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;

Situation situation(std::optional<std::uint16_t> at, Excitation driven = Excitation::ohmmeter) {
  Situation made;
  if (at) made.states.push_back({position, *at});
  made.excitation = driven;
  return made;
}

struct Model {
  ModelAnswer answer;
  std::vector<Element> elements;

  const Element& to(std::uint16_t terminal) const {
    for (const Element& element : elements)
      if (element.from == terminal_line && element.to == terminal) return element;
    throw std::logic_error("no such element");
  }
  /// Share of such controls whose contact there is closed.
  double closed(std::uint16_t terminal) const {
    return to(terminal).type == ElementType::open ? 0.0 : to(terminal).probability_closed;
  }
};

Model model(const ControlRatings& ratings, std::uint16_t fault, const Situation& where) {
  Model made{};
  made.answer = append_model(&ratings, fault, where, made.elements);
  return made;
}

TEST(ElectricalModel, OneContactIsClosedByThePosition) {
  const Model run = model(timer(), not_found, situation(position_run));
  EXPECT_EQ(run.closed(terminal_run), 1.0);
  EXPECT_EQ(run.closed(terminal_defrost), 0.0);
  const Model defrost = model(timer(), not_found, situation(position_defrost));
  EXPECT_EQ(defrost.closed(terminal_run), 0.0);
  EXPECT_EQ(defrost.closed(terminal_defrost), 1.0);
  EXPECT_LE(defrost.to(terminal_defrost).value_in_si * (1.0 + defrost.to(terminal_defrost).relative_half_width),
            0.2 + 1e-12);
}

TEST(ElectricalModel, AnUnknownPositionIsMostlyRun) {
  const Model unknown = model(timer(), not_found, situation(std::nullopt));
  EXPECT_NEAR(unknown.closed(terminal_run), 0.97, 1e-12);
  EXPECT_NEAR(unknown.closed(terminal_defrost), 0.03, 1e-12);
}

TEST(ElectricalModel, FaultsHoldAtBothPositions) {
  for (const std::uint16_t at : {position_run, position_defrost}) {
    const Situation where = situation(at);
    EXPECT_EQ(model(timer(), fault_stuck_in_run, where).closed(terminal_defrost), 0.0);
    EXPECT_EQ(model(timer(), fault_stuck_in_run, where).closed(terminal_run), 1.0);
    EXPECT_EQ(model(timer(), fault_stuck_in_defrost, where).closed(terminal_defrost), 1.0);
    EXPECT_EQ(model(timer(), fault_stuck_in_defrost, where).closed(terminal_run), 0.0);
    EXPECT_EQ(model(timer(), fault_defrost_contact_open, where).closed(terminal_defrost), 0.0);
    EXPECT_EQ(model(timer(), fault_run_contact_welded, where).closed(terminal_run), 1.0);
    EXPECT_EQ(model(timer(), fault_motor_open, where).to(terminal_neutral).type, ElementType::open);
  }
  const Element bad = model(timer(), fault_bad_contact, situation(position_defrost)).to(terminal_defrost);
  EXPECT_NEAR(bad.value_in_si * (1.0 + bad.relative_half_width), 50.0, 1e-9);
  const Element burnt = model(timer(), fault_burnt_contact, situation(position_defrost)).to(terminal_defrost);
  EXPECT_NEAR(burnt.value_in_si * (1.0 - burnt.relative_half_width), 50.0, 1e-9);
  EXPECT_NEAR(burnt.value_in_si * (1.0 + burnt.relative_half_width), 100e3, 1e-6);
}

TEST(ElectricalModel, TheMotorIsThatOfTheRatingsAtItsTemperature) {
  Situation cold = situation(position_run);
  cold.conditions.push_back({part_temperature, Temperature::from_celsius(-20.0).kelvin()});
  const Element winding = model(timer(), not_found, cold).to(terminal_neutral);
  EXPECT_NEAR(winding.value_in_si * (1.0 + winding.relative_half_width), 12e3 * 0.82658960, 0.01);
}

TEST(ElectricalModel, ABoardIsAtRestForAnOhmmeter) {
  const Model dead = model(board(), not_found, situation(position_defrost));
  EXPECT_EQ(dead.closed(terminal_defrost), 0.0);
  EXPECT_EQ(dead.closed(terminal_run), 0.5);  // what it does at rest is not stated
  EXPECT_EQ(dead.to(terminal_neutral).type, ElementType::open);
  const Model live = model(board(), not_found, situation(position_defrost, Excitation::alternating_supply));
  EXPECT_EQ(live.closed(terminal_defrost), 1.0);
  EXPECT_EQ(model(board(), fault_no_output, situation(position_defrost, Excitation::alternating_supply))
                .closed(terminal_defrost),
            0.0);
  EXPECT_EQ(model(board(), fault_stuck_in_defrost, situation(std::nullopt)).closed(terminal_defrost), 1.0);
  const ControlRatings transformer =
      ratings(R"({"type": "relay-board", "power_supply": "transformer", "run_contact_at_rest": "closed"})");
  EXPECT_EQ(model(transformer, not_found, situation(std::nullopt)).to(terminal_neutral).type, ElementType::resistance);
  EXPECT_EQ(model(transformer, not_found, situation(std::nullopt)).closed(terminal_run), 1.0);
}

TEST(ElectricalModel, FaultsThatCannotBeAreNotApplicable) {
  std::vector<Element> none;
  const ControlRatings of_timer = timer();
  const ControlRatings of_board = board();
  const ControlRatings of_sensor_board = sensor_board();
  EXPECT_EQ(append_model(&of_timer, fault_no_output, {}, none), ModelAnswer::not_applicable);
  EXPECT_EQ(append_model(&of_timer, fault_sensor_input_dead, {}, none), ModelAnswer::not_applicable);
  EXPECT_EQ(append_model(&of_board, fault_motor_open, {}, none), ModelAnswer::not_applicable);
  EXPECT_EQ(append_model(&of_board, fault_stuck_in_run, {}, none), ModelAnswer::not_applicable);
  EXPECT_EQ(append_model(&of_board, fault_sensor_input_dead, {}, none), ModelAnswer::not_applicable);
  EXPECT_EQ(append_model(nullptr, not_found, {}, none), ModelAnswer::unknown);
  EXPECT_TRUE(none.empty());
  EXPECT_EQ(append_model(&of_sensor_board, fault_sensor_input_dead, {}, none), ModelAnswer::stated);
  EXPECT_EQ(none.back().type, ElementType::open);
}

double nominal(const ControlRatings& ratings, std::uint16_t measurand, const Situation& where) {
  return expected_reading(ratings, measurand, where).value().nominal.value_in_si();
}

TEST(Expectation, FollowsItsCondition) {
  const auto at = [](std::uint16_t condition, double value) {
    const ConditionValue one{condition, value};
    return Situation({&one, 1});
  };
  EXPECT_NEAR(expected_reading(timer(), voltage_drop, at(load_current, 3.75))->limits.upper->value_in_si(), 0.75,
              1e-12);
  EXPECT_NEAR(nominal(sensor_board(), sensor_voltage, at(stand_in, 10e3)), 5.0 * 0.49975, 1e-4);
  EXPECT_NEAR(nominal(timer(), advance_time, at(frequency, 50.0)), 1.2 * 25.0 * 60.0, 1e-9);
  EXPECT_NEAR(nominal(timer(), output_voltage, at(line_voltage, 118.0)), 118.0, 1e-12);
  EXPECT_NEAR(nominal(board(), interval_by_clock, at(run_share, 0.5)), 2.0 * 51.0 * 3600.0, 1e-6);
  EXPECT_NEAR(*expected_reading(timer(), run_contact, situation(position_run))->share_closed, 1.0, 1e-12);
  EXPECT_FALSE(expected_reading(board(), motor, {}));
  EXPECT_FALSE(expected_reading(board(), interval_by_clock, {}));
  EXPECT_FALSE(expected_reading(board(), sensor_voltage, {}));
}

}  // namespace
}  // namespace ohmwright::defrost_control
