#include <ohmwright/quantity/message.hpp>

#include "rules/advice.hpp"

namespace ohmwright::wiring {

std::vector<AdviceDescriptor> describe_advice() {  // in the order of AdviceIndex
  return {
      {"lift-an-end",
       OHMWRIGHT_TEXT("Unplug, prove dead, pull one of its ends off, and read it alone (say --lead-off)."),
       "ohms-dead"},
      {"prove-dead-and-swap",
       OHMWRIGHT_TEXT("In circuit: prove the points dead, read, swap the probes and read again (resistance_swapped=…, "
                      "--proved-dead)."),
       "ohms-dead"},
      {"read-unplugged", OHMWRIGHT_TEXT("Unplug the appliance, prove it dead, pull one end off and read again."),
       "ohms-dead"},
      {"read-something",
       OHMWRIGHT_TEXT(
           "Read its ohms: unplug, prove dead, pull one end off, lowest range (say --lead-off). That finds an "
           "open one; what finds a bad joint is the volts across it under load (drop=…)."),
       "ohms-dead"},
      {"higher-range", OHMWRIGHT_TEXT("Read it once more on a higher range, and say which (--range).")},
      {"touch-the-probes",
       OHMWRIGHT_TEXT(
           "First touch the probes together: they must read near 0 Ω. A broken test lead, the wrong jack or a "
           "flat battery shows OL too.")},
      {"clip-and-move", OHMWRIGHT_TEXT("Unplugged and proved dead, clip the probes on, so that no hand holds them, "
                                       "bend the lead along its length and at each crimp "
                                       "while you read, and give the least and the most (--probes clipped).")},
      {"read-drop",
       OHMWRIGHT_TEXT(
           "Decide it under load, if you are qualified for live work: the volts across it, bare metal to bare "
           "metal, and the amperes through it at the same moment (drop=40mV --load 3.75A --live-agreed)."),
       "drop-live"},
      {"known-current",
       OHMWRIGHT_TEXT(
           "Without live work: both ends off, 1 A from a current-limited supply through it, and the millivolts across "
           "it, read inside the clips of the supply (drop=20mV --load 1A --lead-off --proved-dead)."),
       "drop-bench-supply"},
      {"say-load", OHMWRIGHT_TEXT("Give the amperes that flowed when you read the drop (--load 3.75A)."), "drop-live"},
      {"say-length", OHMWRIGHT_TEXT("Measure how long the lead is and say it (--length 1.5m).")},
      {"say-ratings",
       OHMWRIGHT_TEXT("Say what it is: a lead of which cross-section, a connector or a splice (ohmwright ratings lists "
                      "classes).")},
      {"read-both-again",
       OHMWRIGHT_TEXT(
           "Read both once more: the ohms with clips on clean, bare metal and the meter zeroed; then, if you "
           "are qualified for live work, the drop while you wait for the joint to warm up."),
       "drop-live"},
      {"read-all-of-it",
       OHMWRIGHT_TEXT(
           "Put one clip past each of its crimps (under load, the clamp around this wire alone), measure its length "
           "again, and read once more."),
       "drop-live"},
      {"say-leads",
       OHMWRIGHT_TEXT("Short the probes and say what they read (--leads 0.3ohm; --leads 0 if the meter was zeroed with "
                      "them), then press them on firmly and read again.")},
      {"low-impedance",
       OHMWRIGHT_TEXT(
           "Read the volts with a low-impedance meter, which a ghost cannot feed; or unplug, prove dead, pull "
           "one end off and read its ohms."),
       "drop-live"},
      {"what-draws",
       OHMWRIGHT_TEXT("Find out what draws so much, or what this wire should have been: compare its cross-section with "
                      "that of the wiring diagram.")},
      {"insulation-tester",
       OHMWRIGHT_TEXT(
           "Test it with a 500 V insulation tester (insulation=… --test 500V): both ends off, boards, sensors "
           "and direct-current fans unplugged; discharge it afterwards. Until then do not energise it."),
       "insulation-500-volt"},
      {"dry-and-repeat", OHMWRIGHT_TEXT("Dry it, find where the water came in, and test it once more with 500 V."),
       "insulation-500-volt"},
      {"do-not-energise",
       OHMWRIGHT_TEXT(
           "Leave it unplugged and tell the customer why. Check the protective earth before anything else is "
           "switched on.")},
      {"mend-open",
       OHMWRIGHT_TEXT(
           "Look where it broke before you mend it: at a hinge it will break again, and where it burnt off, a "
           "loose joint or too much current was the cause. Read once more, clips on bare metal, to be sure."),
       "ohms-dead"},
      {"mend-joint",
       OHMWRIGHT_TEXT(
           "Part it at its joints and read each side: drop or ohms show which crimp it is. Cut back to bright "
           "copper and crimp anew with the right tool; do not twist, tape or solder a joint that gets warm or "
           "wet. Then read the drop again."),
       "ohms-dead"},
      {"mend-leak",
       OHMWRIGHT_TEXT("Follow it along sheet edges, hinges and clamps, find the pinched or chafed spot, replace the "
                      "lead, and move it or guard it there.")},
      {"replacement",
       OHMWRIGHT_TEXT(
           "A true replacement has {area} mm² at least, copper as flexible, insulation for as many volts and "
           "as hot a place, as long, with crimps made for that wire.")},
      {"replacement-by-look",
       OHMWRIGHT_TEXT("A true replacement carries the same amperes, suits the same wire, and stands the same heat and "
                      "moisture: in the cold and wet a sealed joint.")},
  };
}

}  // namespace ohmwright::wiring
