#include "rules/running_texts.hpp"

#include "rules/running.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_running() {  // texts in the order of RunningText
  return {
      "running",
      OHMWRIGHT_TEXT("How it runs"),
      true,
      can_pass | can_condemn | can_be_undecided,
      "n = 120 f/p*(1 - s); slip up to 20 % (shaded pole) and 10 % (capacitor run): common practice, no source",
      {
          {"turns-right", OHMWRIGHT_TEXT("It turns at {measured}; a good one turns at {lower} to {upper}.")},
          {"turns-slow",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. It gets its volts and its wheel is "
               "free, so its winding, its electronics or a bearing that drags when it runs holds it back.")},
          {"turns-slow-perhaps-held",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. But flicked by hand it stops at "
               "once, and one that ice holds is slow as well: thaw it first.")},
          {"turns-slow-volts-unknown",
           OHMWRIGHT_TEXT("It turns at {measured}; a good one turns at {lower} to {upper}. Nothing that was read says "
                          "whether it gets its volts: with too few a good one is slow as well.")},
          {"turns-slow-volts-low",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. But it gets too few volts, and "
               "with those a good one is slow as well: look before it.")},
          {"turns-fast",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. Coil, ducts and wheel were said to "
               "be clear, so it is another motor, or its electronics no longer hold its speed.")},
          {"turns-unsure",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}: too near to an end to tell.")},
          {"draws-right",
           OHMWRIGHT_TEXT("Judged by what it draws: {measured}, and a good one draws {lower} to {upper} under its "
                          "fan.")},
          {"draws-wrong",
           OHMWRIGHT_TEXT("Judged by what it draws: {measured}, and a good one draws {lower} to {upper} under its "
                          "fan.")},
          {"draws-much-perhaps-held",
           OHMWRIGHT_TEXT(
               "It draws {measured}, and a good one draws {lower} to {upper}. But one whose wheel is held, by ice "
               "or by its bearing, draws so as well: first see it turn freely.")},
          {"draws-unsure",
           OHMWRIGHT_TEXT("Judged by what it draws: {measured}, and a good one draws {lower} to {upper}: with this "
                          "instrument too near to an end to tell.")},
          {"jumping",
           OHMWRIGHT_TEXT(
               "How it runs was read more than once, and the readings jump by about {scatter_percent} %: their "
               "mean says nothing. Its feed comes and goes, or something holds its wheel at times.")},
          {"stands-still", OHMWRIGHT_TEXT("It stands still. Whether it should turn is said by the volts at its plug.")},
          {"speed-unknown",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; how fast it should turn is not known: the ratings state neither speed "
               "nor poles and frequency.")},
          {"pulses-unknown",
           OHMWRIGHT_TEXT("Its tachometer gives pulses, but how many a turn is not known: they show that it turns, not "
                          "how fast.")},
          {"no-ratings",
           OHMWRIGHT_TEXT(
               "Nothing is known of this motor, so only open, shorted, blocked and leaking can be told: name "
               "its ratings.")},
          {"not-run", OHMWRIGHT_TEXT("Not judged: it was not seen running.")},
          {"tach-silent",
           OHMWRIGHT_TEXT(
               "Its tachometer gives no pulses. That does not say that it stands still: without supply and pull-up, on "
               "a wrong pin or a broken lead there are none either. Whether it turns was not said.")},
          {"tach-silent-while-turning",
           OHMWRIGHT_TEXT(
               "It turns at {measured}, and its tachometer gives no pulses: the tachometer, its lead or its pull-up is "
               "at fault, or a wrong pin was read. A control that counts pulses takes it for a fan that stands.")},
          {"tach-while-still",
           OHMWRIGHT_TEXT(
               "It stands still, and its tachometer gives pulses: a wrong pin was read, or the meter counts what the "
               "supply is pulsed with.")},
          {"tach-another-speed",
           OHMWRIGHT_TEXT(
               "It turns at {measured}, and by its tachometer it would turn at {by_tach}: the pulses a turn are not as "
               "rated, a wrong pin was read, or the blades were counted for turns.")},
          {"turns-wrong-perhaps-pulses",
           OHMWRIGHT_TEXT(
               "By its tachometer it turns at {measured}; a good one turns at {lower} to {upper}. That stands on "
               "{pulses} pulses a turn: with {others} it would be right, so see its speed itself.")},
          {"turns-right-volts-low",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. Yet the meter shows only {volts} at "
               "its "
               "plug, where {rated} belong: some are lost before it, or other pins were read; a direct supply that is "
               "pulsed shows less than it is.")},
          {"turns-without-volts",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. But the meter shows only {volts} at "
               "its "
               "plug, where {rated} belong, and with those none turns so fast: other pins were read, or its supply is "
               "pulsed, which fools a direct-voltage range.")},
          {"turns-slow-perhaps-pulsed",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. But the meter shows only {volts} at "
               "its "
               "plug, where {rated} belong: with too few a good one is slow as well, and a control that pulses its "
               "supply makes it slow on purpose and shows a direct-voltage range less than it is.")},
          {"turns-past-synchronous", OHMWRIGHT_TEXT("It was read as {measured}, and no motor of {poles} poles turns "
                                                    "faster than {fastest} on {frequency}: its "
                                                    "blades were counted for turns (divide by their number), or it has "
                                                    "fewer poles. That condemns no motor.")},
          {"turns-fast-perhaps-blades",
           OHMWRIGHT_TEXT(
               "It was read as {measured}; a good one turns at {lower} to {upper}. With {blades} blades, each counted "
               "for a turn, it would be right: read it once more.")},
          {"turns-fast-volts-unknown",
           OHMWRIGHT_TEXT("It turns at {measured}; a good one turns at {lower} to {upper}. Nothing that was read says "
                          "how many volts it gets: with too many a good one of this make turns too fast as well.")},
          {"turns-fast-volts-high", OHMWRIGHT_TEXT("It turns at {measured}; a good one turns at {lower} to {upper} at "
                                                   "{rated}. But it gets {volts}, and with "
                                                   "those a good one of this make turns faster as well.")},
          {"draws-at-other-volts",
           OHMWRIGHT_TEXT(
               "Judged by what it draws: {measured}, and a good one draws {lower} to {upper} under its fan at "
               "{rated}. But it gets {volts}, and what a good one draws there is not known.")},
          {"draws-little-volts-unknown",
           OHMWRIGHT_TEXT(
               "Judged by what it draws: {measured}, and a good one draws {lower} to {upper} under its fan. "
               "Nothing that was read says whether it gets its volts: with too few a good one draws less as well.")},
          {"too-many-volts", OHMWRIGHT_TEXT("Not judged: it gets too many volts.")},
          {"draws-little-perhaps-air",
           OHMWRIGHT_TEXT("Judged by what it draws: {measured}, and a good one draws {lower} to {upper} under its fan. "
                          "Blocked air and a loose wheel take its load away: that they are clear was not said.")},
          {"turns-slow-wheel-unknown",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. It gets its volts, but one at whose "
               "wheel ice rubs is slow as well: whether its wheel turns freely by hand was not said.")},
          {"turns-slow-perhaps-told",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. It gets its volts and its wheel is "
               "free, but one with a wire for a control signal turns as slowly as that tells it to: what it was told "
               "was not said.")},
          {"turns-fast-perhaps-air",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. Blocked air and a loose or missing "
               "wheel take its load away, and then a good one turns faster as well: that they are clear was not "
               "said.")},
          {"turns-slow-perhaps-capacitor",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. It gets its volts and its wheel is "
               "free, but a weak run capacitor makes a good one slow as well, and its own was not found good.")},
          {"draws-much-volts-unknown",
           OHMWRIGHT_TEXT(
               "Judged by what it draws: {measured}, and a good one draws {lower} to {upper} under its fan. Nothing "
               "that was read says how many volts it gets: with too many a good one draws more as well.")},
          {"draws-much-perhaps-capacitor",
           OHMWRIGHT_TEXT(
               "Judged by what it draws: {measured}, and a good one draws {lower} to {upper} under its fan. Beside a "
               "bad run capacitor a good one draws more as well, and its own was not found good.")},
          {"draws-right-perhaps-still",
           OHMWRIGHT_TEXT("It draws {measured}, and a good one draws {lower} to {upper} under its fan. But one whose "
                          "wheel stands still may draw hardly more: whether it turns was not said.")},
          {"turns-speed-not-read",
           OHMWRIGHT_TEXT(
               "It was seen to turn. How fast was not read, and nothing else that was read says that it runs right.")},
          {"turns-right-other-frequency",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; on {frequency} a good one turns at {lower} to {upper}. It is made for "
               "{made_for}.")},
          {"turns-wrong-other-frequency",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; on {frequency} a good one turns at some {lower} to {upper}. But it is made for "
               "{made_for}, and how far a good one lags behind its field elsewhere is not known: that condemns none.")},
          {"draws-at-other-frequency",
           OHMWRIGHT_TEXT("Judged by what it draws: {measured}, and a good one draws {lower} to {upper} under its fan "
                          "on {made_for}. "
                          "But it runs on {frequency}, and what a good one draws there is not known.")},
          {"turns-by-a-minus",
           OHMWRIGHT_TEXT(
               "Its speed was given with a minus, {measured}, which no tachometer shows: it was typed so, or it turns "
               "the "
               "wrong way round and moves little air. Look which way it turns, and give its speed without the minus.")},
      }};
}

}  // namespace ohmwright::fan_motor
