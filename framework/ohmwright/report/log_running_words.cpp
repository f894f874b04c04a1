#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_verdict_table.hpp>

namespace ohmwright {

namespace {

constexpr std::array<FilledField, 4> power_fields{FilledField{"watt"}, FilledField{"least_watt"},
                                                  FilledField{"most_watt"}, FilledField{"line_volt"}};
constexpr std::array<FilledField, 4> too_hot_fields{count_field, all_field, FilledField{"celsius", WrittenAs::tenths}};
constexpr std::array<FilledField, 4> heat_fields{FilledField{"from_second", WrittenAs::duration},
                                                 FilledField{"lasted_second", WrittenAs::duration}, FilledField{"watt"},
                                                 FilledField{"celsius", WrittenAs::tenths}};
constexpr std::array<FilledField, 4> change_fields{
    FilledField{"from_second", WrittenAs::duration}, FilledField{"lasted_second", WrittenAs::duration},
    FilledField{"before", WrittenAs::tenths}, FilledField{"after", WrittenAs::tenths}};
constexpr std::array<FilledField, 4> air_fields{FilledField{"kelvin", WrittenAs::tenths}, FilledField{"most_kelvin"}};
constexpr std::array<FilledField, 4> stood_fields{FilledField{"rest_second", WrittenAs::duration},
                                                  FilledField{"from_second", WrittenAs::duration},
                                                  FilledField{"celsius", WrittenAs::tenths}};

constexpr std::array<FilledField, 4> warm_fields{FilledField{"coil", WrittenAs::tenths},
                                                 FilledField{"cabinet", WrittenAs::tenths}};

constexpr std::array running_words{
    VerdictWords{"runs-and-cools", "not-shown", OHMWRIGHT_TEXT("Whether it runs is not shown.")},
    VerdictWords{"runs-and-cools", "runs", OHMWRIGHT_TEXT("It runs from the first row to the last.")},
    VerdictWords{
        "runs-and-cools", "stands",
        OHMWRIGHT_TEXT("From {from_second} into the log on nothing ran for {rest_second}: was it unplugged or "
                       "set off, is the outlet dead, or did the meter lose it? Until that is settled, this time "
                       "tells nothing of a part."),
        stood_fields},
    VerdictWords{"runs-and-cools", "stands-warm",
                 OHMWRIGHT_TEXT("From {from_second} into the log on it did not cool for {rest_second}, and was at "
                                "{celsius} °C: was it unplugged or set off, or is it dead? Outlet, plug and controls "
                                "come first; until that is settled, this time tells nothing of a part."),
                 stood_fields},
    VerdictWords{
        "runs-and-cools", "cools-unseen",
        OHMWRIGHT_TEXT("From {from_second} into the log on no run was seen for {rest_second}, and it stayed at "
                       "{celsius} °C all the same: did the meter lose it? Until that is settled, this time tells "
                       "nothing of a part."),
        stood_fields},
    VerdictWords{"heat-stops", "not-shown", OHMWRIGHT_TEXT("Whether the heating stops is not shown.")},
    VerdictWords{"heat-stops", "stops", OHMWRIGHT_TEXT("Each of {all} heatings stopped."), {all_field}},
    VerdictWords{
        "heat-stops", "may-go-on",
        OHMWRIGHT_TEXT("From {from_second} into the log on a load stands for {lasted_second} without a stop: does the "
                       "coil get hot? Then switch it off or unplug it now (fire, spoilt food): a heater does not "
                       "stop. Does it get cold, the compressor runs on."),
        heat_fields},
    VerdictWords{
        "heat-stops", "may-go-on-air",
        OHMWRIGHT_TEXT("From {from_second} into the log on the cabinet is at {celsius} °C for {lasted_second}, warmer "
                       "than most rooms: something may heat it. Unplug it until you know (fire, spoilt food); what is "
                       "unplugged gets no warmer than its room."),
        heat_fields},
    VerdictWords{
        "heat-stops", "hot-before-cold",
        OHMWRIGHT_TEXT("In the log's first hours it was at {celsius} °C for {lasted_second}, and it has been cold ever "
                       "since: was the logger in the appliance yet? If it was, something heated it: do not leave it "
                       "running before you know what (fire)."),
        heat_fields},
    VerdictWords{"heat-stops", "hot-beside-cold-air",
                 OHMWRIGHT_TEXT(
                     "From {from_second} into the log on the coil's probe is at {celsius} °C for {lasted_second}, and "
                     "the cabinet stays frozen: where did the probe lie? On the coil it means heat that does not "
                     "stop: unplug it until you know (fire)."),
                 heat_fields},
    VerdictWords{"heat-stops", "never-rests-cold",
                 OHMWRIGHT_TEXT(
                     "From {from_second} into the log to its end the load never rests, for {lasted_second}, though it "
                     "had always stopped before, and the coil stays cold: the compressor no longer stops, or a "
                     "heater is on beside it. Compare the watts with those of the runs before; where a heater is on, "
                     "unplug it now (fire)."),
                 heat_fields},
    VerdictWords{"heat-stops", "never-rests",
                 OHMWRIGHT_TEXT(
                     "From {from_second} into the log to its end the load never rests, for {lasted_second}, {watt} W, "
                     "though it had always stopped before: the compressor no longer stops, or a heater is on beside "
                     "it. Compare the watts with those of the runs before, and feel for heat from outside; where a "
                     "heater is on, unplug it now (fire)."),
                 heat_fields},
    VerdictWords{"heat-stops", "never-rests-load",
                 OHMWRIGHT_TEXT(
                     "From {from_second} into the log to its end the load never rests, for {lasted_second}, though it "
                     "had always stopped before: the compressor no longer stops, or a heater is on beside it. Compare "
                     "the amperes with those of the runs before, and feel for heat from outside; where a heater is on, "
                     "unplug it now (fire)."),
                 heat_fields},
    VerdictWords{"heat-stops", "never-falls",
                 OHMWRIGHT_TEXT(
                     "For {lasted_second} the load never falls below {watt} W, as much as a defrost heater draws: a "
                     "heater may be on all the time beside the compressor. Does the coil thaw or get hot while the "
                     "compressor stands? Then switch it off or unplug it now (fire, spoilt food). Else something else "
                     "on the meter draws it, or a compressor that never stops."),
                 heat_fields},
    VerdictWords{"heat-stops", "never-falls-load",
                 OHMWRIGHT_TEXT(
                     "For {lasted_second} the load never falls below what a defrost heater draws: a heater may be on "
                     "all the time beside the compressor. Does the coil thaw or get hot while the compressor stands? "
                     "Then switch it off or unplug it now (fire, spoilt food). Else something else on the meter draws "
                     "it, or a compressor that never stops."),
                 heat_fields},
    VerdictWords{
        "heat-stops", "thaws-beside",
        OHMWRIGHT_TEXT(
            "It heats and does not stop: from {from_second} into the log on for {lasted_second} the load never "
            "rests, {watt} W, and the coil thaws whenever the compressor stands. Switch it off or unplug it "
            "now: it can start a fire, and the food spoils. Then test thermostat, thermal link and control."),
        heat_fields},
    VerdictWords{
        "heat-stops", "thaws-beside-load",
        OHMWRIGHT_TEXT(
            "It heats and does not stop: from {from_second} into the log on for {lasted_second} the load never "
            "rests, and the coil thaws whenever the compressor stands. Switch it off or unplug it now: it can "
            "start a fire, and the food spoils. Then test thermostat, thermal link and control."),
        heat_fields},
    VerdictWords{"heat-stops", "heated-and-stopped",
                 OHMWRIGHT_TEXT(
                     "From {from_second} into the log on a load of {watt} W stood for {lasted_second}, longer than any "
                     "defrost heats, and stopped; since then the load comes and goes. Was something else on the meter? "
                     "If not, find out what drew it before you leave: a heater that sticks now and then can start a "
                     "fire."),
                 heat_fields},
    VerdictWords{"heat-stops", "heated-and-stopped-load",
                 OHMWRIGHT_TEXT(
                     "From {from_second} into the log on a load stood for {lasted_second}, longer than any defrost "
                     "heats, and stopped; since then the load comes and goes. Was something else on the meter? If not, "
                     "find out what drew it before you leave: a heater that sticks now and then can start a fire."),
                 heat_fields},
    VerdictWords{
        "heat-stops", "goes-on-air",
        OHMWRIGHT_TEXT("Something heats it and does not stop: from {from_second} into the log on for {lasted_second}, "
                       "the cabinet at {celsius} °C, warmer than any room. Switch it off or unplug it now: it can "
                       "start a fire, and the food spoils. Then test thermostat, thermal link and control."),
        heat_fields},
    VerdictWords{
        "heat-stops", "goes-on-hot",
        OHMWRIGHT_TEXT("It heats and does not stop: from {from_second} into the log on for {lasted_second}, {watt} W, "
                       "the coil at {celsius} °C. Switch it off or unplug it now: it can start a fire, and the food "
                       "spoils. Then test thermostat, thermal link and control."),
        heat_fields},
    VerdictWords{
        "heat-stops", "goes-on-hot-coil",
        OHMWRIGHT_TEXT("It heats and does not stop: from {from_second} into the log on for {lasted_second}, the coil "
                       "at {celsius} °C. Switch it off or unplug it now: it can start a fire, and the food spoils. "
                       "Then test thermostat, thermal link and control."),
        heat_fields},
    VerdictWords{
        "heat-stops", "goes-on",
        OHMWRIGHT_TEXT("It heats and does not stop: from {from_second} into the log on for {lasted_second}, {watt} W. "
                       "Switch it off or unplug it now: it can start a fire, and the food spoils. Then test "
                       "thermostat, thermal link and control."),
        heat_fields},
    VerdictWords{
        "heat-stops", "goes-on-load",
        OHMWRIGHT_TEXT("It heats and does not stop: from {from_second} into the log on for {lasted_second}. Switch it "
                       "off or unplug it now: it can start a fire, and the food spoils. Then test thermostat, thermal "
                       "link and control."),
        heat_fields},
    VerdictWords{"coil-heat", "no-coil", OHMWRIGHT_TEXT("How warm the coil got was not logged.")},
    VerdictWords{"coil-heat", "no-heating", OHMWRIGHT_TEXT("No heating was seen with the coil's temperature.")},
    VerdictWords{"coil-heat", "cool-enough",
                 OHMWRIGHT_TEXT("No defrost heated the coil on when the ice was gone: {celsius} °C at most."),
                 too_hot_fields},
    VerdictWords{
        "coil-heat", "too-hot",
        OHMWRIGHT_TEXT("In {count} of {all} the coil was heated on to {celsius} °C, where no ice is left: test "
                       "the sensor or thermostat that should have ended them, how it is clipped to the coil, "
                       "and the limit. Until then do not leave it running."),
        too_hot_fields},
    VerdictWords{"heater-power", "no-ratings",
                 OHMWRIGHT_TEXT("The heater's watts are not known (--ratings, "
                                "--appliance).")},
    VerdictWords{"heater-power", "no-line",
                 OHMWRIGHT_TEXT("Without the line voltage the heater's power says nothing "
                                "(--line).")},
    VerdictWords{"heater-power", "no-heating", OHMWRIGHT_TEXT("No heating was seen in watts.")},
    VerdictWords{
        "heater-power", "rows-too-far",
        OHMWRIGHT_TEXT("Its heatings fill few rows each, so what the heater draws cannot be told: log the load "
                       "every minute.")},
    VerdictWords{"heater-power", "may-be-cooling",
                 OHMWRIGHT_TEXT("What draws may be the compressor: the heater's power is not judged.")},
    VerdictWords{"heater-power", "right",
                 OHMWRIGHT_TEXT("The heater draws {watt} W, as it should at {line_volt} V: {least_watt} W to "
                                "{most_watt} W."),
                 power_fields},
    VerdictWords{"heater-power", "unsettled",
                 OHMWRIGHT_TEXT("The heater draws {watt} W; a good one draws {least_watt} W to {most_watt} W at "
                                "{line_volt} V. Read the line voltage while it heats, and give it with its own doubt "
                                "(--line '{line_volt}V ± 1V') to settle it."),
                 power_fields},
    VerdictWords{
        "heater-power", "too-little",
        OHMWRIGHT_TEXT("The heater draws {watt} W, too little: {least_watt} W to {most_watt} W at {line_volt} V. "
                       "Test each of its elements cold, a lead off, and its joints."),
        power_fields},
    VerdictWords{
        "heater-power", "too-much",
        OHMWRIGHT_TEXT("The heater draws {watt} W, too much: {least_watt} W to {most_watt} W at {line_volt} V. "
                       "Test it cold for shorted turns; is it the right one?"),
        power_fields},
    VerdictWords{"air-over-coil", "no-sensors",
                 OHMWRIGHT_TEXT("It takes the temperatures of coil and cabinet to see "
                                "whether air moves.")},
    VerdictWords{"air-over-coil", "other-air",
                 OHMWRIGHT_TEXT("The cabinet logged is warmer than a freezer: its air is not that over the coil.")},
    VerdictWords{"air-over-coil", "no-recovery", OHMWRIGHT_TEXT("No run after a defrost was seen long enough.")},
    VerdictWords{"air-over-coil", "air-moves",
                 OHMWRIGHT_TEXT("After a defrost the coil is {kelvin} K colder than the cabinet: air moves."),
                 air_fields},
    VerdictWords{"air-over-coil", "unsettled",
                 OHMWRIGHT_TEXT("After a defrost the coil is {kelvin} K colder than the cabinet, at the edge of "
                                "{most_kelvin} K: listen for the fan."),
                 air_fields},
    VerdictWords{"air-over-coil", "no-air",
                 OHMWRIGHT_TEXT("After a defrost the coil is {kelvin} K colder than the cabinet, more than "
                                "{most_kelvin} K: no air moves. Test the evaporator fan, and look for ice around it."),
                 air_fields},
    VerdictWords{"frost-load",
                 "too-few",
                 OHMWRIGHT_TEXT("{count} whole intervals between defrosts that melt are too few to see "
                                "the frost grow."),
                 {count_field}},
    VerdictWords{"frost-load", "steady", OHMWRIGHT_TEXT("The frost of an hour does not grow from defrost to defrost.")},
    VerdictWords{"frost-load", "scatters",
                 OHMWRIGHT_TEXT("The frost differs from defrost to defrost too much to tell "
                                "whether it grows.")},
    VerdictWords{"frost-load", "grows",
                 OHMWRIGHT_TEXT("The frost of an hour grows from defrost to defrost: look at door and gasket, then "
                                "whether each defrost clears the coil.")},
    VerdictWords{"lasting-change", "none", OHMWRIGHT_TEXT("Nothing changed in the log and stayed so to its end.")},
    VerdictWords{"lasting-change", "other-matter", OHMWRIGHT_TEXT("Another rule tells what changed in the log.")},
    VerdictWords{"lasting-change", "runs-on",
                 OHMWRIGHT_TEXT("From {from_second} into the log to its end, for {lasted_second}, the compressor no "
                                "longer stops but for defrosts, though it did before: was it filled, or set to quick "
                                "freezing? If not, look at door, condenser and room first; then at the coil's frost, "
                                "the evaporator fan and the control."),
                 change_fields},
    VerdictWords{"lasting-change", "runs-on-warmer",
                 OHMWRIGHT_TEXT("From {from_second} into the log to its end, for {lasted_second}, the compressor no "
                                "longer stops but for defrosts, and the cabinet is at {after} °C in the mean, {before} "
                                "°C before: was it filled? If not, look at door, room, condenser and its fan; then at "
                                "the coil's frost and the evaporator fan. If these are good, the sealed system is "
                                "left: licensed work."),
                 change_fields},
    VerdictWords{"lasting-change", "runs-on-colder",
                 OHMWRIGHT_TEXT("From {from_second} into the log to its end, for {lasted_second}, the compressor no "
                                "longer stops but for defrosts, and the cabinet is at {after} °C in the mean, {before} "
                                "°C before: was it set colder, or to quick freezing? If not, test the thermostat or "
                                "sensor and the control that should stop it; door and condenser are not to blame."),
                 change_fields},
    VerdictWords{
        "lasting-change", "runs-warm",
        OHMWRIGHT_TEXT("It runs and does not get cold: the coil is at {coil} °C in the log's last half day. No "
                       "defrost part explains this. Look at the condenser and its fan first; then the sealed "
                       "system is left: licensed work."),
        warm_fields},
    VerdictWords{"lasting-change", "runs-warm-cabinet",
                 OHMWRIGHT_TEXT("It runs and does not get cold: the coil is at {coil} °C and the cabinet at {cabinet} "
                                "°C in the log's last half day. No defrost part explains this. Look at the condenser "
                                "and its fan first; then the sealed system is left: licensed work."),
                 warm_fields},
    VerdictWords{"lasting-change", "coil-warm",
                 OHMWRIGHT_TEXT("It does not get cold: the coil is at {coil} °C in the log's last half day. Where "
                                "anything at the coil is hot, unplug it. If not, no defrost part explains this: does "
                                "the compressor run? If not, look at outlet, control and its starter; if so, at the "
                                "condenser and its fan, and then the sealed system is left: licensed work."),
                 warm_fields},
    VerdictWords{
        "lasting-change", "coil-warm-cabinet",
        OHMWRIGHT_TEXT("It does not get cold: the coil is at {coil} °C and the cabinet at {cabinet} °C in the log's "
                       "last half day. Where anything at the coil is hot, unplug it. If not, no defrost part explains "
                       "this: does the compressor run? If not, look at outlet, control and its starter; if so, at the "
                       "condenser and its fan, and then the sealed system is left: licensed work."),
        warm_fields},
    VerdictWords{"lasting-change", "less-heat",
                 OHMWRIGHT_TEXT("From {from_second} into the log to its end the heater draws {after} W, and {before} W "
                                "before: test each of its elements cold, a lead off, and its joints."),
                 change_fields},
    VerdictWords{"lasting-change", "more-heat",
                 OHMWRIGHT_TEXT("From {from_second} into the log to its end the heater draws {after} W, and {before} W "
                                "before: does another load draw with it, or are turns of it shorted?"),
                 change_fields},
    VerdictWords{"lasting-change", "other-current",
                 OHMWRIGHT_TEXT("From {from_second} into the log to its end the heater draws {after} A, and {before} A "
                                "before: test each of its elements cold, a lead off, and its joints."),
                 change_fields},
    VerdictWords{"lasting-change", "warmer",
                 OHMWRIGHT_TEXT("From {from_second} into the log to its end the cabinet is at {after} °C in the mean, "
                                "and {before} °C before: was it set warmer, filled or left open? If not, look at the "
                                "coil's frost, the evaporator fan and the door."),
                 change_fields},
    VerdictWords{"lasting-change", "colder",
                 OHMWRIGHT_TEXT("From {from_second} into the log to its end the cabinet is at {after} °C in the mean, "
                                "and {before} °C before: was it set colder, or to quick freezing? If not, look whether "
                                "the compressor still stops, and at the thermostat or sensor that should stop it."),
                 change_fields},
    VerdictWords{"lasting-change", "warmer-coil",
                 OHMWRIGHT_TEXT("From {from_second} into the log to its end the coil is at {after} °C in the mean, and "
                                "{before} °C before. Does a heater stay on beside the compressor? Log the power, and "
                                "where anything at the coil is hot, unplug it. If not, look whether it cools, and "
                                "whether the door was open."),
                 change_fields},
    VerdictWords{"lasting-change", "colder-coil",
                 OHMWRIGHT_TEXT("From {from_second} into the log to its end the coil is at {after} °C in the mean, and "
                                "{before} °C before: see whether the evaporator fan turns, and whether the coil is "
                                "thick with frost. Was it set colder?"),
                 change_fields},
    VerdictWords{"lasting-change", "neither-cabinet",
                 OHMWRIGHT_TEXT("The cabinet is at {after} °C as a rule, too warm for a freezer and too cold for a "
                                "refrigerator: is it set so, or the probe in another compartment? If not, look at the "
                                "coil's frost, the evaporator fan, the door and the charge."),
                 change_fields},
    VerdictWords{"compressor-stops", "not-shown", OHMWRIGHT_TEXT("Whether the compressor runs is not shown.")},
    VerdictWords{"compressor-stops", "stops", OHMWRIGHT_TEXT("The compressor stops and starts.")},
    VerdictWords{"compressor-stops", "never-stops",
                 OHMWRIGHT_TEXT("The compressor never stops but for defrosts: look at door, condenser and room first; "
                                "then at the coil's frost, and at the control.")},
    VerdictWords{"compressor-stops", "slows-down",
                 OHMWRIGHT_TEXT("The compressor never stops but for defrosts, and what it draws wanders: it may be an "
                                "inverter, which slows down instead. Judge by the cabinet's temperature.")},
    VerdictWords{"compressor-starts", "not-shown", OHMWRIGHT_TEXT("Starts of the compressor are not shown.")},
    VerdictWords{"compressor-starts", "runs-last", OHMWRIGHT_TEXT("Once started, the compressor runs on.")},
    VerdictWords{"compressor-starts",
                 "short-loads",
                 OHMWRIGHT_TEXT("{pulses} loads of less than a minute: attempts of the compressor to start, or a "
                                "lamp."),
                 {FilledField{"pulses"}}},
};

}  // namespace

std::span<const VerdictWords> words_of_running() { return running_words; }

}  // namespace ohmwright
