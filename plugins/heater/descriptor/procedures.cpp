#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::heater {

namespace {

ProcedureDescriptor cold() {
  return {
      "element-cold",
      OHMWRIGHT_TEXT("The element cold, a lead off"),
      "resistance",
      8.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove the points dead. Let the element cool: it may be "
                                    "hundreds of degrees hot, and glass is brittle.")},
          {"lift-lead", OHMWRIGHT_TEXT("Pull one of its leads off. In circuit the timer motor, the control or a second "
                                       "heater lies beside it.")},
          {"probes", OHMWRIGHT_TEXT("Lowest ohms range. Short the probes and note what the leads read (--leads).")},
          {"read", OHMWRIGHT_TEXT("Touch the element's own terminals, on bare metal, and note the ohms, or OL.")},
          {"frame", OHMWRIGHT_TEXT("Then from each terminal to the frame: anything but OL is a leak.")},
          {"refit", OHMWRIGHT_TEXT("Refit leads, covers and earth before you plug in.")},
      },
      {"disconnect-power", "prove-dead", "meter-category", "hot-surface", "glass-element", "sharp-fins",
       "flammable-refrigerant"}};
}

ProcedureDescriptor hot() {
  return {
      "element-hot",
      OHMWRIGHT_TEXT("The element hot, at clips that were fixed when it was cold"),
      "resistance",
      15.0,
      {
          {"clips", OHMWRIGHT_TEXT("Unplugged, proved dead and cold: fix insulated clip leads to its own two leads, "
                                   "the free ends apart, covered and out of reach.")},
          {"force", OHMWRIGHT_TEXT("Plug in and force a defrost, for ten minutes at most, and stay with it.")},
          {"read", OHMWRIGHT_TEXT("Unplug, prove dead at the clips, and note the ohms there, or OL, at once. Touch "
                                  "nothing else: it burns, and hot glass splinters.")},
          {"again", OHMWRIGHT_TEXT("Let it cool, read there once more, and take the clips off.")},
      },
      {"disconnect-power", "prove-dead", "meter-category", "hot-element", "glass-element", "forced-defrost",
       "flammable-refrigerant", "water-and-mains", "do-not-bridge"}};
}

ProcedureDescriptor under_load(std::string_view id, std::string_view measurand, std::string_view title) {
  return {id,
          title,
          measurand,
          10.0,
          {
              {"decide",
               OHMWRIGHT_TEXT("Go on only if you are qualified for live work, the heater's limit is proved and not "
                              "bridged, and the drain is clear.")},
              {"place",
               OHMWRIGHT_TEXT("Unplugged, fix the clamp around one wire of this heater alone, the volt probes where "
                              "they cannot slip, and stand clear.")},
              {"force", OHMWRIGHT_TEXT("Plug in and force a defrost, for ten minutes at most, and stay with it.")},
              {"read", OHMWRIGHT_TEXT("Note volts and current at the same moment, once the element is hot.")},
              {"end", OHMWRIGHT_TEXT("Unplug, prove dead, take the instruments off, refit everything.")},
          },
          {"live-measurement", "meter-category", "forced-defrost", "flammable-refrigerant", "moving-parts",
           "hot-surface", "water-and-mains", "do-not-bridge"}};
}

ProcedureDescriptor insulation_test() {
  return {
      "insulation-500-volt",
      OHMWRIGHT_TEXT("Insulation to the frame, 500 V"),
      "insulation",
      15.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove the points dead.")},
          {"take-off", OHMWRIGHT_TEXT("Unplug boards, sensors and direct-current fans, and take both leads off the "
                                      "element: 500 V destroys them.")},
          {"test", OHMWRIGHT_TEXT("Join the element's two terminals, test from them to the frame, for a minute. Touch "
                                  "neither probe.")},
          {"discharge",
           OHMWRIGHT_TEXT("Let the tester discharge it, and check that it did, before you touch anything.")},
          {"note", OHMWRIGHT_TEXT("Note the megohms with the volts of the test, and whether it was wet.")},
      },
      {"disconnect-power", "prove-dead", "insulation-test", "hot-surface", "glass-element"}};
}

}  // namespace

std::vector<ProcedureDescriptor> describe_procedures() {
  return {cold(),
          hot(),
          under_load("current-under-load", "current", OHMWRIGHT_TEXT("Current and volts while it heats, live")),
          under_load("power-under-load", "power", OHMWRIGHT_TEXT("Watts while it heats, live")),
          under_load("volts-at-element", "terminals", OHMWRIGHT_TEXT("Volts across its own leads, live")),
          insulation_test()};
}

std::vector<CautionDescriptor> describe_cautions() {
  return {
      {"glass-element", OHMWRIGHT_TEXT("Glass element: gloves, eye protection, no fingers on the glass"),
       OHMWRIGHT_TEXT(
           "A glass element breaks into splinters: wear gloves and eye protection, and do not touch the glass "
           "with bare fingers."),
       "common practice, no source"},
      {"hot-element",
       OHMWRIGHT_TEXT("Read hot only at clips that were fixed when it was cold: it burns, and splinters"),
       OHMWRIGHT_TEXT(
           "A heater that was just on burns the skin, and its glass splinters. Read it hot only at clip leads "
           "that were fixed while it was cold and unplugged, and touch nothing else until it has cooled."),
       "common practice, no source"},
      {"forced-defrost", OHMWRIGHT_TEXT("Forced defrost: proved limit, clear drain, time limit, somebody there"),
       OHMWRIGHT_TEXT("Force a defrost only with a proved, unbridged limit, a clear drain and a time limit, and stay "
                      "with it until it is over."),
       "common practice, no source"},
  };
}

}  // namespace ohmwright::heater
