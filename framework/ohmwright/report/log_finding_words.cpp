#include <array>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_finding_words.hpp>

namespace ohmwright {

namespace {

constexpr std::array form_words{
    FindingWords{"form-of-log",
                 OHMWRIGHT_TEXT("Columns separated by \"{one}\", decimal sign \"{two}\", header: {three}."),
                 "separator", "decimal_sign", "header"},
    FindingWords{"time-of-log", OHMWRIGHT_TEXT("Time from column {one}, written as {two}."), "column", "writing"},
    FindingWords{"time-has-no-date", OHMWRIGHT_TEXT("The time has no date: past midnight it was counted on.")},
    FindingWords{"times-in-utc", OHMWRIGHT_TEXT("Times are told in UTC.")},
    FindingWords{"column-guessed",
                 OHMWRIGHT_TEXT("Guessed: {one} is column {two}, by its {three} (--column names it)."), "quantity",
                 "column", "from"},
    FindingWords{"unit-guessed",
                 OHMWRIGHT_TEXT("Guessed: the unit of {one} is {two} (--column {one}=COLUMN:UNIT names it)."),
                 "quantity", "unit"},
    FindingWords{"unit-written", OHMWRIGHT_TEXT("The unit of {one} is {two}, from the {three}."), "quantity", "unit",
                 "from"},
    FindingWords{"column-not-used", OHMWRIGHT_TEXT("Column {one} was not used."), "column"},
    FindingWords{"column-may-be-coil",
                 OHMWRIGHT_TEXT("Column {one} was not used and holds temperatures below freezing: is it the coil? Say "
                                "so (--column coil_temperature=NAME:degC); without it no end of a defrost is judged."),
                 "column"},
    FindingWords{"rows-turned-round",
                 OHMWRIGHT_TEXT("The rows run from the newest to the oldest: they were turned round, and lines are "
                                "counted from the oldest on.")},
    FindingWords{"last-line-open", OHMWRIGHT_TEXT("The last line has no line end: its last number may be cut.")},
    FindingWords{"day-month-order-guessed", OHMWRIGHT_TEXT("Guessed: dates are {one}. Check it."), "order"},
    FindingWords{"day-month-order-told", OHMWRIGHT_TEXT("Dates are {one}, as they follow each other."), "order"},
    FindingWords{"day-month-order-changed", OHMWRIGHT_TEXT("Dates turned out to be {one}."), "order"},
    FindingWords{"elapsed-unit-assumed", OHMWRIGHT_TEXT("Time in column {one} was taken as seconds. Check it."),
                 "column"},
    FindingWords{
        "time-may-count-rows",
        OHMWRIGHT_TEXT("Column {one} rises by one a row: it may count rows, not seconds. Say --every 60s if so."),
        "column"},
};

/// What has to be settled before the log says anything of a part.
constexpr std::array question_words{
    FindingWords{
        "time-step-implausible",
        OHMWRIGHT_TEXT(
            "The compressor would run for {one} s at a time, which is too short: is the time right? (--every)"),
        "typical_run_second"},
    FindingWords{"times-went-back",
                 OHMWRIGHT_TEXT("From line {one} on, times lie up to {two} minutes before those above it, for {three} "
                                "rows: left out, as if copied in twice. If somebody set the clock, cut the log "
                                "there."),
                 "line", "minutes", "rows"},
    FindingWords{
        "clock-counts-twelve-hours",
        OHMWRIGHT_TEXT("The hours run from 1 to 12 twice a day and nothing says am or pm (first at line {one}): "
                       "half of the rows seem to lie before those above them, and are left out. Say the "
                       "rows' interval (--every {two}s), or let the logger write 24 hours."),
        "line", "step_second"},
    FindingWords{"no-time-read",
                 OHMWRIGHT_TEXT("No row has a time that can be read: line {one} has {two}. Say the rows' interval "
                                "(--every 60s), or which column is the time (--column time=NAME)."),
                 "line", "text"},
    FindingWords{"power-unit-suspect",
                 OHMWRIGHT_TEXT("The largest power is {one} W, read in {two}: is the unit right? Name it "
                                "(--column power=COLUMN:kW). Nothing that rests on it is judged."),
                 "largest_watt", "unit"},
    FindingWords{
        "unit-changes",
        OHMWRIGHT_TEXT("From about line {two} on, {one} seems to hold another unit than {three}: cut the log "
                       "there, and name the unit of each part (--column). Nothing that rests on it is judged."),
        "quantity", "line", "unit"},
    FindingWords{"unit-contradicted",
                 OHMWRIGHT_TEXT("{two} values of {one} cannot be in {three}: is the unit right? Name it (--column "
                                "{one}=COLUMN:UNIT). Nothing that rests on it is judged."),
                 "quantity", "count", "unit"},
    FindingWords{"unit-guess-contradicted",
                 OHMWRIGHT_TEXT("In {one} of {two} defrosts the coil rests at 32, and in none at 0: it is in degF, "
                                "most likely, and degC was guessed. Name the unit (--column "
                                "coil_temperature=COLUMN:degF). Nothing that rests on it is judged."),
                 "count", "all"},
    FindingWords{"unit-in-header-contradicted",
                 OHMWRIGHT_TEXT("In {one} of {two} defrosts the coil rests at 32, and in none at 0: it is in degF, "
                                "most likely, though the log says degC. Name the unit (--column "
                                "coil_temperature=COLUMN:degF, or :degC). Nothing that rests on it is judged."),
                 "count", "all"},
    FindingWords{"unit-guess-unproved",
                 OHMWRIGHT_TEXT("The coil gets to {one}, if that is degC, which was guessed, and it never rests at 0, "
                                "where ice melts: name the unit (--column coil_temperature=COLUMN:degC or :degF). "
                                "Nothing that rests on it is judged."),
                 "celsius"},
    FindingWords{"column-never-moved",
                 OHMWRIGHT_TEXT("The column of {one} did not move for {two} h: a dead logger, a pulled plug, or an "
                                "appliance that does not run? Judge nothing by that time."),
                 "quantity", "hours"},
    FindingWords{"temperature-changes-implausible",
                 OHMWRIGHT_TEXT("The coil warms by {one} K within {two} s, faster than a heater can: is the time "
                                "right? (--every)"),
                 "kelvin", "second"},
};

constexpr std::array limit_words{
    FindingWords{"column-has-holes",
                 OHMWRIGHT_TEXT("{one} was not logged for {two} % of the log: nothing is said of it there."),
                 "quantity", "percent"},
    FindingWords{"log-has-no-rows", OHMWRIGHT_TEXT("The log has no row that could be used.")},
    FindingWords{"no-load-in-log",
                 OHMWRIGHT_TEXT("No power or current: heater and compressor are told from temperatures alone.")},
    FindingWords{"no-temperature-in-log",
                 OHMWRIGHT_TEXT("No temperature: what the heater did to the coil is not shown.")},
    FindingWords{"current-without-line-voltage",
                 OHMWRIGHT_TEXT("Current without line voltage: no watts (--line gives it).")},
    FindingWords{"load-written-on-change",
                 OHMWRIGHT_TEXT("The meter writes only changes: a value was held until the next for up to {one} "
                                "minutes, and a meter that was off for less would look the same."),
                 "minutes"},
    FindingWords{"temperature-written-on-change",
                 OHMWRIGHT_TEXT("The logger writes only changes: a temperature was held until the next for up to {one} "
                                "minutes, and a logger that was off for less would look the same."),
                 "minutes"},
    FindingWords{"defrosts-by-air-alone",
                 OHMWRIGHT_TEXT("Defrosts are told from the air alone: warm food or an open door can look like one, "
                                "one can be missed, and their times are rough.")},
    FindingWords{"run-time-not-shown",
                 OHMWRIGHT_TEXT("The compressor runs or stands for hardly longer than a row: how long it ran is not "
                                "shown.")},
    FindingWords{"run-share-not-told",
                 OHMWRIGHT_TEXT("Between its fast runs it draws far more than when all stands: an inverter may run "
                                "slowly there, so the run share is not told. Judge by the cabinet's temperature.")},
    FindingWords{"cycles-not-shown",
                 OHMWRIGHT_TEXT("The compressor's cycles do not show in the temperature: rows are too far apart or "
                                "their steps too coarse.")},
    FindingWords{"heat-draws-like-compressor",
                 OHMWRIGHT_TEXT("In {one} the load was about that of the running compressor: hot gas, or a heater "
                                "that draws as much. No frost is weighed there."),
                 "count"},
    FindingWords{"load-cools-or-heats",
                 OHMWRIGHT_TEXT("For {one} minutes the load stood at its only level above standby, a compressor's or a "
                                "heater's: none of it is counted as a defrost."),
                 "minutes"},
    FindingWords{"clock-began-anew",
                 OHMWRIGHT_TEXT("At line {one} the logger's clock began anew at an earlier date: how long it stood "
                                "is not known, and its time is counted on from there."),
                 "line"},
    FindingWords{"load-has-one-level",
                 OHMWRIGHT_TEXT("The load has one level: compressor and heater cannot be told apart.")},
    FindingWords{"log-is-short", OHMWRIGHT_TEXT("The log is shorter than an hour.")},
    FindingWords{
        "log-shorter-than-an-interval",
        OHMWRIGHT_TEXT(
            "The log is shorter than the longest usual interval between defrosts: none in it proves nothing.")},
    FindingWords{"melting-share-assumed",
                 OHMWRIGHT_TEXT("Frost masses take {one} of the heater's power for the melting, ± {two} (assumed)."),
                 "share", "uncertainty"},
    FindingWords{"lists-are-cut", OHMWRIGHT_TEXT("Not every event is listed.")},
    FindingWords{"compressed-log-cut", OHMWRIGHT_TEXT("The compressed log ends before its end mark.")},
    FindingWords{"compressed-log-damaged", OHMWRIGHT_TEXT("The compressed log is damaged from some place on.")},
};

constexpr std::array argument_words{
    ArgumentWord{"header", "yes", OHMWRIGHT_TEXT("yes")},
    ArgumentWord{"header", "no", OHMWRIGHT_TEXT("no")},
    ArgumentWord{"from", "header", OHMWRIGHT_TEXT("header")},
    ArgumentWord{"from", "values", OHMWRIGHT_TEXT("values")},
    ArgumentWord{"from", "cells", OHMWRIGHT_TEXT("cells")},
    ArgumentWord{"writing", "calendar", OHMWRIGHT_TEXT("calendar")},
    ArgumentWord{"writing", "clock", OHMWRIGHT_TEXT("clock")},
    ArgumentWord{"writing", "elapsed", OHMWRIGHT_TEXT("elapsed")},
    ArgumentWord{"writing", "epoch", OHMWRIGHT_TEXT("epoch")},
    ArgumentWord{"writing", "serial_day", OHMWRIGHT_TEXT("serial day")},
    ArgumentWord{"writing", "row_count", OHMWRIGHT_TEXT("row count")},
    ArgumentWord{"order", "day_first", OHMWRIGHT_TEXT("day first")},
    ArgumentWord{"order", "month_first", OHMWRIGHT_TEXT("month first")},
    ArgumentWord{"order", "year_first", OHMWRIGHT_TEXT("year first")},
};

}  // namespace

std::span<const FindingWords> log_form_words() { return form_words; }
std::span<const FindingWords> log_question_words() { return question_words; }
std::span<const FindingWords> log_limit_words() { return limit_words; }
std::span<const ArgumentWord> log_argument_words() { return argument_words; }

}  // namespace ohmwright
