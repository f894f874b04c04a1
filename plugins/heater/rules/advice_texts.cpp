#include <ohmwright/component/insulation_when_wet.hpp>
#include <ohmwright/quantity/message.hpp>

#include "rules/advice.hpp"

namespace ohmwright::heater {

std::vector<AdviceDescriptor> describe_advice() {  // in the order of AdviceIndex
  return {
      {"lift-a-lead",
       OHMWRIGHT_TEXT("Unplug, prove dead, pull one of its leads off, and read it alone (say --lead-off)."),
       "element-cold"},
      {"prove-dead-and-swap",
       OHMWRIGHT_TEXT("In circuit: prove the points dead, read, swap the probes and read again "
                      "(resistance_swapped=…, --proved-dead)."),
       "element-cold"},
      {"read-unplugged", OHMWRIGHT_TEXT("Unplug the appliance, prove it dead, lift a lead and read again."),
       "element-cold"},
      {"read-cold",
       OHMWRIGHT_TEXT(
           "Read its ohms cold: unplug, prove dead, pull one of its leads off, lowest ohms range, on its own "
           "terminals (say --lead-off)."),
       "element-cold"},
      {"higher-range", OHMWRIGHT_TEXT("Read it once more on a higher range, and say which (--range).")},
      {"touch-the-probes",
       OHMWRIGHT_TEXT(
           "First touch the probes together: they must read near 0 Ω. A broken test lead, the wrong jack or a "
           "flat battery shows OL too.")},
      {"firm-probes",
       OHMWRIGHT_TEXT(
           "Clean the terminals, press the probes on firmly, move the leads while you read, and read again.")},
      {"better-meter",
       OHMWRIGHT_TEXT(
           "Short the probes, zero the meter, and read it again with a good one (--meter good): that decides "
           "it with a chance of {chance_percent} %.")},
      {"let-it-cool",
       OHMWRIGHT_TEXT(
           "Unplug, let it cool until your hand can stay on it, and read it cold: then the wire's heat is no "
           "guess."),
       "element-cold"},
      {"read-both-again",
       OHMWRIGHT_TEXT(
           "Read both once more: the ohms cold on bare, clean terminals with a lead off and the meter zeroed; "
           "then, if you are qualified for live work, amperes around one of its own leads and volts at the "
           "same moment."),
       "current-under-load"},
      {"clamp-under-load",
       OHMWRIGHT_TEXT(
           "Decide it under load, if you are qualified for live work: clamp around one of its leads while it "
           "heats, and the volts at the outlet (--line 118V --current 3.6A --live-agreed)."),
       "current-under-load"},
      {"say-line-voltage", OHMWRIGHT_TEXT("Give the volts that it gets while it heats (--line).")},
      {"volts-at-element",
       OHMWRIGHT_TEXT(
           "Read the volts across its own two leads while it should heat (terminals=… --live-agreed): full volts and "
           "no current condemn it, no volts clear it and lead upstream. Live work, for the qualified."),
       "volts-at-element"},
      {"volts-and-amperes-at-element",
       OHMWRIGHT_TEXT(
           "Read the volts across its own two leads and its amperes at the same moment (terminals=118V "
           "current=3.6A --live-agreed): then nothing on the way to it counts. Live work, for the qualified."),
       "volts-at-element"},
      {"clamp-with-volts",
       OHMWRIGHT_TEXT("Put a clamp around one of its leads at the same time (--current): volts and no current condemn "
                      "it."),
       "current-under-load"},
      {"clamp-alone",
       OHMWRIGHT_TEXT("Put the clamp around one of the element's own leads, where nothing else draws (--current with "
                      "--line or terminals=…). Live work, for the qualified; then test it to the frame with 500 V."),
       "current-under-load"},
      {"find-the-volts",
       OHMWRIGHT_TEXT(
           "Read the volts at the outlet, between all its poles: a two-leg supply that has lost a leg, a bad "
           "splice or a heater for another voltage. Live work, for the qualified."),
       "volts-at-element"},
      {"look-upstream",
       OHMWRIGHT_TEXT("Look before it: limit thermostat or defrost thermostat, thermal link, control or timer, and the "
                      "splices. Prove dead, then go from part to part with one lead off.")},
      {"insulation-tester",
       OHMWRIGHT_TEXT("Test it with a 500 V insulation tester (insulation=… --test 500V). First unplug boards, sensors "
                      "and direct-current fans, and take both leads off the element; test from the element to the "
                      "frame only, and discharge afterwards. Until then do not energise it."),
       "insulation-500-volt"},
      {"frame-too",
       OHMWRIGHT_TEXT(
           "Unplugged, read from each terminal to the frame as well (insulation=…), before it is energised or "
           "handed back: nothing read so far speaks of its insulation."),
       "element-cold"},
      {"dry-and-repeat",
       OHMWRIGHT_TEXT(
           "A metal-sheathed element takes in moisture when it lies unused, and a wet terminal leaks: dry it "
           "warm for some hours, off the appliance, and test it once more with 500 V (--dry).")},
      {"do-not-energise",
       OHMWRIGHT_TEXT(
           "Leave it unplugged and tell the customer why. Check the protective earth before anything else is "
           "switched on.")},
      {"say-ratings",
       OHMWRIGHT_TEXT("Read the volts and watts on its plate or in the sheet and give its ratings (ohmwright ratings "
                      "lists classes).")},
      {"opens-when-hot",
       OHMWRIGHT_TEXT(
           "While it is cold and unplugged, fix insulated clip leads to its own two leads. Heat it, unplug, prove "
           "dead at the clips and read its ohms there at once; touch nothing else, for it burns and hot glass "
           "splinters. Read again when it is cold: OL hot and a value cold proves it. Look also at its crimps."),
       "element-hot"},
      {"before-buying",
       OHMWRIGHT_TEXT("Before you buy: read once more on the bare terminals of the element itself, a lead off. Leads, "
                      "crimps and a link in them fail more often than the wire.")},
      {"before-buying-power",
       OHMWRIGHT_TEXT("Before you buy: check that the clamp holds one wire of this heater alone, and read volts and "
                      "current once more at the same moment.")},
      {"replacement",
       OHMWRIGHT_TEXT(
           "A true replacement is for {voltage} and {power}, as long, and built in the same way: what glows in "
           "glass in place of a sheath is no equal, however well the ohms agree, and least of all where the "
           "refrigerant is flammable.")},
      {"replacement-by-plate",
       OHMWRIGHT_TEXT(
           "A true replacement has the volts and watts of the plate, the same length and the same build; equal "
           "ohms alone are no equal part.")},
      {"look-upstream-first",
       OHMWRIGHT_TEXT(
           "Cold it is whole, so look for an open before it first: unplug, prove dead, and read thermal link, "
           "thermostat, control and every splice, each with a lead off. It opens when hot only if all of them conduct, "
           "and the volts were read on its own bare terminals with the clamp on its own lead.")},
      {"leakage-test",
       OHMWRIGHT_TEXT(
           "At {voltage} that insulation lets {leakage} through by itself, and a new appliance of its class may leak "
           "{most} in all, what {needed} would let through (its capacitance comes on top of the megohms): hand it back "
           "only after a leakage test.")},
      {"misread-decimal",
       OHMWRIGHT_TEXT(
           "First look again: {shown} would be right as {right}. Was the k, the point or the range misread?")},
      {"switch-off-now",
       OHMWRIGHT_TEXT(
           "Switch it off at the wall now, and let it cool: {volts} where {voltage} belong. Then, unplugged, read the "
           "plate of heater and appliance: the heater is for another voltage, two legs are where one belongs, or a "
           "neutral is lost. Nothing is heated before that is found.")},
      {"both-leads-off",
       OHMWRIGHT_TEXT("Unplug, prove dead, take both leads off the element and test it to the frame once more (say "
                      "--lead-off behind the reading). Until then do not energise it."),
       "insulation-500-volt"},
      {"test-once-more",
       OHMWRIGHT_TEXT(
           "Clean and dry its terminals and test it once more with 500 V, for a minute, both leads off. Until "
           "then do not energise it."),
       "insulation-500-volt"},
      {"then-volts-at-element",
       OHMWRIGHT_TEXT(
           "Once it has passed that test: read the volts across its own two leads while it should heat (terminals=… "
           "--live-agreed). Full volts and no current condemn it, no volts clear it and lead upstream. Live work, for "
           "the qualified."),
       "volts-at-element"},
      {"then-volts-and-amperes",
       OHMWRIGHT_TEXT(
           "Once it has passed that test: read the volts across its own two leads and its amperes at the same moment "
           "(terminals=118V current=3.6A --live-agreed). That tells the joint on the way from the element. Live work, "
           "for the qualified."),
       "volts-at-element"},
      {"seal-its-ends",
       OHMWRIGHT_TEXT("Seal or renew its ends, seals and splices, or the element; then wet it and test it once more "
                      "with 500 V (insulation=… --wet --test 500V). Until then do not energise it."),
       "insulation-500-volt"},
      {"before-buying-watts",
       OHMWRIGHT_TEXT(
           "Before you buy: read the watts and the volts of the outlet once more at the same moment, and see "
           "that nothing switches the heater off meanwhile.")},
      say_if_it_was_wet_advice(),
      wet_with_more_volts_advice("insulation-500-volt"),
      {"leave-out-stale-volts",
       OHMWRIGHT_TEXT("Leave out the volts that were read before something was changed: probes, wires, switch or feed. "
                      "Where nothing "
                      "was changed, read them once more across its own two leads (terminals=… --live-agreed), if you "
                      "are qualified for live "
                      "work."),
       "volts-at-element"},
      {"in-place-of-leads-on",
       OHMWRIGHT_TEXT(
           "Give what it reads with its leads off in place of the reading with its leads on, not beside it. Where it "
           "is no longer low, what hung on the leads leaks: find that before anything is energised.")},
      {"find-the-joint",
       OHMWRIGHT_TEXT("Of the volts at the outlet {lost} are lost before they reach it, {heat} of heat: a joint, a "
                      "connector or a contact on the way burns. Leave it unplugged until that is found.")},
  };
}

}  // namespace ohmwright::heater
