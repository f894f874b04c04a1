#include <array>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright {

namespace {

// Standards are named from memory, without clause numbers: the edition that is law where the work is done holds.
constexpr std::array cautions{
    Caution{"disconnect-power", OHMWRIGHT_TEXT("Unplug it and keep the plug in sight"),
            OHMWRIGHT_TEXT("Unplug the appliance, or switch it off at all poles and lock the switch. Keep the plug in "
                           "sight while you work."),
            "EN 50110-1; OSHA 29 CFR 1910.147 (from memory)"},
    Caution{"prove-dead", OHMWRIGHT_TEXT("Prove it dead with a tester you have proved"),
            OHMWRIGHT_TEXT("Prove it dead: try the tester on a known live point, test the part, try the tester again."),
            "EN 50110-1 (from memory)"},
    Caution{
        "meter-category",
        OHMWRIGHT_TEXT("CAT II meter and probes at the plug, CAT III at fixed wiring; no ohms on a live part"),
        OHMWRIGHT_TEXT("Use a meter and probes of measurement category CAT II at a plugged-in appliance and CAT III at "
                       "fixed wiring. Never measure ohms or capacitance on a live part."),
        "IEC 61010-1, IEC 61010-2-033, IEC 61010-031 (from memory)"},
    Caution{
        "live-measurement", OHMWRIGHT_TEXT("Live: only if qualified, insulated probes, one hand at a time"),
        OHMWRIGHT_TEXT("Live measurement: only if you are qualified for it, with insulated probes, one hand at a time, "
                       "and after you have agreed to this step."),
        "EN 50110-1; NFPA 70E (from memory)"},
    Caution{
        "low-voltage-side-live", OHMWRIGHT_TEXT("While plugged in, treat low-voltage wires as live"),
        OHMWRIGHT_TEXT("The low-voltage side of a control may be tied to the mains: treat sensor and fan wires as live "
                       "while the appliance is plugged in."),
        "common practice, no source"},
    Caution{"capacitor-charge", OHMWRIGHT_TEXT("Discharge capacitors through a resistor, confirm below 34 V"),
            OHMWRIGHT_TEXT("Capacitors and the bus of an inverter stay charged after unplugging. Discharge through a "
                           "resistor, not a screwdriver, and confirm less than 34 V."),
            "IEC 60335-1 names 34 V (from memory)"},
    Caution{"sharp-fins", OHMWRIGHT_TEXT("Sharp fins: cut-resistant gloves"),
            OHMWRIGHT_TEXT("Fins and sheet metal are sharp: wear cut-resistant gloves."), "common practice, no source"},
    Caution{"hot-surface", OHMWRIGHT_TEXT("Let a radiant heater cool"),
            OHMWRIGHT_TEXT("A radiant heater stays above 100 °C for minutes after it was on: let it cool."),
            "common practice, no source"},
    Caution{"no-heat-gun", OHMWRIGHT_TEXT("No heat gun, flame or knife on ice"),
            OHMWRIGHT_TEXT(
                "Melt ice with warm water or a bagged warm cloth. No heat gun, no open flame, no knife on frost."),
            "common practice, no source"},
    Caution{"water-and-mains", OHMWRIGHT_TEXT("Dry everything before you plug in"),
            OHMWRIGHT_TEXT("Melt water runs to the base: dry everything before you plug in, behind a residual-current "
                           "device."),
            "common practice, no source"},
    Caution{
        "flammable-refrigerant",
        OHMWRIGHT_TEXT("Read the refrigerant label: if flammable, ventilate, no spark; on a leak, stop"),
        OHMWRIGHT_TEXT("Read the refrigerant label first. With a flammable refrigerant (A3, such as R-600a or R-290) "
                       "ventilate, no flame and no spark; on a suspected leak touch no plug, switch or defrost "
                       "nearby, cut the supply elsewhere and stop. Sealed-system work needs a licence."),
        "EN 378, ISO 5149, IEC 60335-2-24 (from memory)"},
    Caution{
        "insulation-test", OHMWRIGHT_TEXT("Before a 500 V test unplug boards, sensors and fans; discharge after"),
        OHMWRIGHT_TEXT("Before a 500 V test unplug boards, sensors and direct-current fans; test from the element or "
                       "winding to the frame only, and discharge it afterwards."),
        "EN 50678, EN 50699 (from memory)"},
    Caution{"moving-parts", OHMWRIGHT_TEXT("Fans may start by themselves: fingers away"),
            OHMWRIGHT_TEXT("Fans and drums start by themselves when the control wakes: keep fingers and sleeves away."),
            "common practice, no source"},
    Caution{"do-not-bridge", OHMWRIGHT_TEXT("Never bridge a thermal link or limit"),
            OHMWRIGHT_TEXT("Never bridge a thermal link or a high limit, not even for a test run."),
            "common practice, no source"},
};

}  // namespace

std::span<const Caution> framework_cautions() { return cautions; }

const Caution* caution_named(std::string_view id) {
  for (const Caution& caution : cautions)
    if (caution.id == id) return &caution;
  return nullptr;
}

}  // namespace ohmwright
