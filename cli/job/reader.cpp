#include "job/reader.hpp"

#include <algorithm>
#include <iterator>
#include <optional>
#include <ostream>
#include <span>
#include <utility>
#include <variant>

#include <ohmwright/component/insulation.hpp>
#include <ohmwright/component/role.hpp>
#include <ohmwright/job/proof.hpp>
#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/no_leak.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/leak_warning.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/verdict/caution_refusal.hpp>

#include "exit_codes.hpp"
#include "instrument_readings.hpp"
#include "job/appliance.hpp"
#include "job/earlier_readings.hpp"
#include "job/low_voltage.hpp"
#include "job/next_page.hpp"
#include "job/opens_warm.hpp"
#include "job/point_words.hpp"
#include "job/reading_entry.hpp"
#include "job/reading_judged.hpp"
#include "job/safety.hpp"
#include "job/search.hpp"
#include "job/temperatures.hpp"
#include "job/untouched.hpp"
#include "locate/words.hpp"

namespace ohmwright::cli {

namespace {

std::vector<std::string> ids_in(const std::vector<std::string_view>& views) { return {views.begin(), views.end()}; }

/// The words of the reading as the book shows them; what an instrument showed stands before the circumstances.
std::string shown_in_book(const Arguments& arguments, std::span<const Reading> readings) {
  std::string all;
  const auto add = [&all](const std::string& word) { all += (all.empty() ? "" : " ") + word; };
  for (const Reading& reading : readings)
    if (arguments.has("--from") && reading.label == instrument_label) add(text_shown(reading.observed));
  for (std::size_t i = 1; i < arguments.operands.size(); ++i) add(arguments.operands[i]);
  return all;
}

/// The earlier readings that a verdict rests on beside what was read now, which is the last of them.
std::string read_beside(const PartCheck& check, std::size_t now, const Sentences& say) {
  std::string all;
  for (std::size_t i = 0; i + now < check.readings().size(); ++i) {
    const Reading& reading = check.readings()[i];
    const auto at = std::find_if(reading.conditions.begin(), reading.conditions.end(),
                                 [](const Condition& condition) { return condition.id == "part_temperature"; });
    const auto* stated = std::get_if<StatedValue>(&reading.observed);
    all += (all.empty() ? "" : ", ") + (stated != nullptr ? say.stated(*stated) : text_shown(reading.observed));
    if (at != reading.conditions.end())
      all += say(OHMWRIGHT_TEXT(" at {temperature}"), {{"temperature", say.stated(at->value)}});
    if (reading.moisture == Moisture::wet) all += say(OHMWRIGHT_TEXT(" while wet"));
  }
  return all;
}

/// Says of which earlier readings a verdict hangs, too; nothing for none.
std::string page_of_read_beside(const std::string& beside, const Sentences& say, const PageStyle& style) {
  if (beside.empty()) return {};
  return paragraph(say(OHMWRIGHT_TEXT("It was judged together with what was read before: {earlier}. Was one of them a "
                                      "slip, take it back: ohmwright job show, then ohmwright job correct ENTRY."),
                       {{"earlier", beside}}),
                   style.width);
}

/// Arguments of the judging, with the job's meter where none was typed.
Arguments with_meter_of(const job::ServiceCall& call, Arguments arguments, const Environment& environment) {
  if (arguments.has("--meter")) return arguments;
  std::vector<std::string> words = meters_of_call(call, environment).words;
  if (!words.empty()) arguments.options["--meter"] = std::move(words);
  return arguments;
}

/// What a job calls good is plugged in: its verdicts are surer than need be, never less.
void refuse_less_sure_than_a_proof(const Arguments& arguments) {
  if (!arguments.has("--confidence")) return;
  const std::string text = arguments.value("--confidence");
  const double least = JudgeSettings{}.confidence;
  if (parse_stated_value(text, Dimension::ratio).value.value_in_si() < least)
    throw InputError("in a job a verdict is proof of what will be plugged in: --confidence takes " +
                     display_text(AnyQuantity(Dimension::ratio, least)) + " or more, got " + ohmwright::quoted(text) +
                     "; to see what less would say: ohmwright check");
}

LiesAtLowVoltage low_voltage_of(const Appliance& appliance, std::size_t part, const Environment& environment) {
  return {lies_at_low_voltage(appliance, part, environment), is_wire_at_low_voltage(appliance, part, environment)};
}

/// Whether a tester's volts went into a part.
bool has_test_volts(const PartCheck& check) {
  return std::any_of(check.readings().begin(), check.readings().end(), states_test_voltage);
}

}  // namespace

JobReader::JobReader(JobAtHand& job, const Arguments& arguments, Environment& environment, bool tells_what_is_next)
    : job_(job),
      arguments_(with_meter_of(job.call, arguments, environment)),
      environment_(environment),
      happened_(time_happened(arguments)),
      has_meter_of_its_own_(arguments.has("--meter")),
      tells_what_is_next_(tells_what_is_next) {
  if (arguments.has("--from") && arguments.has("--time"))
    throw InputError("--from reads the instrument now, so --time cannot be beside it; leave one out");
  refuse_less_sure_than_a_proof(arguments_);
}

int JobReader::read_test_points() {
  if (has_meter_of_its_own_)  // what is read next to it is weighed by one meter, and the book keeps that
    throw InputError(
        "--meter is not said of one test point: all that is read at them is weighed by the meter of the job; "
        "say it of the job first: ohmwright job sign --meter " +
        ohmwright::quoted(arguments_.value("--meter")));
  const JobSearch before(job_.call, arguments_, environment_, JobSearch::Reach::now);
  Appliance appliance = before.appliance();
  const PointWords split = words_of_points(arguments_.operands);
  std::vector<std::string> points;
  std::copy_if(split.words.begin(), split.words.end(), std::back_inserter(points),
               [](const std::string& word) { return !is_stated_by_points(word); });
  refuse_words_of_a_part(points, appliance);
  const bool from_instrument = arguments_.has("--from");
  if (arguments_.has("--four-wire"))
    throw InputError(
        "at a test point ohms are read by two leads, which are taken off; leave --four-wire out, or read "
        "the part itself: ohmwright job read PART --from ADDRESS --four-wire");
  if (from_instrument && points.size() > 1)
    throw InputError("--from reads one test point, and " + ohmwright::quoted(points[1]) +
                     " is another; one after the other");
  for (const std::string& word : points)
    add_test_point(from_instrument ? with_value_from_instrument(word, appliance) : word, split.at, appliance);
  return finish();
}

void JobReader::refuse_words_of_a_part(const std::vector<std::string>& points, const Appliance& appliance) const {
  const auto option =
      std::find_if(points.begin(), points.end(), [](const std::string& word) { return word.starts_with("--"); });
  if (option == points.end()) return;
  const std::string& first = arguments_.operands.front();
  const std::size_t sign = first.find('=');
  std::string part = "PART";
  std::string lead_off;
  if (sign != std::string::npos) {
    const std::size_t point = typed_measurement(first.substr(0, sign), appliance).test_point;
    if (const std::string read = part_read_at(appliance, point); !read.empty()) part = read;
    if (!appliance.test_points[point].lifted.empty()) lead_off = " --lead-off";
  }
  std::string said =
      "ohmwright job read " + part + " " + (sign == std::string::npos ? std::string("VALUE") : first.substr(sign + 1));
  for (std::size_t i = 1; i < arguments_.operands.size(); ++i)
    if (arguments_.operands[i] != "--lead-off") said += " " + arguments_.operands[i];
  throw InputError(ohmwright::quoted(*option) + " is said of a part, not of a test point; write: " + printable(said) +
                   lead_off);
}

const LoadedKind& JobReader::kind_of_no_part(const std::optional<Appliance>& appliance) const {
  try {
    return kind_typed(environment_, arguments_.operands);
  } catch (const InputError&) {
    if (!appliance) throw;
    std::vector<std::string> ids;
    for (const PlacedPart& part : appliance->parts) ids.push_back(part.id);
    throw InputError("the appliance has no part " + ohmwright::quoted(arguments_.operands.front()) +
                     did_you_mean(arguments_.operands.front(), ids) + "; its parts: " + listed(ids) +
                     ". Its test points are read as TESTPOINT=VALUE, and a part of another appliance by its kind: "
                     "ohmwright kinds");
  }
}

int JobReader::read_part() {
  const std::string& name = arguments_.operands.front();
  std::optional<Appliance> appliance;
  if (job_.call.has_appliance()) appliance.emplace(appliance_of(job_.call, environment_));
  const std::optional<std::size_t> placed = appliance ? part_named(*appliance, name) : std::nullopt;
  const LoadedKind& kind = placed ? *appliance->parts[*placed].kind : kind_of_no_part(appliance);
  const bool says_ratings = arguments_.has("--ratings") || arguments_.has("--control");
  const std::string went_in = ratings_that_went_in(job_.call, kind.descriptor().id);  // of a part of no appliance
  RatedPart part = placed && !says_ratings ? placed_part(*appliance, *placed, job_.call)
                   : says_ratings || ratings_are_lost(kind, went_in)
                       ? rated_part(kind, arguments_.value("--ratings"), arguments_.value("--control"))
                       : rated_part(kind, went_in);
  if (placed) refuse_other_ratings_than_went_in(name, kind);
  const std::string title = placed ? appliance->parts[*placed].title : part.title;
  if (is_read_live_from_instrument(arguments_, kind.descriptor())) agree_to(kind.descriptor(), name);
  const PartCheck typed = checked_part(kind, part, arguments_, environment_);
  const std::string id = placed ? name : std::string(kind.descriptor().id);
  const PartCheck check = with_what_was_read_before(job_.call, id, typed, arguments_, environment_);
  const Sentences say(check.units());
  const bool live = std::any_of(check.readings().begin(), check.readings().end(),
                                [](const Reading& reading) { return reading.supply == Supply::live; });
  if (live) agree_to(kind.descriptor(), name);
  if (has_test_volts(check)) refuse_at_sealed_system(job_.call, environment_, name);  // a spark beside a leak
  job::ContentWriter content;
  content.text("place", name)
      .text("title", title.empty() ? std::string(kind.descriptor().title) : title)
      .text("part", id)
      .text("shown", shown_in_book(arguments_, typed.readings()))
      .texts("cautions", ids_in(caution_ids(kind.descriptor(), check.readings(), check.verdict().advice)))
      .flag("agreed_live", live);
  add_verdict(check, typed.readings(), arguments_, say, content);
  const std::string beside = read_beside(check, typed.readings().size(), say);
  content.text("beside", beside);
  content.flag("open_where_warm", shows_open_where_warm(check, arguments_, environment_));
  content.flag("lacks_earth", appliance && !appliance->supply.earth);
  std::vector<job::ContentWriter> safety;
  const LiesAtLowVoltage low = placed ? low_voltage_of(*appliance, *placed, environment_) : LiesAtLowVoltage{};
  add_safety_of(check, low, safety);
  entries_.push_back({job::EntryForm::reading, content.objects("safety", safety).content()});
  pages_.push_back(page_of_part_read(check, arguments_, low, was_read_good(id), say, environment_.page));
  if (!beside.empty()) pages_.push_back(page_of_read_beside(beside, say, environment_.page));
  if (low.part && has_test_volts(check))
    pages_.push_back(paragraph(
        say(OHMWRIGHT_TEXT("It lies at low voltage: a tester's 500 V go into sensor, fan and board and may destroy "
                           "them, and prove nothing of what lies at the mains. Never read it so again.")),
        environment_.page.width));
  else if (low.is_wire && !safety.empty())
    pages_.push_back(paragraph(
        say(OHMWRIGHT_TEXT("It lies at low voltage, in a sensor's or a fan's circuit: an ohmmeter is all that is asked "
                           "of its insulation. No 500 V go into it, whatever is said above.")),
        environment_.page.width));
  outcome_ = exit_code(check.verdict().outcome);
  return finish();
}

bool JobReader::was_read_good(const std::string& part) const {
  const job::ReplacedPart* work = job_.call.last_work_on(part);
  return std::any_of(job_.call.readings.begin(), job_.call.readings.end(), [&](const job::MeasuredValue& reading) {
    return reading.subject() == part && reading.outcome == Outcome::within_limits &&
           (work == nullptr || !reading.happened_before(*work));
  });
}

void JobReader::refuse_other_ratings_than_went_in(const std::string& part, const LoadedKind& kind) const {
  const std::string typed = arguments_.value("--ratings");
  const job::ReplacedPart* in = job_.call.last_new(part);
  if (typed.empty() || in == nullptr || in->new_ratings.empty() || in->new_ratings == typed) return;
  if (ratings_are_lost(kind, ratings_that_went_in(job_.call, part))) return;
  throw InputError(printable(in->title) + " was replaced by " + ohmwright::quoted(in->new_ratings) +
                   ", and is judged as that; leave --ratings out, or, where another went in, say so: ohmwright job "
                   "replace " +
                   part + " --new NAME");
}

void JobReader::agree(const std::string& step) {
  if (std::find(agreed_.begin(), agreed_.end(), step) != agreed_.end()) return;
  if (!stops_.empty())
    throw CautionRefusal(OHMWRIGHT_TEXT("{step} is read live, and what is read beside it leaks: nothing is read live "
                                        "before that is mended. Nothing of this was taken; type what leaks alone."),
                         {{"step", step}});
  refuse_at_sealed_system(job_.call, environment_, step);
  refuse_to_energise(job_, happened_,
                     OHMWRIGHT_TEXT("{step} is read live, and nothing is read live while it is not proved safe to "
                                    "energise:{bars} See: ohmwright job verify"),
                     step);
  entries_.push_back(agreement(step, arguments_));
  agreed_.push_back(step);
}

void JobReader::agree_to(const Appliance& appliance, const locate::Measurement& measurement) {
  const std::string& point = appliance.test_points[measurement.test_point].id;
  if (locate::may_heat(appliance, measurement))
    refuse_while_it_heats(point + "@" + appliance.set_ups[*measurement.set_up].id);
  agree(point);
}

void JobReader::refuse_while_it_heats(const std::string& step) const {
  refuse_to_heat(job_, happened_,
                 OHMWRIGHT_TEXT("{step} is read while it heats, and nothing is heated while what limits the heat is "
                                "not proved:{bars} See: ohmwright job verify"),
                 environment_, step);
}

void JobReader::agree_to(const Descriptor& kind, const std::string& part) {
  const bool heats = std::any_of(kind.roles.begin(), kind.roles.end(),
                                 [](std::string_view of) { return of.starts_with(role::heats); });
  if (heats) refuse_while_it_heats(part);
  agree(part);
}

std::string JobReader::with_value_from_instrument(const std::string& word, const Appliance& appliance) {
  if (word.find('=') != std::string::npos)
    throw InputError(ohmwright::quoted(word) + " states a value, and --from reads one; leave one of them out");
  const locate::Measurement measurement = typed_measurement(word, appliance);
  const bool live = locate::is_live(appliance, measurement);
  if (live) {
    agree_to(appliance, measurement);
    refuse_live_instrument(arguments_, environment_, arguments_.value("--from"));
  }
  const std::string shown = shown_by_instrument(value_source(arguments_, environment_),
                                                appliance.test_points[measurement.test_point].probe, live);
  environment_.out << paragraph(
      Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT("The instrument shows {value}."), {{"value", shown}}),
      environment_.page.width);
  return word + "=" + shown;
}

