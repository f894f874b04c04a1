#include "part/control_ratings.hpp"

#include <ohmwright/component/rated_figures.hpp>

namespace ohmwright::defrost_control {

namespace {

ControlType type_named(std::string_view name) {
  if (name == "relay-board") return ControlType::relay_board;
  return name == "thermistor-board" ? ControlType::thermistor_board : ControlType::cam_timer;
}

PowerSupply power_supply_named(std::string_view name) {
  if (name == "transformer") return PowerSupply::transformer;
  return name == "electronic" ? PowerSupply::electronic : PowerSupply::unstated;
}

template <class Quantity>
Between<Quantity> read_between(const ValueNode& ratings, RatedFigures& figures, std::string_view least,
                               std::string_view most) {
  Between<Quantity> read{figures.positive<Quantity>(ratings, least), figures.positive<Quantity>(ratings, most)};
  if (read.least && read.most && !(*read.least < *read.most))
    figures.refuse(ratings, most, "the most must be above the least; were the two swapped?");
  return read;
}

void read_motor_figures(const ValueNode& ratings, RatedFigures& figures, ControlRatings& read) {
  read.motor = read_between<Resistance>(ratings, figures, "motor_least", "motor_most");
  if (const auto t = figures.figure<Temperature>(ratings, "motor_temperature")) read.motor_temperature = *t;
  if ((ratings.find("motor_least") == nullptr) != (ratings.find("motor_most") == nullptr))
    figures.refuse(ratings, read.motor.least ? "motor_least" : "motor_most",
                   "the winding needs both of its limits, \"motor_least\" and \"motor_most\"");
  if (read.motor.is_stated() && !read.is_timer())
    figures.refuse(ratings, "motor_most", "a board has no timer motor; its type is \"cam-timer\", or leave this out");
}

/// How often and how long: a lower limit alone says of no control that it stands still.
void read_times(const ValueNode& ratings, RatedFigures& figures, ControlRatings& read) {
  read.defrost_time = read_between<Duration>(ratings, figures, "defrost_time_least", "defrost_time_most");
  read.interval = read_between<Duration>(ratings, figures, "interval_least", "interval_most");
  if (read.defrost_time.least && ratings.find("defrost_time_most") == nullptr)
    figures.refuse(ratings, "defrost_time_least", "say how long a defrost lasts at most: \"defrost_time_most\"");
  if ((ratings.find("interval_least") == nullptr) != (ratings.find("interval_most") == nullptr))
    figures.refuse(ratings, read.interval.least ? "interval_least" : "interval_most",
                   "the interval needs both of its limits, \"interval_least\" and \"interval_most\"");
  if (RatedFigures::word(ratings, "interval_counts") == "clock") read.interval_counts = Counts::clock;
}

void read_switching(const ValueNode& ratings, RatedFigures& figures, ControlRatings& read) {
  if (RatedFigures::word(ratings, "switching") == "solid-state") read.switching = Switching::solid_state;
  if (const auto r = figures.positive<Resistance>(ratings, "contact_resistance")) read.contact_resistance = *r;
  if (const auto v = figures.positive<Voltage>(ratings, "solid_state_drop")) read.solid_state_drop = *v;
  read.contact_current = figures.positive<Current>(ratings, "contact_current");
  if (read.is_timer() && read.switching == Switching::solid_state)
    figures.refuse(*ratings.find("switching"), "a cam closes contacts; only a board switches without them");
  const std::string at_rest = RatedFigures::word(ratings, "run_contact_at_rest");
  if (!at_rest.empty()) read.run_closed_at_rest = at_rest == "closed";
  if (!at_rest.empty() && read.is_timer())
    figures.refuse(*ratings.find("run_contact_at_rest"),
                   "the contacts of a cam timer stay as the cam stands; only a board has a rest without power");
}

void read_sensor(const ValueNode& ratings, RatedFigures& figures, ControlRatings& read) {
  const std::optional<Voltage> supply = figures.positive<Voltage>(ratings, "sensor_supply");
  const std::optional<double> tolerance = figures.tolerance(ratings, "sensor_supply_tolerance");
  const std::optional<Resistance> pull_up = figures.positive<Resistance>(ratings, "sensor_pull_up");
  if (!supply) {
    if (tolerance) figures.refuse(ratings, "sensor_supply_tolerance", "of what: \"sensor_supply\" is not stated");
    if (pull_up) figures.refuse(ratings, "sensor_pull_up", "from where: \"sensor_supply\" is not stated");
    return;
  }
  if (read.type != ControlType::thermistor_board)
    figures.refuse(ratings, "sensor_supply", "only a \"thermistor-board\" reads a sensor");
  if (tolerance) {
    SensorInput& input = read.sensor.emplace();
    input.supply = *supply;
    input.tolerance = *tolerance;
    if (pull_up) input.pull_up = *pull_up;
  } else if (ratings.find("sensor_supply_tolerance") == nullptr) {
    figures.refuse(ratings, "sensor_supply", "say how far good parts may be off: \"sensor_supply_tolerance\"");
  }
}

}  // namespace

std::optional<ControlRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems) {
  const std::size_t before = problems.size();
  RatedFigures figures(problems);
  ControlRatings read;
  read.type = type_named(RatedFigures::word(ratings, "type"));
  read.voltage = figures.positive<Voltage>(ratings, "voltage");
  read.frequency = figures.positive<Frequency>(ratings, "frequency");
  read.power_supply = power_supply_named(RatedFigures::word(ratings, "power_supply"));
  read_times(ratings, figures, read);
  read_motor_figures(ratings, figures, read);
  read_switching(ratings, figures, read);
  read_sensor(ratings, figures, read);
  if (read.is_timer() && read.power_supply != PowerSupply::unstated)
    figures.refuse(*ratings.find("power_supply"), "between line and neutral of a cam timer lies its motor");
  if (problems.size() != before) return std::nullopt;
  return read;
}

}  // namespace ohmwright::defrost_control
