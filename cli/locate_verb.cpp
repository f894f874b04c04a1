#include <iostream>

#include <ohmwright/locate/search.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/appliance_drawing.hpp>
#include <ohmwright/report/locate_report.hpp>

#include "appliance_files.hpp"
#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "locate_dialogue.hpp"
#include "locate_words.hpp"
#include "output.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

int exit_code(locate::Standing::Form form) {
  const bool named = form == locate::Standing::Form::settled || form == locate::Standing::Form::likely;
  return named ? exit_done : exit_undecided;
}

std::string report_text(const Arguments& arguments, const LocateReport& report, const Sentences& say,
                        const PageStyle& page) {
  const std::string format = arguments.value("--format", "text");
  if (format == "json") return locate_json(report, say);
  if (format == "html") {
    const PartMarks marks = marks_of(report.diagnosis.parts, say);
    return locate_html(report, say, appliance_drawing(report.reasoner.prober().appliance(), marks, say).value_or(""));
  }
  return locate_page(report, say, page);
}

/// Volts and amperes of the readings given were live, which somebody has to have agreed to.
void refuse_live_readings(const locate::Search& search, const Appliance& appliance) {
  if (search.settings().steps.allow_live) return;
  for (const locate::TakenReading& reading : search.readings())
    if (locate::is_live(appliance, reading.measurement))
      throw InputError("the reading " + reading.label +
                       " was taken live: live measurement is for those qualified for it, with insulated probes, one "
                       "hand at a time; if you are and have agreed to that, say --allow-live");
}

int run_locate(const Arguments& arguments, Environment& environment) {
  Appliance appliance = open_appliance(environment, arguments.operands[0]);
  const Meter meter = chosen_meter(environment, arguments.value("--meter"));
  UnitPreferences units;
  const std::vector<locate::TakenReading> of_file = readings_of_file(arguments, appliance, units);
  locate::Search search(appliance, meter, typed_site(arguments, appliance, units),
                        typed_settings(arguments, appliance));
  for (const locate::TakenReading& reading : of_file) search.add(reading);
  const auto readings = arguments.options.find("--reading");
  if (readings != arguments.options.end())
    for (const std::string& word : readings->second) search.add(typed_test_reading(word, appliance, units));
  for (std::size_t i = 1; i < arguments.operands.size(); ++i)
    search.add(typed_test_reading(arguments.operands[i], appliance, units));
  refuse_live_readings(search, appliance);
  search.signs() = typed_signs(arguments, appliance);
  if (arguments.has("--interactive")) run_dialogue(search, meter, units, std::cin, environment);
  search.think();
  const locate::WorkState work = search.work();
  const LocateReport report{search.reasoner(),
                            search.diagnosis(),
                            search.standing(),
                            search.readings(),
                            search.signs(),
                            search.steps(),
                            work,
                            search.settings().steps,
                            search.settings().priors,
                            meter.title,
                            arguments.has("--cautions")};
  deliver(report_text(arguments, report, Sentences(units), environment.page), arguments, environment);
  return exit_code(search.standing().form);
}

}  // namespace

VerbSpec locate_verb() {
  return {
      .name = "locate",
      .summary = OHMWRIGHT_TEXT("Which part of an appliance is at fault, and what to measure next"),
      .example = "ohmwright locate upright-thermistor-230v --symptom frost-whole-coil heater-plug=OL",
      .operands = {{"APPLIANCE", OHMWRIGHT_TEXT("A shipped appliance or a file"), true, false},
                   {"READING",
                    OHMWRIGHT_TEXT("What the meter showed at a test point: TESTPOINT=VALUE, or TESTPOINT@SETUP=VALUE "
                                   "after a set-up"),
                    false, true}},
      .options =
          {
              {"--reading",
               "TESTPOINT[@SETUP]=VALUE",
               OHMWRIGHT_TEXT("The same as an option; may be given again"),
               {},
               true},
              {"--readings",
               "FILE",
               OHMWRIGHT_TEXT("Readings of a file, or - (JSON; what --format json gave is one)"),
               {}},
              {"--symptom", "ID", OHMWRIGHT_TEXT("What is seen; may be given again"), {}, true},
              {"--no-symptom", "ID", OHMWRIGHT_TEXT("What was looked for and is not so"), {}, true},
              {"--looked", "CAUSE=found|fine", OHMWRIGHT_TEXT("An outside cause that was looked at"), {}, true},
              {"--code", "CODE[:old]", OHMWRIGHT_TEXT("A code in the control's memory"), {}, true},
              {"--repaired", "PART", OHMWRIGHT_TEXT("A part that was worked on before"), {}, true},
              {"--thawed", "", OHMWRIGHT_TEXT("It was thawed before anybody looked at the frost"), {}},
              {"--ran-well", "yes|no", OHMWRIGHT_TEXT("Whether it ran well for days after a thaw"), {"yes", "no"}},
              {"--zone", "ZONE=TEMPERATURE", OHMWRIGHT_TEXT("A temperature as found: coil=-18C"), {}, true},
              {"--state", "PART.STATE=VALUE", OHMWRIGHT_TEXT("A state as found: timer.position=defrost"), {}, true},
              {"--weights", "FILE", OHMWRIGHT_TEXT("Weights of faults in place of the assumed ones (JSON)"), {}},
              {"--faults", "N", OHMWRIGHT_TEXT("At most this many faults at once (default 2)"), {"1", "2", "3"}},
              {"--allow-live", "", OHMWRIGHT_TEXT("You are qualified for live steps and agreed to their caution"), {}},
              {"--insulation-good",
               "",
               OHMWRIGHT_TEXT("Insulation was read and is within limits: replacing and testing is an offer"),
               {}},
              {"--interactive", "", OHMWRIGHT_TEXT("Ask step by step"), {}},
              {"--meter", "NAME|FILE", OHMWRIGHT_TEXT("The meter: basic (default), good, bench, or a file"), {}},
              {"--cautions", "", OHMWRIGHT_TEXT("Show every caution in full, not its few words"), {}},
              {"--format", "FORMAT", OHMWRIGHT_TEXT("text (default), json or html"), {"text", "json", "html"}},
              {"--out", "FILE", OHMWRIGHT_TEXT("Write there instead of the terminal"), {}},
          },
      .circumstances = {},
      .takes_conditions = false,
      .run = run_locate,
  };
}

}  // namespace ohmwright::cli
