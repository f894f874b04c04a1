#include "descriptor/descriptor.hpp"

#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>

#include "defrost_control_ratings_schema.hpp"
#include "rules/advance.hpp"
#include "rules/advice.hpp"
#include "rules/contact_drop.hpp"
#include "rules/contacts.hpp"
#include "rules/in_circuit.hpp"
#include "rules/interval.hpp"
#include "rules/motor_winding.hpp"
#include "rules/names.hpp"
#include "rules/output.hpp"
#include "rules/sensor_supply.hpp"

namespace ohmwright::defrost_control {

namespace {

std::vector<MeasurandDescriptor> measurands() {  // in the order of MeasurandIndex
  return {
      {"motor", OHMWRIGHT_TEXT("Resistance of the timer motor, line to neutral"), Dimension::resistance, "ohm", true,
       false, terminal_line, terminal_neutral},
      {"defrost_contact", OHMWRIGHT_TEXT("The contact to the heater, line to defrost"), Dimension::resistance, "ohm",
       true, true, terminal_line, terminal_defrost},
      {"run_contact", OHMWRIGHT_TEXT("The contact to the compressor, line to run"), Dimension::resistance, "ohm", true,
       true, terminal_line, terminal_run},
      {"output", OHMWRIGHT_TEXT("Volts from the defrost output to neutral, live"), Dimension::voltage, "V", false, true,
       terminal_defrost, terminal_neutral},
      {"drop", OHMWRIGHT_TEXT("Volts across the closed contact under load, live"), Dimension::voltage, "V", false, true,
       terminal_line, terminal_defrost},
      {"sensor_supply", OHMWRIGHT_TEXT("Volts at the board's pulled sensor connector, live"), Dimension::voltage, "V",
       false, true, terminal_sensor_1, terminal_sensor_2},
      {"advance", OHMWRIGHT_TEXT("Time that it was watched in one position"), Dimension::duration, "min", false, false},
      {"interval", OHMWRIGHT_TEXT("Run time of the compressor between two defrosts"), Dimension::duration, "h", false,
       false},
      {"interval_by_clock", OHMWRIGHT_TEXT("Time by the clock between two defrosts"), Dimension::duration, "h", false,
       false},
  };
}

std::vector<ConditionDescriptor> conditions() {  // in the order of ConditionIndex
  constexpr double room_thermometer_kelvin = 2.0;
  constexpr double line_volt = 2.0;
  constexpr double clamp_ampere = 0.1;
  constexpr double line_hertz = 0.5;
  constexpr double share_guess = 0.1;
  return {
      {"part_temperature", OHMWRIGHT_TEXT("the temperature of its motor"), "at", Dimension::temperature, "",
       room_thermometer_kelvin, "common practice, no source: a room thermometer beside a motor that has not run"},
      {"line_voltage", OHMWRIGHT_TEXT("the volts of the line"), "line", Dimension::voltage, "V", line_volt,
       "common practice, no source: a hand-held meter, read beside the output"},
      {"load_current", OHMWRIGHT_TEXT("the current of its load"), "load", Dimension::current, "A", clamp_ampere,
       "common practice, no source: a clamp around one wire"},
      {"frequency", OHMWRIGHT_TEXT("the frequency of the line"), "frequency", Dimension::frequency, "Hz", line_hertz,
       "EN 50160: within 1 % nearly always (from memory)"},
      {"run_share", OHMWRIGHT_TEXT("the share of the time that the compressor ran"), "run-share", Dimension::ratio, "%",
       share_guess, "common practice, no source: a guess by listening now and then"},
      {"stand_in", OHMWRIGHT_TEXT("a resistor in place of the sensor"), "stand-in", Dimension::resistance, "", 0.0,
       "a measured resistor; state its ±"},
  };
}

std::vector<StateDescriptor> states() {  // in the order of StateIndex
  return {
      {"position",
       OHMWRIGHT_TEXT("Position of the cam, or what the board was told to do"),
       {{"run", OHMWRIGHT_TEXT("in run")}, {"defrost", OHMWRIGHT_TEXT("in a defrost")}},
       "position"},
      {"moved",
       OHMWRIGHT_TEXT("Whether it moved on while it was watched"),
       {{"yes", OHMWRIGHT_TEXT("it moved on")},
        {"no", OHMWRIGHT_TEXT("it did not move on")},
        {"not-the-shaft", OHMWRIGHT_TEXT("not even its marked shaft turned")}},
       "moved"},
  };
}

std::vector<RuleDescriptor> rules() {  // in the order of RuleIndex
  return {
      describe_contacts(), describe_advance(),  describe_motor(),         describe_drop(),
      describe_output(),   describe_interval(), describe_sensor_supply(), describe_in_circuit(),
  };
}

std::vector<ChartAxis> charts() {
  const auto axis = [](std::string_view measurand, std::string_view condition, auto from, auto to) {
    return ChartAxis{measurand, condition, AnyQuantity(from), AnyQuantity(to)};
  };
  ChartAxis stand_in = axis("sensor_supply", "stand_in", Resistance::from_value(1e3), Resistance::from_value(200e3));
  stand_in.logarithmic = true;
  return {
      axis("motor", "part_temperature", Temperature::from_celsius(-20.0), Temperature::from_celsius(60.0)),
      axis("drop", "load_current", Current::from_value(0.5), Current::from_value(10.0)),
      axis("output", "line_voltage", Voltage::from_value(90.0), Voltage::from_value(260.0)),
      stand_in,
      axis("advance", "frequency", Frequency::from_value(45.0), Frequency::from_value(65.0)),
  };
}

}  // namespace

Descriptor make_descriptor() {
  Descriptor descriptor;
  descriptor.id = "defrost-control";
  descriptor.title = OHMWRIGHT_TEXT("Defrost control");
  descriptor.aliases = {"defrost timer", "timer",         "cam timer",
                        "defrost board", "control board", "adaptive defrost control"};
  descriptor.text_domain = "ohmwright-defrost-control";
  descriptor.roles = {role::times_defrost, role::ends_defrost};
  descriptor.terminals = {"line", "neutral", "defrost", "run", "sensor-1", "sensor-2"};
  descriptor.measurands = measurands();
  descriptor.conditions = conditions();
  descriptor.states = states();
  descriptor.rules = rules();
  descriptor.advice = describe_advice();
  descriptor.procedures = describe_procedures();
  descriptor.cautions = describe_cautions();
  descriptor.fault_modes = describe_fault_modes();
  descriptor.charts = charts();
  descriptor.error_sources = {
      {"motor-temperature", OHMWRIGHT_TEXT("the temperature of its motor, which was not given")}};
  descriptor.ratings_schema = ohmwright_schemas::defrost_control_ratings_schema;
  return descriptor;
}

}  // namespace ohmwright::defrost_control
