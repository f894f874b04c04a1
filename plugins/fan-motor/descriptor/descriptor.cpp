#include "descriptor/descriptor.hpp"

#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>

#include "fan_motor_ratings_schema.hpp"
#include "rules/advice.hpp"
#include "rules/capacitor.hpp"
#include "rules/fed_but_still.hpp"
#include "rules/in_circuit.hpp"
#include "rules/insulation.hpp"
#include "rules/line_current.hpp"
#include "rules/matching_class.hpp"
#include "rules/names.hpp"
#include "rules/not_by_ohms.hpp"
#include "rules/open_winding.hpp"
#include "rules/running.hpp"
#include "rules/short_winding.hpp"
#include "rules/supply_volts.hpp"
#include "rules/turns_by_hand.hpp"
#include "rules/winding_resistance.hpp"
#include "rules/windings_add_up.hpp"

namespace ohmwright::fan_motor {

namespace {

std::vector<MeasurandDescriptor> measurands() {  // in the order of MeasurandIndex
  return {
      {"winding", OHMWRIGHT_TEXT("Resistance of the winding"), Dimension::resistance, "ohm"},
      {"winding_swapped", OHMWRIGHT_TEXT("The same with the probes swapped"), Dimension::resistance, "ohm"},
      {"common_run", OHMWRIGHT_TEXT("From common to run"), Dimension::resistance, "ohm"},
      {"common_start", OHMWRIGHT_TEXT("From common to start"), Dimension::resistance, "ohm"},
      {"start_run", OHMWRIGHT_TEXT("From start to run"), Dimension::resistance, "ohm"},
      {"current", OHMWRIGHT_TEXT("Current when it runs"), Dimension::current, "A"},
      {"speed", OHMWRIGHT_TEXT("How fast it turns"), Dimension::rotational_speed, "rpm"},
      {"tach", OHMWRIGHT_TEXT("Pulses of its tachometer"), Dimension::frequency, "Hz"},
      {"supply", OHMWRIGHT_TEXT("Volts at its plug while it should run"), Dimension::voltage, "V"},
      {"insulation", OHMWRIGHT_TEXT("Insulation from the winding to the frame"), Dimension::resistance, "Mohm", false,
       false},
      {"capacitance", OHMWRIGHT_TEXT("Its capacitor"), Dimension::capacitance, "uF"},
      {"capacitor_current", OHMWRIGHT_TEXT("Current through its capacitor when it runs"), Dimension::current, "A"},
  };
}

std::vector<ConditionDescriptor> conditions() {  // in the order of ConditionIndex
  constexpr double winding_kelvin = 3.0;
  constexpr double line_volt = 2.0;
  constexpr double line_hertz = 0.1;
  constexpr double by_eye_seconds = 0.5;
  return {
      {"part_temperature", OHMWRIGHT_TEXT("the temperature of the winding"), "at", Dimension::temperature, "",
       winding_kelvin, "common practice, no source: a thermometer beside a motor that has stood"},
      {"watched", OHMWRIGHT_TEXT("how long it was watched"), "watched", Dimension::duration, "", 0.0,
       "common practice, no source: a watch"},
      {"test_voltage",
       OHMWRIGHT_TEXT("the volts of the insulation tester"),
       "test",
       Dimension::voltage,
       "V",
       0.0,
       "common practice, no source: the range of the tester",
       {"insulation"}},
      {"capacitor_voltage", OHMWRIGHT_TEXT("the volts across the capacitor"), "across", Dimension::voltage, "V",
       line_volt, "common practice, no source: a hand-held meter"},
      {"frequency", OHMWRIGHT_TEXT("the frequency of the supply"), "hz", Dimension::frequency, "Hz", line_hertz,
       "common practice, no source: the public supply"},
      {"coast", OHMWRIGHT_TEXT("how long it coasts after a flick by hand"), "coast", Dimension::duration, "",
       by_eye_seconds, "common practice, no source: by eye"},
  };
}

std::vector<RuleDescriptor> rules() {  // in the order of RuleIndex
  return {
      describe_running(),        describe_winding_resistance(), describe_open(),        describe_short(),
      describe_in_circuit(),     describe_windings_add_up(),    describe_not_by_ohms(), describe_line_current(),
      describe_fed_but_still(),  describe_turns_by_hand(),      describe_capacitor(),   describe_insulation(),
      describe_matching_class(), describe_supply_volts(),
  };
}

std::vector<ChartAxis> charts() {
  return {{"winding", "part_temperature", AnyQuantity(Temperature::from_celsius(-30.0)),
           AnyQuantity(Temperature::from_celsius(100.0))}};
}

}  // namespace

Descriptor make_descriptor() {
  Descriptor descriptor;
  descriptor.id = "fan-motor";
  descriptor.title = OHMWRIGHT_TEXT("Fan motor");
  descriptor.aliases = {"fan",         "evaporator fan", "condenser fan", "evaporator fan motor", "condenser fan motor",
                        "blower motor"};
  descriptor.text_domain = "ohmwright-fan-motor";
  descriptor.roles = {role::moves_air, role::warms_by_running};
  descriptor.terminals = {"lead-1", "lead-2", "start", "frame"};
  descriptor.measurands = measurands();
  descriptor.conditions = conditions();
  descriptor.states = {
      {"signal",
       OHMWRIGHT_TEXT("What its control signal tells it"),
       {{"unknown", OHMWRIGHT_TEXT("not known")},
        {"run", OHMWRIGHT_TEXT("to run, or it is fed from a supply of its own")},
        {"stop", OHMWRIGHT_TEXT("to stand")}},
       "signal"},
      {"air",
       OHMWRIGHT_TEXT("What was seen of coil, ducts and wheel"),
       {{"unknown", OHMWRIGHT_TEXT("nothing")},
        {"clear", OHMWRIGHT_TEXT("coil and ducts are clear, its wheel is free and tight")}},
       "air"},
      {"wheel",
       OHMWRIGHT_TEXT("What was seen of its wheel while it was fed"),
       {{"unknown", OHMWRIGHT_TEXT("it was not looked at")}, {"turns", OHMWRIGHT_TEXT("its wheel turns")}},
       "wheel"}};
  descriptor.rules = rules();
  descriptor.advice = describe_advice();
  descriptor.procedures = describe_procedures();
  descriptor.cautions = describe_cautions();
  descriptor.fault_modes = describe_fault_modes();
  descriptor.charts = charts();
  descriptor.ratings_schema = ohmwright_schemas::fan_motor_ratings_schema;
  return descriptor;
}

}  // namespace ohmwright::fan_motor
