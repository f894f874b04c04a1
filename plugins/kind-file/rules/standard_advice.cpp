#include "rules/standard_advice.hpp"

#include "model/texts.hpp"

namespace ohmwright::kind_file {

namespace {

constexpr std::array<StandardAdviceRow, standard_advice_count> rows{{
    {{"lift-a-lead",
      OHMWRIGHT_TEXT("Unplug, prove dead, lift one of its leads or pull its connector, and read the part "
                     "alone (--lead-off).")},
     0},
    {{"prove-dead", OHMWRIGHT_TEXT("Prove the points dead and read again (--proved-dead).")}, 0},
    {{"read-unplugged", OHMWRIGHT_TEXT("Unplug the appliance, prove it dead, lift one of its leads and read again.")},
     0},
    {{"dry-it", OHMWRIGHT_TEXT("Keep the wet reading as found, then dry the part and its connector and read again.")},
     0},
    {{"read-again", OHMWRIGHT_TEXT("Read again with clean contacts, fingers off the probes.")}, 0},
    {{"higher-range", OHMWRIGHT_TEXT("Choose a higher range, or say which range the meter was on (--range).")}, 0},
    {{"say-ratings",
      OHMWRIGHT_TEXT("Say what the part should be (--ratings): its figures are on its stamp, its plate or "
                     "its data sheet.")},
     0},
    {{"better-meter",
      OHMWRIGHT_TEXT(
          "The meter is {share_percent} % of the doubt. The same reading by one of ±0.3 % would settle it in "
          "{chance_percent} cases of 100.")},
     only(Field::share_percent) | only(Field::chance_percent)},
    {{"prove-insulation",
      OHMWRIGHT_TEXT("Test it with a 500 V insulation tester (--test 500V). First unplug boards, sensors and "
                     "direct-current fans, and take the part's leads off; test to the frame only, and discharge "
                     "afterwards. Until then do not energise it.")},
     0},
}};

}  // namespace

const std::array<StandardAdviceRow, standard_advice_count>& standard_advice() { return rows; }

}  // namespace ohmwright::kind_file