void JobReader::add_test_point(const std::string& word, const std::optional<std::string>& at, Appliance& appliance) {
  UnitPreferences units;
  const Meter meter = meter_of_call(job_.call, environment_);
  locate::TakenReading taken = typed_test_reading(word, TypedReadings{appliance, meter, units});
  const TestPoint& point = appliance.test_points[taken.measurement.test_point];
  const bool live = locate::is_live(appliance, taken.measurement);
  for (const std::string& said : arguments_.operands)
    if (is_stated_by_points(said)) refuse_what_the_point_contradicts(said, point, live);
  if (live) agree_to(appliance, taken.measurement);
  const locate::Site site = site_at(job_.call, appliance, moment_now(job_.call, happened_), units);
  std::vector<std::string> zones;
  if (at)
    zones.push_back(zone_word_at(
        *at, point, part_named(appliance, part_read_at(appliance, taken.measurement.test_point)), appliance));
  const std::vector<std::string> cautions =
      locate::cautions_of(appliance, locate::work_at_arrival(appliance), taken.measurement);
  taken.measurement.set_up =
      set_up_then(taken.measurement, site, site, stated_with(zones, appliance, units), appliance);
  const std::optional<PartCheck> alone =
      judged_at_test_point(appliance, site, taken, job_.call, units, arguments_, environment_);
  std::optional<PartCheck> check;
  if (alone)
    check.emplace(with_what_was_read_before(job_.call, part_read_at(appliance, taken.measurement.test_point), *alone,
                                            arguments_, environment_));
  const Sentences say(units);
  job::ContentWriter content;
  content.text("place", point.id)
      .text("title", check ? check->part().title : point.title)
      .text("part", check ? part_read_at(appliance, taken.measurement.test_point) : std::string())
      .text("shown", word.substr(word.find('=') + 1) + (at ? " --at " + *at : std::string()))
      .text("word", word)
      .texts("zones", zones)
      .text("point", point.title)
      .texts("cautions", cautions)
      .flag("agreed_live", live)
      .flag("lacks_earth", !appliance.supply.earth);
  std::vector<job::ContentWriter> safety;
  if (check) {
    add_verdict(*check, alone->readings(), arguments_, say, content);
    const std::string beside = read_beside(*check, alone->readings().size(), say);
    content.text("beside", beside);
    content.flag("open_where_warm", shows_open_where_warm(*check, arguments_, environment_));
    add_safety_of(
        *check,
        low_voltage_of(appliance, *part_named(appliance, part_read_at(appliance, taken.measurement.test_point)),
                       environment_),
        safety);
    pages_.push_back(verdict_page(check->report(arguments_), say, environment_.page));
    if (!beside.empty()) pages_.push_back(page_of_read_beside(beside, say, environment_.page));
    take_outcome(check->verdict().outcome);
    tell_zone_to_measure(appliance, site, taken);
  } else {
    tell_zone_to_measure(appliance, site, taken);
    content.text("reads", kept_sentence(shown_reading(taken, say)));
    content.flag("as_it_should", is_as_it_should(word, zones));
  }
  add_leak(appliance, taken, meter, say, safety);
  entries_.push_back({job::EntryForm::reading, content.objects("safety", safety).content()});
}

