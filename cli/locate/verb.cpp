#include <iostream>
#include <memory>
#include <utility>

#include <ohmwright/appliance/appliance_readings.hpp>
#include <ohmwright/appliance/tolerant_parts.hpp>
#include <ohmwright/locate/plan.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/appliance_drawing.hpp>
#include <ohmwright/report/locate_report.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/plan_report.hpp>
#include <ohmwright/verdict/caution_refusal.hpp>

#include "appliance/files.hpp"
#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "locate/dialogue.hpp"
#include "locate/pages.hpp"
#include "locate/words.hpp"
#include "made_with.hpp"
#include "output.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

std::string report_text(const Arguments& arguments, const LocateReport& report, const Sentences& say,
                        const PageStyle& page) {
  const std::string format = arguments.value("--format", "text");
  if (format == "json") return locate_json(report, say);
  if (format == "html") {
    const PartMarks marks = marks_of(report.diagnosis.parts, say);
    return locate_html(report, say, appliance_drawing(report.reasoner.prober().appliance(), marks, say).value_or(""),
                       made_with());
  }
  return locate_page(report, say, page);
}

/// Volts and amperes of the readings given were live, which somebody has to have agreed to.
void refuse_live_readings(const locate::Search& search, const Appliance& appliance) {
  if (search.settings().steps.allow_live) return;
  for (const locate::TakenReading& reading : search.readings())
    if (locate::is_live(appliance, reading.measurement))
      throw CautionRefusal(
          OHMWRIGHT_TEXT("the reading {label} was taken live: live measurement is for those qualified for it, with "
                         "insulated probes, one hand at a time; if you are and have agreed to that, say --allow-live"),
          {{"label", reading.label}});
}

std::string plan_text(const Arguments& arguments, locate::Search& search, const Sentences& say, const PageStyle& page) {
  const auto number = [&](std::string_view option, std::size_t otherwise) {
    return arguments.has(option) ? static_cast<std::size_t>(arguments.value(option)[0] - '0') : otherwise;
  };
  locate::PlanSettings settings;
  settings.depth = number("--plan-depth", settings.depth);
  settings.width = number("--plan-width", settings.width);
  const locate::Plan plan = locate::make_plan(search, settings);
  const PlanReport report{plan,     search.reasoner().faults(),         search.reasoner().prober().lead_resistance(),
                          settings, search.settings().steps.allow_live, arguments.has("--cautions")};
  const std::string format = arguments.value("--format", "text");
  if (format == "json") return plan_json(report, say);
  return format == "html" ? plan_html(report, say) : plan_page(report, say, page);
}

/// --plan and what belongs to it alone.
void refuse_other_than_a_plan(const Arguments& arguments) {
  if (arguments.has("--plan") && arguments.has("--interactive"))
    throw InputError("--plan prints the whole way, --interactive asks step by step: choose one of them");
  if (arguments.has("--from") && !arguments.has("--interactive"))
    throw InputError("--from reads the steps of --interactive; add it");
  for (const char* option : {"--plan-depth", "--plan-width"})
    if (arguments.has(option) && !arguments.has("--plan"))
      throw InputError(std::string(option) + " says how far a plan goes; say --plan as well");
}

/// The words with what was said of a zone in place of what they said of it before.
Arguments with_zone(Arguments arguments, const std::string& said) {
  std::vector<std::string>& zones = arguments.options["--zone"];
  const std::string zone = said.substr(0, said.find('=') + 1);
  std::erase_if(zones, [&zone](const std::string& word) { return word.starts_with(zone); });
  zones.push_back(said);
  return arguments;
}

/// Asks step by step; a temperature that is said holds for all that was read.
void ask_step_by_step(Arguments arguments, const TypedReadings& how, const ValueSource& source,
                      std::unique_ptr<locate::Search>& search, Environment& environment) {
  std::vector<GivenAnswer> given;
  while (const auto said = run_dialogue(*search, how, std::cin, environment, source, given)) {
    arguments = with_zone(std::move(arguments), *said);
    auto there = std::make_unique<locate::Search>(how.appliance, how.meter,
                                                  typed_site(arguments, how.appliance, how.units), search->settings());
    there->take_over(*search);
    search = std::move(there);
  }
}

/// A search that had to do without a part says so beside its answer, in whatever form that is.
void tell_failures(const PartFailures& failures, const Appliance& appliance, Environment& environment) {
  const Sentences say{UnitPreferences{}};
  for (const FailedPart& failed : failures.all())
    environment.err << paragraph(say(OHMWRIGHT_TEXT("Nothing is known of the part \"{part}\", and the search went on "
                                                    "without it: its plugin failed: {why}"),
                                     {{"part", appliance.parts[failed.part].title}, {"why", failed.text}}),
                                 environment.page.width);
}

