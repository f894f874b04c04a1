#include <algorithm>
#include <ostream>

#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/locate/work.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/appliance_drawing.hpp>
#include <ohmwright/report/chart_picture.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/log_picture.hpp>
#include <ohmwright/report/verdict_report.hpp>
#include <ohmwright/verdict/caution.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/appliance.hpp"
#include "job/book_file.hpp"
#include "job/lost_files.hpp"
#include "job/next_page.hpp"
#include "job/safety.hpp"
#include "job/search.hpp"
#include "locate/pages.hpp"
#include "made_with.hpp"
#include "output.hpp"
#include "part_charts.hpp"
#include "part_check.hpp"
#include "refusal_text.hpp"

namespace ohmwright::cli {

namespace {

constexpr std::size_t most_plots = 3;

/// Possible faults, and what the search says; the circuit with its marks for a page with pictures.
void add_search(const JobAtHand& job, const Environment& environment, bool with_pictures, JobReport& report) {
  const Arguments nothing_typed;
  const auto possible = [&](JobSearch::Reach reach) {
    JobSearch search(job.call, nothing_typed, environment, reach);
    const Sentences say(search.units());
    const locate::WorkState work = search.search().work();
    const LocateContent content =
        locate_content(locate_report(search.search(), work, search.meter().title, false), say);
    report.appliance_title = search.appliance().title;
    for (const OutsideCause& cause : search.appliance().outside_causes) report.cause_titles[cause.id] = cause.title;
    for (const PartLook& look : search.appliance().part_looks) report.cause_titles[look.id] = look.title;
    if (const std::string over = passed_over_text(search, say); reach == JobSearch::Reach::diagnosis && !over.empty())
      environment.err << paragraph(over, environment.page.width);
    report.found = content.headline;
    report.cause_is_named = search.search().standing().is_named();
    const std::vector<std::string> arrival = locate::cautions_of_arrival(search.appliance());
    report.refrigerant_may_burn = std::find(arrival.begin(), arrival.end(), "flammable-refrigerant") != arrival.end();
    if (with_pictures && reach == JobSearch::Reach::diagnosis)
      if (const std::optional<std::string> drawn =
              appliance_drawing(search.appliance(),
                                search.stops_at_sealed_system()  // then no part is suspected
                                    ? PartMarks(search.appliance().parts.size())
                                    : marks_of(search.search().diagnosis().parts, say),
                                say, TestPointList::left_out)) {
        report.circuit.push_back({*drawn, say(OHMWRIGHT_TEXT("The circuit with its test points"))});
        report.test_points = test_point_lines(search.appliance());
      }
    return content.possible;
  };
  if (!job.call.has_appliance()) return;
  try {
    report.possible_before = possible(JobSearch::Reach::signs);
    report.possible_now = possible(JobSearch::Reach::diagnosis);
  } catch (const Error& error) {  // its appliance is shipped no more, or a plugin is not there
    const Sentences say{UnitPreferences{}};
    environment.err << paragraph(
        say(OHMWRIGHT_TEXT("The report has no page of possible faults: {why}"), {{"why", refusal_text(error)}}),
        environment.page.width);
  }
}

/// What keeps it unplugged beside what its readings say; as far as its appliance can still be told.
void add_dangers(const JobAtHand& job, const Environment& environment, JobReport& report) {
  if (!job.call.has_appliance()) report.refrigerant_may_burn = label_may_burn(job.call);
  try {
    report.stops_at_sealed_system = stops_at_sealed_system(job.call, Arguments{}, environment);
    report.heat_limits = heat_limits_unproved(job.call, environment);
  } catch (const Error&) {  // of that the page of possible faults tells
    report.stops_at_sealed_system = signs_speak_of_sealed_system(job.call);
    report.refrigerant_may_burn = label_may_burn(job.call);
  }
}

/// What names the ratings that a reading was judged by: of a new part the text of their file, where the book keeps it.
std::string ratings_of(const job::MeasuredValue& value, const job::ServiceCall& call) {
  const job::ReplacedPart* in = job::latest(call.replaced, [&](const job::ReplacedPart& part) {
    return part.part == value.subject() && !part.was_mended() && part.happened_before(value);
  });
  return in == nullptr || in->new_file.empty() ? value.ratings : in->new_file;
}

/// The last readings against what good parts read, as far as their ratings have a name and their kind a chart.
void add_plots(const JobAtHand& job, const Environment& environment, JobReport& report) {
  const Sentences say{UnitPreferences{}};
  for (std::size_t i = job.call.readings.size(); i > 0 && report.plots.size() < most_plots; --i) {
    const job::MeasuredValue& value = job.call.readings[i - 1];
    if (value.records.empty() || value.ratings.empty()) continue;
    try {
      const LoadedKind& kind = open_kind(environment, value.kind);
      const PartCheck check =
          checked_part(kind, rated_part(kind, ratings_of(value, job.call)), readings_from_record(value.records),
                       UnitPreferences{}, Arguments{}, environment);
      const std::optional<Chart> chart = chart_with_readings(kind, check.part(), check.evidence());
      const std::optional<std::string> drawn = chart ? chart_picture(*chart, say) : std::nullopt;
      if (drawn)
        report.plots.push_back({*drawn, say(OHMWRIGHT_TEXT("{part}: the reading {shown} against what good parts read"),
                                            {{"part", value.title}, {"shown", value.for_people()}})});
    } catch (const Error&) {
      continue;  // its ratings or its plugin are no longer there: the table still says what was read
    }
  }
}

/// The log that was read last, from what the book keeps of it. Its file is not asked for: it may have moved, and a job
/// from another book may name any. Of a log that an earlier version read nothing is kept to draw.
void add_log(const JobAtHand& job, const Environment& environment, JobReport& report) {
  const job::Check* last = job::latest(job.call.checks, [](const job::Check& check) {
    return check.form == job::CheckForm::log && !check.file.empty();
  });
  if (last == nullptr) return;
  const job::ReplacedPart* repair = job.call.last_work();
  const bool is_from_after_repair = repair != nullptr && !last->happened_before(*repair);
  const Sentences say{UnitPreferences{}};
  const std::optional<LogDrawing> drawing = drawing_from_record(last->drawing);
  if (!drawing) {
    environment.err << paragraph(say(OHMWRIGHT_TEXT("The book keeps no picture of the log {file}; take it in again: "
                                                    "ohmwright job verify --log FILE"),
                                     {{"file", printable(last->file)}}),
                                 environment.page.width);
    return;
  }
  if (const std::optional<std::string> drawn = drawn_picture(log_picture_script(*drawing, say, PictureSize{720, 120})))
    report.logs.push_back({*drawn, say(is_from_after_repair ? OHMWRIGHT_TEXT("The log from after the repair")
                                                            : OHMWRIGHT_TEXT("The log from before the repair"))});
}

/// A caution's words and source: the framework's, or that of a kind that was read, replaced or is in the appliance.
JobCaution caution_shown(const std::string& id, std::span<const Descriptor* const> kinds, const Sentences& say) {
  if (const Caution* caution = caution_named(id))
    return {id, say(caution->brief), say(caution->english), std::string(caution->source)};
  for (const Descriptor* kind : kinds) {
    const std::uint16_t own = index_of(kind->cautions, id);
    if (own != not_found)
      return {id, say.in_domain(kind->text_domain, kind->cautions[own].brief),
              say.in_domain(kind->text_domain, kind->cautions[own].english), std::string(kind->cautions[own].source)};
  }
  return {id, id, id, say(OHMWRIGHT_TEXT("no longer known"))};
}

void add_cautions(const JobAtHand& job, const Environment& environment, JobReport& report) {
  std::vector<const Descriptor*> kinds;
  std::vector<std::string> names;
  for (const job::MeasuredValue& value : job.call.readings) names.push_back(value.kind);
  for (const job::ReplacedPart& part : job.call.replaced) names.push_back(part.kind);
  for (const std::string& name : names) {
    if (name.empty()) continue;
    try {
      kinds.push_back(&open_kind(environment, name).descriptor());
    } catch (const Error&) {
      continue;
    }
  }
  std::optional<Appliance> appliance;
  try {
    if (job.call.has_appliance()) appliance.emplace(appliance_of(job.call, environment));
  } catch (const Error&) {
    appliance.reset();  // told with the search; the cautions of what was read and replaced are there
  }
  if (appliance)
    for (const PlacedPart& part : appliance->parts) kinds.push_back(&part.kind->descriptor());
  const Sentences say{UnitPreferences{}};
  for (const std::string& id : job.call.cautions) report.cautions.push_back(caution_shown(id, kinds, say));
}

}  // namespace

int report_of_job(const Arguments& arguments, Environment& environment) {
  const Arguments of_job = of_job_written_last(arguments);
  const JobAtHand job = job_at_hand(of_job);
  const std::string format = arguments.value("--format", "text");
  JobReport report{.line = job.line, .call = job.call, .local_time = local_time};
  report.made_with = made_with();
  for (const std::string& lost : lost_files(job.call, environment))
    environment.err << paragraph(lost, environment.page.width);
  add_search(job, environment, format == "html", report);
  add_dangers(job, environment, report);
  add_cautions(job, environment, report);
  const Sentences say{UnitPreferences{}};
  if (format == "html") {
    add_plots(job, environment, report);
    add_log(job, environment, report);
  }
  deliver(format == "json"   ? job_json(report, say)
          : format == "html" ? job_html(report, say)
                             : job_page(report, say, environment.page),
          of_job, environment);
  return exit_done;
}

}  // namespace ohmwright::cli
