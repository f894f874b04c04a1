#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::wiring {

namespace {

ProcedureDescriptor ohms_dead() {
  return {
      "ohms-dead",
      OHMWRIGHT_TEXT("Its ohms, one end off"),
      "resistance",
      5.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove both of its ends dead.")},
          {"lift", OHMWRIGHT_TEXT("Pull one end off. Note the colour and the place, or take a photo first.")},
          {"zero",
           OHMWRIGHT_TEXT(
               "Lowest ohms range. Short the probes, note what the leads read (--leads), or zero it (--leads 0).")},
          {"clip",
           OHMWRIGHT_TEXT("Clip the probes on bare metal past the crimps, so that the crimps are measured too.")},
          {"read", OHMWRIGHT_TEXT("Note the ohms, or OL. Then bend the lead along its length and at each crimp, and "
                                  "watch whether it jumps.")},
          {"look", OHMWRIGHT_TEXT("Look for green, brown or melted spots, and for a wire that slides in its crimp.")},
      },
      {"disconnect-power", "prove-dead", "meter-category", "sharp-fins"}};
}

ProcedureDescriptor drop_live() {
  return {
      "drop-live",
      OHMWRIGHT_TEXT("Volts across it while its load runs, live"),
      "drop",
      8.0,
      {
          {"decide", OHMWRIGHT_TEXT("Go on only if you are qualified for live work.")},
          {"place", OHMWRIGHT_TEXT(
                        "Unplugged, clip one volt probe before and one past the lead or joint, on bare metal, and the "
                        "clamp around this wire alone. Volts range at first, never ohms or amperes.")},
          {"run", OHMWRIGHT_TEXT("Stand clear, plug in, let the load run.")},
          {"read", OHMWRIGHT_TEXT("Once you see less than a volt, go down to millivolts. Note the drop and the amperes "
                                  "at the same moment.")},
          {"end", OHMWRIGHT_TEXT("Unplug, prove dead, take the clips off, refit everything.")},
      },
      {"live-measurement", "meter-category", "low-voltage-side-live", "moving-parts", "hot-surface", "water-and-mains",
       "flammable-refrigerant", "hot-joint"}};
}

ProcedureDescriptor drop_by_bench_supply() {
  return {"drop-bench-supply",
          OHMWRIGHT_TEXT("Volts across it at a known current, dead"),
          "drop",
          8.0,
          {
              {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove both of its ends dead.")},
              {"lift", OHMWRIGHT_TEXT("Pull both of its ends off, so that nothing else gets the current.")},
              {"feed", OHMWRIGHT_TEXT("Send 1 A or more through it from a current-limited supply of a few volts.")},
              {"read", OHMWRIGHT_TEXT("Read the millivolts with probes of their own, inside the clips of the supply.")},
          },
          {"disconnect-power", "prove-dead", "meter-category"}};
}

ProcedureDescriptor insulation_test() {
  return {
      "insulation-500-volt",
      OHMWRIGHT_TEXT("Insulation to the frame, 500 V"),
      "insulation",
      12.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove both of its ends dead.")},
          {"take-off",
           OHMWRIGHT_TEXT("Pull both of its ends off. Unplug boards, sensors and direct-current fans: 500 V "
                          "destroys them.")},
          {"test", OHMWRIGHT_TEXT("Test from the bare wire to the frame, or to the wire beside it with its ends off "
                                  "too, for a minute. Touch neither probe.")},
          {"discharge",
           OHMWRIGHT_TEXT("Let the tester discharge it, and check that it did, before you touch anything.")},
          {"note", OHMWRIGHT_TEXT("Note the megohms with the volts of the test, and whether it was wet.")},
      },
      {"disconnect-power", "prove-dead", "insulation-test"}};
}

}  // namespace

std::vector<ProcedureDescriptor> describe_procedures() {
  return {ohms_dead(), drop_live(), drop_by_bench_supply(), insulation_test()};
}

std::vector<CautionDescriptor> describe_cautions() {
  return {
      {"hot-joint", OHMWRIGHT_TEXT("A bad joint under load burns: do not touch it"),
       OHMWRIGHT_TEXT("A bad joint that carries a load gets hot enough to burn you and to light what lies about it: do "
                      "not touch it, and switch off at the first smell."),
       "Joule: 0.5 ohm at 3.75 A makes 7 W"},
  };
}

}  // namespace ohmwright::wiring
