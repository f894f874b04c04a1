#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_verdict_table.hpp>

namespace ohmwright {

namespace {

constexpr FilledField count_field{"count"};
constexpr FilledField all_field{"all"};

constexpr std::array<FilledField, 4> interval_fields{
    FilledField{"shortest_second", WrittenAs::duration}, FilledField{"longest_second", WrittenAs::interval},
    FilledField{"least_second", WrittenAs::duration}, FilledField{"most_second", WrittenAs::interval}};
constexpr std::array<FilledField, 4> short_interval_fields{count_field, all_field,
                                                           FilledField{"shortest_second", WrittenAs::interval},
                                                           FilledField{"least_second", WrittenAs::interval}};
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
constexpr std::array<FilledField, 4> waited_fields{count_field, FilledField{"waited_second", WrittenAs::duration},
                                                   FilledField{"longest_interval_second", WrittenAs::duration}};

constexpr std::array verdict_words{
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
    VerdictWords{"defrosts-come", "nothing-moves",
                 OHMWRIGHT_TEXT("No column of the log moves: there is nothing to look for defrosts in.")},
    VerdictWords{
        "defrosts-come", "none-since",
        OHMWRIGHT_TEXT("Defrosts were seen ({count}), and then none in {waited_second}, though they should come "
                       "at least every {longest_interval_second}: test control or timer (ohmwright locate, "
                       "--symptom no-defrost)."),
        waited_fields},
    VerdictWords{
        "defrosts-come", "none-before",
        OHMWRIGHT_TEXT("Defrosts were seen ({count}), and none in the first {waited_second}, though they should "
                       "come at least every {longest_interval_second}: test control or timer; was it worked on, "
                       "or set off, in between?"),
        waited_fields},
    VerdictWords{
        "defrosts-come", "overdue",
        OHMWRIGHT_TEXT("Defrosts were seen ({count}), at most {longest_interval_second} apart, and then none in "
                       "{waited_second}: log on until the next one comes."),
        waited_fields},
    VerdictWords{"defrosts-come", "no-rows", OHMWRIGHT_TEXT("There is nothing to look for defrosts in.")},
    VerdictWords{"defrosts-come", "seen", OHMWRIGHT_TEXT("It defrosts: {count} seen."), {count_field}},
    VerdictWords{"defrosts-come", "none-seen",
                 OHMWRIGHT_TEXT("It was due for a defrost and none was seen: test control or timer, then heater, limit "
                                "and wiring (ohmwright locate, --symptom no-defrost).")},
    VerdictWords{"defrosts-come",
                 "log-too-short",
                 OHMWRIGHT_TEXT("No defrost in {waited_second}, and they may come as rarely as every "
                                "{longest_interval_second}: log for longer."),
                 {FilledField{"waited_second", WrittenAs::duration},
                  FilledField{"longest_interval_second", WrittenAs::duration}}},
    VerdictWords{"defrosts-come",
                 "gaps-hide",
                 OHMWRIGHT_TEXT("No defrost was seen, but gaps could hide one in {hidden_share} of the time."),
                 {FilledField{"hidden_share", WrittenAs::percent}}},
    VerdictWords{
        "defrosts-come", "cabinet-only",
        OHMWRIGHT_TEXT("No defrost shows in the air of the cabinet, which some hardly do: log the power or the "
                       "coil.")},
    VerdictWords{
        "defrosts-come", "thaws-in-pauses",
        OHMWRIGHT_TEXT("No heater's defrost shows, and the coil warms past the melting point in the compressor's "
                       "pauses: it thaws there, as in many refrigerators, and no other defrost need come.")},
    VerdictWords{"defrosts-come", "load-hides-heater",
                 OHMWRIGHT_TEXT("No heater stands out of the load, but the compressor draws as much as a defrost "
                                "heater may: log the coil, or say what the heater should draw (--ratings, "
                                "--appliance).")},
    VerdictWords{"defrosts-come", "load-hides-half",
                 OHMWRIGHT_TEXT("Defrosts were seen, and for too long none, but half of the heater's watts would not "
                                "stand out from the compressor's: did it lose one of its elements, or does no defrost "
                                "come? Look at the frost, test the elements cold, and log the coil.")},
    VerdictWords{"defrosts-come", "rows-too-far",
                 OHMWRIGHT_TEXT("The rows are too far apart to show each defrost: log the load every minute, or the "
                                "coil every 5 minutes or less.")},
    VerdictWords{"defrosts-come",
                 "rows-hide-them",
                 OHMWRIGHT_TEXT("No defrost was seen in {waited_second}, though they should come at least every "
                                "{longest_interval_second}, and the rows are too far apart to show each one: log the "
                                "load every minute, or the coil every 5 minutes or less, and look whether frost has "
                                "built up."),
                 {FilledField{"waited_second", WrittenAs::duration},
                  FilledField{"longest_interval_second", WrittenAs::duration}}},
    VerdictWords{"defrosts-come", "heats-on",
                 OHMWRIGHT_TEXT("Beside a load that does not stop, whether defrosts came is not shown.")},
    VerdictWords{"defrosts-come",
                 "by-air-alone",
                 OHMWRIGHT_TEXT("{count} rises of the air may be defrosts, and others may not show in it: log the "
                                "power or the coil."),
                 {count_field}},
    VerdictWords{
        "defrosts-come",
        "thaws-in-freezer",
        OHMWRIGHT_TEXT("In {waited_second} the coil thawed {count} times while the cabinet stayed frozen: it "
                       "is heated as often as the compressor pauses, far more often than any control defrosts. "
                       "Look at the timer or control, and at what draws while the coil warms."),
        {FilledField{"waited_second", WrittenAs::duration}, count_field}},
    VerdictWords{"defrosts-come",
                 "thaws-as-no-freezer",
                 OHMWRIGHT_TEXT("In {waited_second} the coil, as cold as a freezer's, thawed {count} times: it is "
                                "heated far more often than any control defrosts. Look at the timer or control, and "
                                "at what draws while the coil warms."),
                 {FilledField{"waited_second", WrittenAs::duration}, count_field}},
    VerdictWords{"defrosts-come",
                 "heats-too-often",
                 OHMWRIGHT_TEXT("In {waited_second} a load well above the compressor's came {count} times, each time "
                                "with a rest behind it as of a defrost: far more often than any control defrosts. Look "
                                "at the timer or control, and at what draws it; log the coil, too."),
                 {FilledField{"waited_second", WrittenAs::duration}, count_field}},
    VerdictWords{"defrosts-come",
                 "too-often",
                 OHMWRIGHT_TEXT("{count} defrosts came in {waited_second}, as a rule {usual_interval_second} from one "
                                "to the next: more often than any control that is known starts them. Look at the timer "
                                "or control, and at what draws while the coil warms."),
                 {count_field, FilledField{"waited_second", WrittenAs::duration},
                  FilledField{"usual_interval_second", WrittenAs::duration}}},
    VerdictWords{"defrosts-come",
                 "seen-in-few-rows",
                 OHMWRIGHT_TEXT("Defrosts were seen ({count}), each in few rows: others may lie between the rows. Log "
                                "the load every minute, or the coil every 5 minutes or less."),
                 {count_field}},
    VerdictWords{"defrosts-come", "too-short-to-show",
                 OHMWRIGHT_TEXT("The load stood above all else now and then, for a row or two: the rows are too far "
                                "apart to show whether a heater drew. Log the load every minute, or the coil every 5 "
                                "minutes or less.")},
    VerdictWords{"defrosts-come", "cools-or-heats",
                 OHMWRIGHT_TEXT("The load has one level above standby, a compressor's or a heater's, and does not show "
                                "which: log the coil too.")},
    VerdictWords{"heater-warms-coil", "no-coil", OHMWRIGHT_TEXT("The coil's temperature was not logged.")},
    VerdictWords{"heater-warms-coil", "no-heating", OHMWRIGHT_TEXT("No heating was seen whole.")},
    VerdictWords{
        "heater-warms-coil", "warms", OHMWRIGHT_TEXT("The coil warmed in each of {all} heatings."), {all_field}},
    VerdictWords{"heater-warms-coil",
                 "no-rise",
                 OHMWRIGHT_TEXT("In {count} of {all} heatings the heater drew power and the coil did not warm: is the "
                                "sensor or logger seated on the coil, or does something else draw that power?"),
                 {count_field, all_field}},
    VerdictWords{"heater-warms-coil",
                 "probe-elsewhere",
                 OHMWRIGHT_TEXT("In {count} of {all} heatings a load stood for ten minutes and more and the logged "
                                "coil stayed far below 0 °C: the probe does not lie on the coil, or the load is "
                                "another's. Tape the probe to the coil and log again; until then nothing is judged by "
                                "it."),
                 {count_field, all_field}},
    VerdictWords{"heater-warms-coil", "rows-too-far",
                 OHMWRIGHT_TEXT("Its heatings fill few rows each, so whether the coil warmed cannot be told: log the "
                                "coil every 5 minutes or less.")},
    VerdictWords{"heat-comes-from-heater", "no-load", OHMWRIGHT_TEXT("Neither power nor current was logged.")},
    VerdictWords{"heat-comes-from-heater", "no-rise", OHMWRIGHT_TEXT("No rise of the coil was seen whole.")},
    VerdictWords{"heat-comes-from-heater",
                 "heater-draws",
                 OHMWRIGHT_TEXT("The heater drew in each of {all} rises of the coil."),
                 {all_field}},
    VerdictWords{"heat-comes-from-heater",
                 "no-heater",
                 OHMWRIGHT_TEXT("In {count} of {all} the coil warmed as in a defrost and no heater was seen to draw: "
                                "test heater, limit and wiring; a door left open looks alike."),
                 {count_field, all_field}},
    VerdictWords{"heat-comes-from-heater", "load-never-rests",
                 OHMWRIGHT_TEXT("Beside a load that never rests, whether the heater drew while the coil warmed is not "
                                "shown.")},
    VerdictWords{"heat-comes-from-heater", "rows-too-far",
                 OHMWRIGHT_TEXT("The coil's rises fill few rows each, so whether the heater drew cannot be told: log "
                                "the load every minute, or every 5 minutes at most.")},
    VerdictWords{"defrost-end", "not-shown", OHMWRIGHT_TEXT("What ended the defrosts is not shown.")},
    VerdictWords{"defrost-end", "not-told",
                 OHMWRIGHT_TEXT("What ended the defrosts is not shown: log the coil, or say at what temperature "
                                "(--ends-at) or after what time (--time-limit) they should end.")},
    VerdictWords{"defrost-end", "rows-too-far",
                 OHMWRIGHT_TEXT("The rows are too far apart to show what ended the defrosts: log the coil every 5 "
                                "minutes or less.")},
    VerdictWords{"defrost-end",
                 "steps-to-one-length",
                 OHMWRIGHT_TEXT("The last {count} heatings are all of one length, and clearly longer than all before "
                                "them: a time limit may have begun to end them. Log the coil, and test the sensor or "
                                "thermostat that should end them."),
                 {count_field}},
    VerdictWords{"defrost-end",
                 "may-be-by-time",
                 OHMWRIGHT_TEXT("{count} of {all} took equally long: a time limit may have ended them, and a strong "
                                "heater on little frost takes so long, too. Say the time limit (--time-limit), or log "
                                "the power as well."),
                 {count_field, all_field}},
    VerdictWords{"defrost-end",
                 "past-rating",
                 OHMWRIGHT_TEXT("{count} of {all} ended well above the temperature that should end them, at one "
                                "temperature and after one time: does the logger's probe lie nearer to the heater than "
                                "the sensor, or does the sensor end them late? Say the time limit (--time-limit)."),
                 {count_field, all_field}},
    VerdictWords{"defrost-end",
                 "cold-ends",
                 OHMWRIGHT_TEXT("{count} of {all} ended while the coil was hardly warmer than melting ice: look at it "
                                "right after a defrost for ice that is left, and say at what temperature they should "
                                "end (--ends-at) and after what time (--time-limit). A sensor or thermostat that takes "
                                "the coil for warm ends them so."),
                 {count_field, all_field}},
    VerdictWords{"defrost-end",
                 "below-rating",
                 OHMWRIGHT_TEXT("{count} of {all} ended well below the temperature that should end them, with the ice "
                                "gone: does the logger's probe lie further from the heater than the sensor, or does "
                                "the sensor end them early? Compare the two beside each other."),
                 {count_field, all_field}},
    VerdictWords{"defrost-end",
                 "may-end-by-time",
                 OHMWRIGHT_TEXT("{count} of {all} ended by the time limit, and nothing shows ice that was left or a "
                                "coil too hot: right for a control that ends by time alone. Where a sensor or "
                                "thermostat should end them, test it, and say at what temperature (--ends-at)."),
                 {count_field, all_field}},
    VerdictWords{"defrost-end", "by-temperature", OHMWRIGHT_TEXT("{all} defrosts ended by temperature."), {all_field}},
    VerdictWords{"defrost-end",
                 "by-time",
                 OHMWRIGHT_TEXT("{count} of {all} ended by the time limit: test the sensor or thermostat that should "
                                "have ended them, or look for much frost (door, drain)."),
                 {count_field, all_field}},
    VerdictWords{
        "defrost-end",
        "too-early",
        OHMWRIGHT_TEXT("{count} of {all} ended before the frost was melted: test the sensor or thermostat that "
                       "ends them, and how it is clipped to the coil."),
        {count_field, all_field}},
    VerdictWords{
        "defrost-end",
        "some-by-time",
        OHMWRIGHT_TEXT("{count} of {all} ended by the time limit: damp days, warm food or an open door do that "
                       "now and then; watch whether it happens more often."),
        {count_field, all_field}},
    VerdictWords{"defrost-end",
                 "some-too-early",
                 OHMWRIGHT_TEXT("{count} of {all} ended before the frost was melted: watch whether it happens more "
                                "often."),
                 {count_field, all_field}},
    VerdictWords{"interval", "no-ratings",
                 OHMWRIGHT_TEXT("The control's interval is not known (--ratings, "
                                "--appliance).")},
    VerdictWords{"interval", "may-be-unseen",
                 OHMWRIGHT_TEXT("Between two that were seen one may have come unseen: the interval is not judged. Log "
                                "the load every minute, or the coil every 5 minutes or less.")},
    VerdictWords{"interval", "none-whole", OHMWRIGHT_TEXT("No interval between two defrosts was seen whole.")},
    VerdictWords{"interval", "in-limits",
                 OHMWRIGHT_TEXT("Defrosts come every {shortest_second} to {longest_second}, rated {least_second} to "
                                "{most_second}."),
                 interval_fields},
    VerdictWords{"interval", "unsettled",
                 OHMWRIGHT_TEXT("Defrosts come every {shortest_second} to {longest_second}, at the edge of the rated "
                                "{least_second} to {most_second}."),
                 interval_fields},
    VerdictWords{"interval", "too-long",
                 OHMWRIGHT_TEXT("Defrosts come every {shortest_second} to {longest_second}, rated {least_second} to "
                                "{most_second}: one came too late. Test the control or timer, and watch whether its "
                                "motor turns."),
                 interval_fields},
    VerdictWords{"interval", "ends-open",
                 OHMWRIGHT_TEXT("At an end of the log none came for {longest_second}, rated {least_second} to "
                                "{most_second}: test the control or timer, and watch whether its motor turns."),
                 interval_fields},
    VerdictWords{
        "interval", "too-short",
        OHMWRIGHT_TEXT("Defrosts come every {shortest_second} to {longest_second}, rated {least_second} to "
                       "{most_second}: they come too early. Test the control or timer; somebody may have started "
                       "them by hand."),
        interval_fields},
    VerdictWords{"interval",
                 "misses-beats",
                 OHMWRIGHT_TEXT("Defrosts come every {beat_second} to the minute, and {count} of {all} did not come or "
                                "did not heat: heater, thermostat, relay and joints may fail now and then, unless "
                                "the control skips on purpose. Log the coil, and look for more frost after it."),
                 {FilledField{"beat_second", WrittenAs::duration}, count_field, all_field}},
    VerdictWords{"interval", "one-too-short",
                 OHMWRIGHT_TEXT("Short intervals: {count} of {all}, {shortest_second}, rated from {least_second} on: "
                                "was a defrost started by hand? Watch whether it happens again."),
                 short_interval_fields},
    VerdictWords{"interval", "count-untold",
                 OHMWRIGHT_TEXT("Defrosts come every {shortest_second} to {longest_second}, rated {least_second} to "
                                "{most_second}: too early if the control counts the running, not if it counts the "
                                "clock. This log shows no difference; see its data sheet."),
                 interval_fields},
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

std::span<const VerdictWords> log_verdict_table() { return verdict_words; }

}  // namespace ohmwright