bool JobReader::is_as_it_should(const std::string& word, const std::vector<std::string>& zones) const {
  if (job_.call.replaced.empty()) return false;  // asked of a repair alone
  job::MeasuredValue value;
  static_cast<job::Told&>(value) = moment_now(job_.call, happened_);
  value.order = job_.entries.size();
  value.word = word;
  value.zones = zones;
  job::ServiceCall with = job_.call;
  with.readings.push_back(value);
  return reads_as_it_should(with, value, arguments_, environment_);
}

void JobReader::tell_zone_to_measure(const Appliance& appliance, const locate::Site& site,
                                     const locate::TakenReading& taken) {
  if (!tells_what_is_next_) return;  // the conversation has asked for it
  const std::optional<ZoneToMeasure> hangs_on =
      zone_to_measure(appliance, site, taken, job_.call, arguments_, environment_);
  if (!hangs_on || hangs_on->form == ZoneToMeasure::Form::said_before) return;
  const Zone& zone = appliance.zones[hangs_on->zone];
  const Sentences say{UnitPreferences{}};
  const FindingArgument title{"zone", zone.title};
  const FindingArgument id{"id", zone.id};
  const TemperatureSpan room = locate::room_that_nobody_spoke_of();
  const auto at = [&say](double kelvin) { return say.quantity(AnyQuantity(Dimension::temperature, kelvin)); };
  const std::string text =
      hangs_on->form == ZoneToMeasure::Form::as_warm_as
          ? say(OHMWRIGHT_TEXT(
                    "Nobody said how warm the {zone} is, on which this hangs: it may be anything from {cold} to "
                    "{warm}. "
                    "Measure it, say so: ohmwright job sign --zone {id}=24C (as it is), then read it again."),
                {title, {"cold", at(room.from_kelvin)}, {"warm", at(room.to_kelvin)}, id})
          : say(OHMWRIGHT_TEXT("Nobody measured the temperature of the {zone}, on which this hangs. Measure it at the "
                               "part, say so: ohmwright job sign --zone {id}=4C (as it is), then read it again."),
                {title, id});
  pages_.push_back(paragraph(text, environment_.page.width));
}