/// What a search is given before its first thought: what was read, of a file before what was typed, and what was seen.
void begin(locate::Search& search, const std::vector<locate::TakenReading>& of_file, const TypedReadings& how,
           const Arguments& arguments) {
  for (const locate::TakenReading& reading : of_file) search.add(reading);
  const auto readings = arguments.options.find("--reading");
  if (readings != arguments.options.end())
    for (const std::string& word : readings->second) search.add(typed_test_reading(word, how));
  for (std::size_t i = 1; i < arguments.operands.size(); ++i)
    search.add(typed_test_reading(arguments.operands[i], how));
  refuse_live_readings(search, how.appliance);
  search.signs() = typed_signs(arguments, how.appliance);
}

int run_locate(const Arguments& arguments, Environment& environment) {
  refuse_other_than_a_plan(arguments);
  refuse_zones_stated_twice(arguments);
  Appliance appliance = open_appliance(environment, arguments.operands[0]);
  const std::shared_ptr<const PartFailures> failures = tolerate_failures(appliance);
  add_cooling(appliance);
  const Meter meter = chosen_meter(environment, arguments.value("--meter"));
  UnitPreferences units;
  const std::vector<locate::TakenReading> of_file = readings_of_file(arguments, appliance, meter, units);
  auto searching = std::make_unique<locate::Search>(appliance, meter, typed_site(arguments, appliance, units),
                                                    typed_settings(arguments, appliance));
  const TypedReadings how{appliance, meter, units, range_option(arguments, meter)};
  begin(*searching, of_file, how, arguments);
  if (arguments.has("--plan")) {
    deliver(plan_text(arguments, *searching, Sentences(units), environment.page), arguments, environment);
    tell_failures(*failures, appliance, environment);
    return exit_done;
  }
  if (arguments.has("--interactive"))
    ask_step_by_step(arguments, how, value_source(arguments, environment), searching, environment);
  locate::Search& search = *searching;
  search.think();
  const locate::WorkState work = search.work();
  LocateReport report = locate_report(search, work, meter.title, arguments.has("--cautions"));
  report.asks_temperatures = true;
  deliver(report_text(arguments, report, Sentences(units), environment.page), arguments, environment);
  tell_failures(*failures, appliance, environment);
  return exit_of_search(search.standing());
}

}  // namespace

VerbSpec locate_verb() {
  return {
      .name = "locate",
      .summary = OHMWRIGHT_TEXT("Which part of an appliance is at fault, and what to measure next"),
      .example = "ohmwright locate upright-thermistor-230v --symptom frost-whole-coil heater-plug=OL",
      .operands = {{"APPLIANCE",
                    OHMWRIGHT_TEXT("A shipped appliance or a file; appliance new makes one from six questions"), true,
                    false},
                   {"READING",
                    OHMWRIGHT_TEXT("What the meter showed at a test point: TESTPOINT=VALUE, or TESTPOINT@SETUP=VALUE "
                                   "after a set-up; \"OL on 20k\" says the range that was set, \"3V on low-impedance\" "
                                   "the input"),
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
              {"--range",
               "VALUE",
               OHMWRIGHT_TEXT("The range that was set, such as 60M, wherever OL was typed without one of its own"),
               {}},
              {"--symptom", "ID", OHMWRIGHT_TEXT("What is seen; may be given again"), {}, true},
              {"--no-symptom", "ID", OHMWRIGHT_TEXT("What was looked for and is not so"), {}, true},
              {"--looked", "CAUSE=found|fine", OHMWRIGHT_TEXT("An outside cause that was looked at"), {}, true},
              {"--code",
               "CODE[:old][:NUMBERx]",
               OHMWRIGHT_TEXT("A code in the control's memory, whether it is old, how often it was set"),
               {},
               true},
              {"--repaired", "PART", OHMWRIGHT_TEXT("A part that was worked on before"), {}, true},
              {"--thawed", "", OHMWRIGHT_TEXT("It was thawed before anybody looked at the frost"), {}},
              {"--unplugged", "TIME", OHMWRIGHT_TEXT("How long it was without power, before it ran again: 24h"), {}},
              {"--ran-well",
               "TIME|yes|no",
               OHMWRIGHT_TEXT("How long it ran well after that, or whether it did for days: 5d"),
               {}},
              {"--replaced",
               "PART=cured|same",
               OHMWRIGHT_TEXT("A part that was replaced, and what came of it"),
               {},
               true},
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
              {"--from",
               "ADDRESS",
               OHMWRIGHT_TEXT(
                   "With --interactive: an instrument that reads where an empty line is typed; ohms by two leads, "
                   "which are taken off"),
               {}},
              {"--timeout", "TIME", OHMWRIGHT_TEXT("With --from: time that it has for each answer (default 5s)"), {}},
              {"--plan",
               "",
               OHMWRIGHT_TEXT("The whole way from here: which step first, and for each answer the next"),
               {}},
              {"--plan-depth",
               "N",
               OHMWRIGHT_TEXT("Steps of a plan one after the other, 1 to 9 (default 8)"),
               {"1", "2", "3", "4", "5", "6", "7", "8", "9"}},
              {"--plan-width",
               "N",
               OHMWRIGHT_TEXT("Answers that a plan tells apart at each step, 2 to 6 (default 4)"),
               {"2", "3", "4", "5", "6"}},
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
