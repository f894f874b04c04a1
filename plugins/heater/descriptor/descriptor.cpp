#include "descriptor/descriptor.hpp"

#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>

#include "heater_ratings_schema.hpp"
#include "rules/advice.hpp"
#include "rules/element_resistance.hpp"
#include "rules/in_circuit.hpp"
#include "rules/insulation.hpp"
#include "rules/matching_class.hpp"
#include "rules/names.hpp"
#include "rules/open_element.hpp"
#include "rules/power_under_load.hpp"
#include "rules/short_element.hpp"
#include "rules/supply_without_current.hpp"

namespace ohmwright::heater {

namespace {

std::vector<MeasurandDescriptor> measurands() {  // in the order of MeasurandIndex
  return {
      {"resistance", OHMWRIGHT_TEXT("Resistance of the element"), Dimension::resistance, "ohm"},
      {"resistance_swapped", OHMWRIGHT_TEXT("The same with the probes swapped"), Dimension::resistance, "ohm"},
      {"current", OHMWRIGHT_TEXT("Current while it heats"), Dimension::current, "A"},
      {"power", OHMWRIGHT_TEXT("Power while it heats"), Dimension::power, "W"},
      {"terminals", OHMWRIGHT_TEXT("Volts across its own leads while it should heat"), Dimension::voltage, "V"},
      {"insulation", OHMWRIGHT_TEXT("Insulation from the element to the frame"), Dimension::resistance, "Mohm", false,
       false},
  };
}

std::vector<ConditionDescriptor> conditions() {  // in the order of ConditionIndex
  constexpr double room_thermometer_kelvin = 2.0;
  constexpr double line_volt = 2.0;
  return {
      {"part_temperature", OHMWRIGHT_TEXT("the temperature of the part"), "at", Dimension::temperature, "",
       room_thermometer_kelvin, "common practice, no source: a room thermometer beside the part"},
      {"line_voltage", OHMWRIGHT_TEXT("the volts it gets"), "line", Dimension::voltage, "V", line_volt,
       "common practice, no source: a hand-held meter at the outlet, read beside the current"},
      {"test_voltage",
       OHMWRIGHT_TEXT("the volts of the insulation tester"),
       "test",
       Dimension::voltage,
       "V",
       0.0,
       "common practice, no source: the range of the tester",
       {"insulation"}},
  };
}

std::vector<RuleDescriptor> rules() {  // in the order of RuleIndex
  return {
      describe_element_resistance(),
      describe_open(),
      describe_short(),
      describe_in_circuit(),
      describe_power_under_load(),
      describe_supply_without_current(),
      describe_insulation(),
      describe_matching_class(),
  };
}

std::vector<ChartAxis> charts() {
  const AnyQuantity coldest(Temperature::from_celsius(-30.0));
  const AnyQuantity warmest(Temperature::from_celsius(200.0));
  const AnyQuantity least(Voltage::from_value(90.0));
  const AnyQuantity most(Voltage::from_value(260.0));
  return {
      {"resistance", "part_temperature", coldest, warmest},
      {"power", "line_voltage", least, most},
      {"current", "line_voltage", least, most},
  };
}

}  // namespace

Descriptor make_descriptor() {
  Descriptor descriptor;
  descriptor.id = "heater";
  descriptor.title = OHMWRIGHT_TEXT("Heater");
  descriptor.aliases = {"defrost heater", "heating element", "element", "heater element", "resistance heater"};
  descriptor.text_domain = "ohmwright-heater";
  descriptor.roles = {role::heats_coil};
  descriptor.terminals = {"lead-1", "lead-2", "frame"};
  descriptor.measurands = measurands();
  descriptor.conditions = conditions();
  descriptor.rules = rules();
  descriptor.advice = describe_advice();
  descriptor.procedures = describe_procedures();
  descriptor.cautions = describe_cautions();
  descriptor.fault_modes = describe_fault_modes();
  descriptor.charts = charts();
  descriptor.ratings_schema = ohmwright_schemas::heater_ratings_schema;
  return descriptor;
}

}  // namespace ohmwright::heater
