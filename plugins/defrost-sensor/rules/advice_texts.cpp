#include <ohmwright/quantity/message.hpp>

#include "rules/advice.hpp"

namespace ohmwright::defrost_sensor {

std::vector<AdviceDescriptor> describe_advice() {  // in the order of AdviceIndex
  return {
      {"ice-point",
       OHMWRIGHT_TEXT("The part's temperature is {share_percent} % of the doubt. Read it in stirred ice water ({ice} ± "
                      "{bath}, bagged, ten minutes): that would settle it in {chance_percent} cases of 100."),
       "ohms-in-ice-water"},
      {"better-meter",
       OHMWRIGHT_TEXT(
           "The meter is {share_percent} % of the doubt. The same reading by one of ±0.3 % would settle it in "
           "{chance_percent} cases of 100.")},
      {"higher-range", OHMWRIGHT_TEXT("Choose a range past {highest} and read again.")},
      {"lift-a-lead",
       OHMWRIGHT_TEXT("Pull the sensor's connector at the board, or lift one of its leads, and read the sensor alone."),
       "ohms-from-the-board"},
      {"prove-dead-and-swap",
       OHMWRIGHT_TEXT("In circuit: prove the points dead (near zero volts), read, swap the probes and read again."),
       "ohms-from-the-board"},
      {"dry-it",
       OHMWRIGHT_TEXT("Keep the wet reading as found, then dry sensor, splice and connector and read again at a known "
                      "temperature."),
       "wet-and-dry"},
      {"state-temperature",
       OHMWRIGHT_TEXT(
           "Measure the temperature of the part itself, after a soak, and give it with its doubt. Ice on it does "
           "not mean 0 °C.")},
      {"chart-of-the-part",
       OHMWRIGHT_TEXT(
           "Find the chart of this very part: not knowing its curve there is {share_percent} % of the doubt.")},
      {"compare-twin",
       OHMWRIGHT_TEXT(
           "Read a twin, a new part or another sensor of the appliance, side by side at the same temperature.")},
      {"second-temperature",
       OHMWRIGHT_TEXT(
           "Before you buy: read it at a second temperature, ice water or room. It tells a drifted sensor from "
           "another curve, a corroded joint or a leakage."),
       "ohms-in-ice-water"},
      {"wait-until-steady",
       OHMWRIGHT_TEXT("Leave it in the bath and read again until three readings, a minute apart, agree within 0.5 %."),
       "ohms-in-ice-water"},
      {"read-again",
       OHMWRIGHT_TEXT("Read again with clean contacts, fingers off the probes, and the temperature measured anew.")},
      {"seat-it-again",
       OHMWRIGHT_TEXT(
           "Clear the ice, seat the sensor and its clip firmly on the tube its maker chose, and compare again; "
           "if it still differs, check it in ice water."),
       "seat-on-the-coil"},
      {"read-unplugged",
       OHMWRIGHT_TEXT("Unplug the appliance, prove it dead, pull the sensor's connector and read the ohms again."),
       "ohms-from-the-board"},
      {"move-the-lead",
       OHMWRIGHT_TEXT("Clip the probes on, then move lead, joint and connector while you watch the meter. If OL comes "
                      "back, the break is where you moved it.")},
      {"read-at-the-sensor",
       OHMWRIGHT_TEXT("Before you buy: open the joint and read at the sensor's own leads. If it reads right there, the "
                      "fault is in the harness or a connector.")},
      {"replace-alike",
       OHMWRIGHT_TEXT(
           "If you fit a new one: the same curve (its ohms and B, or its class), lead and clip; seal the joint against "
           "moisture, and read the new one before you close up.")},
      {"look-elsewhere",
       OHMWRIGHT_TEXT(
           "Leave the sensor in. Look next at its connector and harness, its seat on the coil, then at heater, "
           "limit thermostat and control. If it was iced or wet, only a reading as found, wet and cold, rules "
           "out a leak.")},
      {"room-point",
       OHMWRIGHT_TEXT(
           "Its curve is in doubt at this temperature. Read it at about {room}, a thermometer soaked beside it "
           "(± {doubt}): that would settle it in {chance_percent} cases of 100.")},
      {"touch-the-probes",
       OHMWRIGHT_TEXT("First touch the probes together: they must read near 0 Ω. A broken lead, the wrong jack, a flat "
                      "battery or a range set too low (name it: --range 20k) condemns good parts.")},
      {"joint-first",
       OHMWRIGHT_TEXT(
           "Before you buy: open the joint and read at the sensor's own leads. If it reads right there, renew "
           "joint, splice or connector, not the sensor.")},
      {"right-class",
       OHMWRIGHT_TEXT("It reads as the class {class} does: make sure that the ratings are those of this very part.")},
      {"find-the-sheet",
       OHMWRIGHT_TEXT(
           "Look for the appliance's sheet (behind the kick plate, in the control's pocket), or read it at a "
           "second temperature, ice water and room: two temperatures tell the classes apart.")},
      {"wet-connector",
       OHMWRIGHT_TEXT(
           "Say whether the connector was off when it was wet (lead off, before the first reading); if you do "
           "not know, wet it again and read it so."),
       "wet-and-dry"},
      {"say-for-all",
       OHMWRIGHT_TEXT(
           "Lead off was said of some of the readings only. Said before the first reading it holds for all; if "
           "a reading was taken still connected, take it again.")},
      {"second-temperature-room",
       OHMWRIGHT_TEXT(
           "Before you buy: read it at room temperature too, a thermometer soaked beside it. It tells a drifted "
           "sensor from another curve, a corroded joint or a leakage.")},
      {"stop-at-mains", OHMWRIGHT_TEXT("Cut the supply at the wall and prove it dead before you touch anything here.")},
      {"read-more-carefully",
       OHMWRIGHT_TEXT(
           "It lies too near a limit for this meter: read it three times with the probes clipped on, or beside a "
           "new one in the same bath.")},
      {"misread-decimal",
       OHMWRIGHT_TEXT(
           "First look again: {shown} would be right as {right}. Was the k, the point or the range misread?")},
      {"say-ice-doubt",
       OHMWRIGHT_TEXT(
           "The part's temperature is {share_percent} % of the doubt. If it lay in stirred ice water, say so "
           "(--at '0C ± 0.2K'): that would settle it in {chance_percent} cases of 100."),
       "ohms-in-ice-water"},
      {"right-class-here",
       OHMWRIGHT_TEXT(
           "At this one temperature the class {class} reads so too: make sure that the ratings are those of this "
           "very part. A second temperature would tell.")},
      {"look-elsewhere-no-leak",
       OHMWRIGHT_TEXT("Leave the sensor in. Look next at its connector and harness, its seat on the coil, then at "
                      "heater, limit thermostat and control.")},
      {"find-the-sheet-only",
       OHMWRIGHT_TEXT("Look for the appliance's sheet (behind the kick plate, in the control's pocket) and give its "
                      "ratings: only against them can it be judged.")},
      {"wet-and-dry-again",
       OHMWRIGHT_TEXT("Wet and dry it is not told apart: read it both ways again at one temperature, soaked, by one "
                      "thermometer with a smaller doubt."),
       "wet-and-dry"},
      {"lowest-range",
       OHMWRIGHT_TEXT(
           "Read it once more on the lowest range of ohms, the probes shorted first (--leads); if that shows OL, go up "
           "range by range. Say the range (--range).")},
      {"unit-was-fahrenheit",
       OHMWRIGHT_TEXT("First look again: {shown} would be right at {degrees} °F. Was the unit of the temperature "
                      "mistaken?")},
      {"unit-was-celsius",
       OHMWRIGHT_TEXT("First look again: {shown} would be right at {degrees} °C. Was the unit of the temperature "
                      "mistaken?")},
      {"let-it-settle",
       OHMWRIGHT_TEXT(
           "Leave it ten minutes at each temperature, bagged, with the thermometer beside it, until the ohms stand "
           "still, and read it again. If they never follow the thermometer, see what the probes are on."),
       "ohms-in-ice-water"},
      {"clips-touch",
       OHMWRIGHT_TEXT("First see that the probe clips do not touch each other, and that the connector is really off.")},
      {"twins-in-ice-water",
       OHMWRIGHT_TEXT("Read both in stirred ice water, bagged, ten minutes: the one that misses its chart there is the "
                      "bad one."),
       "ohms-in-ice-water"},
      {"name-the-control",
       OHMWRIGHT_TEXT(
           "The volts tell its ohms only with what feeds it: name the board with --control, or put its pull-up and its "
           "reference voltage into a file (--control FILE). Surer: unplug, prove dead and read the ohms."),
       "ohms-from-the-board"},
  };
}

}  // namespace ohmwright::defrost_sensor
