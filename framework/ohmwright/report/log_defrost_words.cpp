#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_verdict_table.hpp>

namespace ohmwright {

namespace {

constexpr std::array<FilledField, 4> interval_fields{
    FilledField{"shortest_second", WrittenAs::duration}, FilledField{"longest_second", WrittenAs::interval},
    FilledField{"least_second", WrittenAs::duration}, FilledField{"most_second", WrittenAs::interval}};
constexpr std::array<FilledField, 4> short_interval_fields{count_field, all_field,
                                                           FilledField{"shortest_second", WrittenAs::interval},
                                                           FilledField{"least_second", WrittenAs::interval}};
constexpr std::array<FilledField, 4> waited_fields{count_field, FilledField{"waited_second", WrittenAs::duration},
                                                   FilledField{"longest_interval_second", WrittenAs::duration}};

constexpr std::array defrost_words{
    VerdictWords{"defrosts-come", "nothing-moves",
                 OHMWRIGHT_TEXT("No column of the log moves: there is nothing to look for defrosts in.")},
    VerdictWords{
        "defrosts-come", "none-since",
        OHMWRIGHT_TEXT("Defrosts were seen ({count}), and then none in {waited_second}, though they should come "
                       "at least every {longest_interval_second}: test control or timer, then heater, limit and "
                       "wiring (ohmwright locate, --symptom no-defrost)."),
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
                       "{waited_second}: the next is long overdue. Test control or timer, then heater, limit and "
                       "wiring (ohmwright locate, --symptom no-defrost); a control that varies its interval may wait "
                       "for so long, then log until the next one comes."),
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
    VerdictWords{
        "defrosts-come",
        "no-heater-seen",
        OHMWRIGHT_TEXT("No heater was seen: what comes as in a defrost draws {watt} W at most, and the weakest "
                       "defrost heater {least_watt} W. A compressor that catches up behind a pause looks so, "
                       "or a defrost by hot gas. If it has a heater, test it, the limit and the wiring, then "
                       "control or timer (ohmwright locate, --symptom no-defrost), and log the coil."),
        {FilledField{"watt"}, FilledField{"least_watt"}}},
    VerdictWords{
        "defrosts-come", "no-heater-seen-load",
        OHMWRIGHT_TEXT("No heater was seen: what comes as in a defrost draws less than the weakest defrost "
                       "heater. A compressor that catches up behind a pause looks so, or a defrost by hot gas. "
                       "If it has a heater, test it, the limit and the wiring, then control or timer "
                       "(ohmwright locate, --symptom no-defrost), and log the coil.")},
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
    VerdictWords{"defrosts-come",
                 "slow-or-none",
                 OHMWRIGHT_TEXT("No defrost for {waited_second} on end: longer than most controls wait, and one that "
                                "counts the compressor's running may wait for {longest_running_second} of it. Look at "
                                "the coil for ice, start a defrost by hand and see that it heats (ohmwright locate, "
                                "--symptom no-defrost), or log on until the next one comes."),
                 {FilledField{"waited_second", WrittenAs::duration},
                  FilledField{"longest_running_second", WrittenAs::duration}}},
    VerdictWords{"defrosts-come", "coil-stays-warm",
                 OHMWRIGHT_TEXT("The coil got warm and stayed so: no defrost stands out of that, and whether any came "
                                "is not shown.")},
    VerdictWords{"defrosts-come", "needs-none",
                 OHMWRIGHT_TEXT("The coil stays above 0 °C, where no frost grows: no defrost need come there, and its "
                                "parts are not judged by that.")},
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
    VerdictWords{"defrosts-come",
                 "seen-in-part",
                 OHMWRIGHT_TEXT("Defrosts were seen ({count}), each in few rows, and {others} more times the load "
                                "stood above all that cools for a row or two: these may be defrosts, too, "
                                "which rows so far apart do not show. Log the load every minute, or the coil every 5 "
                                "minutes or less."),
                 {count_field, FilledField{"others"}}},
    VerdictWords{
        "defrosts-come",
        "others-may-hide",
        OHMWRIGHT_TEXT("Defrosts were seen ({count}) that draw about as much as the compressor: others may hide "
                       "in its load. Log the coil, or say what the heater should draw (--ratings, "
                       "--appliance)."),
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
                 "warm-ends",
                 OHMWRIGHT_TEXT("{count} of {all} ended with the coil warmer than sensors and thermostats let it get: "
                                "a time limit may have ended them. Test the sensor or thermostat that should end them, "
                                "and say at what temperature (--ends-at) and after what time (--time-limit)."),
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
        "by-time-with-ice",
        OHMWRIGHT_TEXT("{count} of {all} ended by the time limit while ice was left, the coil never warm: too "
                       "much frost (door, gasket, drain), a heater of which a part is dead (read its watts, or "
                       "its ohms cold, a lead off), or a limit too short. The sensor or thermostat comes last: "
                       "nothing warmed it."),
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
    VerdictWords{
        "interval",
        "by-air-alone",
        OHMWRIGHT_TEXT("Rises of the air come every {shortest_second} to {longest_second}, which is not the "
                       "rated interval; doors and warm food make such rises, too. Log the power or the coil "
                       "before you test the control."),
        {FilledField{"shortest_second", WrittenAs::duration}, FilledField{"longest_second", WrittenAs::interval}}},
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
                                "{most_second}: test the control or timer, and watch whether its motor turns; then "
                                "heater, limit and wiring."),
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
};

}  // namespace

std::span<const VerdictWords> words_of_defrosts() { return defrost_words; }

}  // namespace ohmwright
