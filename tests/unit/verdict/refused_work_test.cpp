// What the program has no part in: gas, refrigerant, and the high voltage of a microwave oven (common practice, no
// source).

#include <gtest/gtest.h>

#include <ohmwright/verdict/refused_work.hpp>

namespace ohmwright {
namespace {

enum class Answer { gas, refrigerant, high_voltage, taken };

struct Row {
  const char* name;
  Answer answer;
};

Answer answer_to(const char* name) {
  const std::string_view reason = refused_work(name);
  if (reason.find("licensed refrigerant work") != std::string_view::npos) return Answer::refrigerant;
  if (reason.find("licensed hands") != std::string_view::npos) return Answer::gas;
  if (reason.find("can kill, also when it is unplugged") != std::string_view::npos) return Answer::high_voltage;
  EXPECT_EQ(reason, "") << name;
  return Answer::taken;
}

constexpr Row rows[] = {
    // English
    {"gas-valve", Answer::gas},
    {"Coil of the gas valve", Answer::gas},
    {"Gas Valves", Answer::gas},
    {"opens-gas-valve", Answer::gas},
    {"LPG regulator", Answer::gas},
    {"Pipe of the gas", Answer::gas},
    {"burner of a gas oven", Answer::gas},
    {"Burner solenoid", Answer::gas},
    {"Solenoid of the fuel valve", Answer::gas},
    {"Booster coil and holding coil of the burner", Answer::gas},
    {"LP regulator coil", Answer::gas},
    {"Flame safety solenoid", Answer::gas},
    {"Pilot valve coil", Answer::gas},
    {"Pilot burner", Answer::gas},
    {"Gas pilot", Answer::gas},
    {"Pilot orifice", Answer::gas},
    {"Gasvalve", Answer::gas},
    {"gasvalves", Answer::gas},
    {"Gascock", Answer::gas},
    {"gasket", Answer::taken},
    {"gasket valve", Answer::taken},
    {"Gasket of the drain valve", Answer::taken},
    {"Hot-surface igniter, electrical side", Answer::taken},
    {"oven igniter", Answer::taken},
    {"gas oven", Answer::taken},
    {"water valve", Answer::taken},
    {"valve", Answer::taken},
    {"burner of a hob", Answer::taken},
    {"pilot lamp", Answer::taken},
    {"Pilot light", Answer::taken},  // on an electrical panel a lamp
    {"Pilot relay coil", Answer::taken},
    {"Pilot relay", Answer::taken},
    {"high limit", Answer::taken},
    {"Run capacitor", Answer::taken},
    {"line voltage", Answer::taken},
    {"Fan motor of a gas dryer", Answer::taken},
    {"", Answer::taken},
    // Spanish
    {"Bobina de la válvula de gas", Answer::gas},
    {"VÁLVULA DE GAS", Answer::gas},
    {"va\u0301lvula de gas", Answer::gas},  // its accent behind its letter, as some systems write it
    {"Electroválvula de gas", Answer::gas},
    {"Bobina del quemador", Answer::gas},
    {"válvula de agua", Answer::taken},
    {"electroválvula de entrada", Answer::taken},
    // French
    {"Vanne de gaz", Answer::gas},
    {"Électrovanne gaz", Answer::gas},
    {"E\u0301lectrovanne gaz", Answer::gas},
    {"Robinet de gaz", Answer::gas},
    {"Bobine du brûleur", Answer::gas},
    {"Électrovanne d'eau", Answer::taken},
    {"Ventilateur du sèche-linge à gaz", Answer::taken},
    // Italian
    {"Rubinetto del gas", Answer::gas},
    {"Elettrovalvola gas", Answer::gas},
    {"Valvola del gas", Answer::gas},
    {"Elettrovalvola del bruciatore", Answer::gas},
    {"Elettrovalvola dell'acqua", Answer::taken},
    // German
    {"Gasventil", Answer::gas},
    {"Gasventile", Answer::gas},
    {"Magnetventil Gas", Answer::gas},
    {"Gasmagnetventil", Answer::gas},
    {"Brenner-Magnetventil", Answer::gas},
    {"Gasdruckregler", Answer::gas},
    {"Flüssiggasdüse", Answer::gas},
    {"Brenner des Gasherds", Answer::gas},
    {"Magnetventil, Wasser", Answer::taken},
    {"Ventilator", Answer::taken},
    {"Zünder des Gasherds", Answer::taken},
    // the high-voltage side of a microwave oven
    {"magnetron", Answer::high_voltage},
    {"Magnetronfilament", Answer::high_voltage},
    {"Filament of the magnetron", Answer::high_voltage},
    {"Micro-wave oven doubler", Answer::high_voltage},
    {"Microwaveoven transformer", Answer::high_voltage},
    {"Condensateur de micro-ondes", Answer::high_voltage},
    {"Micro-switch of the door", Answer::taken},
    {"High-voltage capacitor", Answer::high_voltage},
    {"microwave transformer", Answer::high_voltage},
    {"HV diode", Answer::high_voltage},
    {"HV_diodes", Answer::high_voltage},
    {"Step-up transformer, 2 kV winding", Answer::high_voltage},
    {"Magnetrón", Answer::high_voltage},
    {"Magnetro\u0301n", Answer::high_voltage},
    {"Condensador de alta tensión", Answer::high_voltage},
    {"Hochspannungskondensator", Answer::high_voltage},
    {"Mikrowellen-Hochspannungstrafo", Answer::high_voltage},
    {"Gleichrichter, Mikrowelle", Answer::high_voltage},
    {"Trasformatore alta tensione microonde", Answer::high_voltage},
    {"Diodo di alta tensione", Answer::high_voltage},
    {"Condensateur haute tension micro-ondes", Answer::high_voltage},
    {"Redresseur haute tension", Answer::high_voltage},
    {"Door switch of a microwave oven", Answer::taken},
    {"Türschalter der Mikrowelle", Answer::taken},
    {"Condensateur du moteur", Answer::taken},
    {"Transformer of the control board", Answer::taken},
    // a defrost by hot gas
    {"Hot gas valve", Answer::refrigerant},
    {"Hot gas defrost solenoid", Answer::refrigerant},
    {"Heissgasventil", Answer::refrigerant},
    {"Heißgasventil", Answer::refrigerant},
    {"Válvula de gas caliente", Answer::refrigerant},
    {"Vanne de gaz chaud", Answer::refrigerant},
    {"Coil sensor of the hot gas defrost", Answer::taken},
};

TEST(RefusedWork, IsKnownByItsNameInFiveLanguages) {
  for (const Row& row : rows) EXPECT_EQ(answer_to(row.name), row.answer) << row.name;
}

TEST(RefusedWork, IsKnownInASentenceOfAText) {
  for (const char* text :
       {"Open the gas valve, light the burner.", "Unplug. Read the coil of the gas valve; plug it in.",
        "Short the high-voltage capacitor of the microwave oven, then read it.",
        "{\"description\":\"ohms of the magnetron\"}"})
    EXPECT_NE(refused_work_in_text(text), "") << text;
  for (const char* text :
       {"In a gas dryer the heat comes from elsewhere: look at the fan that moves its air, and at the line.",
        "If there is no flame, stop: valve, pipe and burner of the gas are for licensed hands.",
        "Unplug the gas oven. Shut the valve of the water.",
        "Read the volts of the line, then the ohms of the igniter.", "{\"gas\":\"x\",\"valve\":\"y\"}", ""})
    EXPECT_EQ(refused_work_in_text(text), "") << text;
}

}  // namespace
}  // namespace ohmwright