void JobReader::add_leak(const Appliance& appliance, const locate::TakenReading& taken, const Meter& meter,
                         const Sentences& say, std::vector<job::ContentWriter>& safety) {
  if (locate::tells_of_leak(appliance, taken, meter)) {
    safety.push_back(safety_row(job::leak_rule, Outcome::out_of_limits));
    stops_.push_back(leak_warning(appliance, taken, say));
    take_outcome(Outcome::out_of_limits);
  } else if (locate::shows_no_leak(appliance, taken, meter)) {
    safety.push_back(safety_row(job::leak_rule, Outcome::undecided));
    const auto* stated = std::get_if<StatedValue>(&taken.observed);
    if (stated != nullptr && stated->value.value_in_si() < least_insulation(EarthClass::two).value())
      safety.back().text("without_earth", name_of(Outcome::out_of_limits));
  }
}

void JobReader::take_outcome(Outcome outcome) {
  if (outcome_ == exit_out_of_limits || outcome == Outcome::within_limits) return;
  outcome_ = exit_code(outcome);
}

int JobReader::finish() {
  for (job::NewEntry& entry : entries_) entry.happened = happened_;
  write_and_end_unsafe_wait(job_, std::move(entries_), environment_);
  warn_of_early_time(job_, happened_, environment_);
  for (const std::string& stop : stops_)
    environment_.out << '\n' << paragraph(printable(stop), environment_.page.width);
  for (const std::string& page : pages_) environment_.out << '\n' << page;
  tell_dangers();
  if (!tells_what_is_next_) return outcome_;
  if (!job_.call.replaced.empty()) {
    environment_.out << '\n'
                     << paragraph(
                            Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT(
                                "A part was replaced or mended. What is still to be proved: ohmwright job verify")),
                            environment_.page.width);
  } else if (job_.call.has_appliance()) {
    JobSearch now(job_.call, arguments_, environment_, JobSearch::Reach::now);
    environment_.out << standing_page(now, environment_.page);
  }
  return outcome_;
}

void JobReader::tell_dangers() {
  const Sentences say{UnitPreferences{}};
  std::vector<std::string> dangers;
  for (const job::ProofStep& step : job::open_proof(job_.call))
    if (step.is_danger()) dangers.push_back(printable(proof_text(step, say)));
  PageLayout page(environment_.page);
  page.section(say(OHMWRIGHT_TEXT("Not plugged in before")), dangers);
  environment_.out << page.take();
}

}  // namespace ohmwright::cli
