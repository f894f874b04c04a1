#include "descriptor/descriptor.hpp"

#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>

#include "defrost_sensor_ratings_schema.hpp"
#include "rules/advice.hpp"
#include "rules/end_of_defrost.hpp"
#include "rules/generic_classes.hpp"
#include "rules/in_circuit.hpp"
#include "rules/matching_class.hpp"
#include "rules/moisture_leakage.hpp"
#include "rules/names.hpp"
#include "rules/open_sensor.hpp"
#include "rules/readings_agree.hpp"
#include "rules/resistance_at_temperature.hpp"
#include "rules/seated_on_coil.hpp"
#include "rules/short_sensor.hpp"
#include "rules/steady_readings.hpp"
#include "rules/twin_comparison.hpp"
#include "rules/two_temperatures.hpp"
#include "rules/volts_at_board.hpp"

namespace ohmwright::defrost_sensor {

namespace {

std::vector<MeasurandDescriptor> measurands() {  // in the order of MeasurandIndex
  return {
      {"resistance", OHMWRIGHT_TEXT("Resistance across the two leads"), Dimension::resistance, "ohm", false, false},
      {"resistance_swapped", OHMWRIGHT_TEXT("Resistance with the probes swapped"), Dimension::resistance, "ohm", false,
       false},
      {"twin_resistance", OHMWRIGHT_TEXT("Resistance of a twin at the same temperature"), Dimension::resistance, "ohm",
       false, false},
      {"voltage", OHMWRIGHT_TEXT("Voltage between the two leads"), Dimension::voltage, "V", false},
  };
}

std::vector<ConditionDescriptor> conditions() {  // in the order of ConditionIndex
  constexpr double room_thermometer_kelvin = 1.0;
  constexpr std::string_view room_thermometer = "common practice, no source: a room thermometer beside the part";
  return {
      {"part_temperature", OHMWRIGHT_TEXT("the temperature of the part"), "at", Dimension::temperature, "",
       room_thermometer_kelvin, room_thermometer},
      {"coil_temperature", OHMWRIGHT_TEXT("the temperature of the coil beside the clipped sensor"), "coil-at",
       Dimension::temperature, "", room_thermometer_kelvin, room_thermometer},
  };
}

std::vector<RuleDescriptor> rules() {  // in the order of RuleIndex
  return {
      describe_resistance_at_temperature(),
      describe_open(),
      describe_short(),
      describe_in_circuit(),
      describe_two_temperatures(),
      describe_readings_agree(),
      describe_steady_readings(),
      describe_moisture_leakage(),
      describe_seated_on_coil(),
      describe_end_of_defrost(),
      describe_volts_at_board(),
      describe_matching_class(),
      describe_twin_comparison(),
  };
}

}  // namespace

Descriptor make_descriptor() {
  Descriptor descriptor;
  descriptor.id = "defrost-sensor";
  descriptor.title = OHMWRIGHT_TEXT("Defrost sensor");
  descriptor.aliases = {"thermistor",         "ntc",        "coil sensor",   "evaporator sensor",
                        "defrost thermistor", "coil probe", "defrost probe", "bin sensor"};
  descriptor.text_domain = "ohmwright-defrost-sensor";
  descriptor.roles = {role::senses_coil, role::ends_defrost};
  descriptor.terminals = {"lead-1", "lead-2"};
  descriptor.measurands = measurands();
  descriptor.conditions = conditions();
  descriptor.rules = rules();
  descriptor.advice = describe_advice();
  descriptor.procedures = describe_procedures();
  descriptor.cautions = describe_cautions();
  descriptor.fault_modes = describe_fault_modes();
  descriptor.charts = {{"resistance", "part_temperature", AnyQuantity(Temperature::from_celsius(coldest_celsius)),
                        AnyQuantity(Temperature::from_celsius(hottest_celsius)), true}};
  descriptor.control_member = "control";
  descriptor.ratings_schema = ohmwright_schemas::defrost_sensor_ratings_schema;
  return descriptor;
}

}  // namespace ohmwright::defrost_sensor
