#include <algorithm>
#include <array>
#include <ostream>
#include <span>

#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/document/verdict_record.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/job/proof.hpp>
#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/no_leak.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/leak_warning.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/verdict_content.hpp>
#include <ohmwright/safety/safe_to_energise.hpp>

#include "exit_codes.hpp"
#include "job_actions.hpp"
#include "job_appliance.hpp"
#include "job_book_file.hpp"
#include "job_next_page.hpp"
#include "job_reading_judged.hpp"
#include "job_safety.hpp"
#include "job_search.hpp"
#include "locate_words.hpp"

namespace ohmwright::cli {

namespace {

/// Bytes of a sentence that the book keeps; the figures behind it are in the records.
constexpr std::size_t longest_sentence = 1000;

std::string kept(const std::string& sentence) {
  std::string text = with_plain_spaces(sentence);
  if (text.size() <= longest_sentence) return text;
  std::size_t end = longest_sentence;
  while ((static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;  // not within a letter
  return text.substr(0, end);
}

/// Whether something was read that the rule speaks of: "earth-bond" speaks of earth_bond.
bool is_read(std::string_view rule, std::span<const Reading> readings) {
  std::string measurand(rule);
  std::replace(measurand.begin(), measurand.end(), '-', '_');
  return std::any_of(readings.begin(), readings.end(),
                     [&](const Reading& reading) { return reading.measurand == measurand; });
}

job::ContentWriter safety_row(std::string_view rule, Outcome outcome) {
  return job::ContentWriter().text("rule", rule).text("outcome", name_of(outcome));
}

/// Whether it is of what tells if the part may be energised.
bool tells_of_safety(const Descriptor& descriptor, const Reading& reading) {
  return std::any_of(descriptor.rules.begin(), descriptor.rules.end(), [&](const RuleDescriptor& rule) {
    return tells_safe_to_energise(rule.id) && is_read(rule.id, std::span(&reading, 1));
  });
}

/// What was read of insulation and earth bond. That they were not read is no finding about them.
void add_safety_of(const PartCheck& check, std::vector<job::ContentWriter>& all) {
  for (const Finding& finding : check.verdict().findings) {
    const RuleDescriptor& rule = check.kind().descriptor().rules[finding.rule];
    if (!tells_safe_to_energise(rule.id) || finding.outcome == Outcome::silent) continue;
    if (finding.outcome != Outcome::undecided || is_read(rule.id, check.readings()))
      all.push_back(safety_row(rule.id, finding.outcome));
  }
}

/// What was read, for people: "32.1 Ω", and of what tells whether it may be energised with how many volts.
std::string reading_for_people(const PartCheck& check, const Sentences& say) {
  const Descriptor& descriptor = check.kind().descriptor();
  std::string all;
  for (const Reading& reading : check.readings()) {
    const std::uint16_t index = index_of(descriptor.measurands, reading.measurand);
    locate::TakenReading taken{{}, reading.observed, {}};
    taken.range = reading.range;
    std::string text = shown_reading(taken, say);
    if (index != not_found && index != 0)
      text = say.in_domain(descriptor.text_domain, descriptor.measurands[index].title) + " " + text;
    for (const Condition& condition : reading.conditions)
      if (tells_of_safety(descriptor, reading)) text += " (" + say.stated(condition.value) + ")";
    all += (all.empty() ? "" : "; ") + text;
  }
  return kept(all);
}

/// What a verdict adds to the entry: its records, and its sentences as they were read.
void add_verdict(const PartCheck& check, const Arguments& arguments, const Sentences& say,
                 job::ContentWriter& content) {
  const Descriptor& descriptor = check.kind().descriptor();
  const VerdictReport report = check.report(arguments);
  const VerdictContent words = verdict_content(report, say, Audience::who_is_handed_the_page);
  std::vector<std::string> reasons;
  std::vector<std::string> doubt;
  for (const std::string& reason : words.reasons) reasons.push_back(kept(reason));
  for (const DoubtShare& share : words.doubt) doubt.push_back(kept(share.label) + " " + percent_text(share.share));
  content.text("kind", descriptor.id)
      .text("ratings", check.part().name)
      .text("outcome", name_of(check.verdict().outcome))
      .text("headline", kept(words.headline))
      .texts("reasons", reasons)
      .texts("doubt", doubt)
      .text("meter", report.meter_title)
      .json("readings", readings_record(check.readings()))
      .json("verdict", verdict_record(check.verdict(), descriptor, check.evidence().sources()))
      .text("reads", reading_for_people(check, say));
  if (check.verdict().probability_within) content.number("probability", *check.verdict().probability_within);
}

std::vector<std::string> ids_in(const std::vector<std::string_view>& views) { return {views.begin(), views.end()}; }

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : " ") + word;
  return all;
}

/// Refuses what contradicts the test point; what it says itself may be said again.
void refuse_what_the_point_contradicts(std::string_view option, const TestPoint& point, bool live) {
  const bool lifts = !point.lifted.empty();
  std::string_view why;
  if (option == "--lead-off" && !lifts) why = "no lead is off there";
  if (option == "--in-circuit" && lifts) why = "a lead is off there";
  if ((option == "--proved-dead" || option == "--unplugged") && live) why = "it is read live";
  if (option == "--live" && !live) why = "it is read without supply";
  if (!why.empty())
    throw InputError(std::string(option) + " contradicts the test point " + ohmwright::quoted(point.id) + ": " +
                     std::string(why) + "; leave it out, or choose another point (ohmwright appliance show)");
}

/// What may stand beside readings at test points, whose leads and supply the appliance's file states already.
constexpr std::array<std::string_view, 5> what_points_state{"--lead-off", "--in-circuit", "--proved-dead",
                                                            "--unplugged", "--live"};

bool is_stated_by_points(const std::string& word) {
  return std::find(what_points_state.begin(), what_points_state.end(), word) != what_points_state.end();
}

/// The explicit yes to a live step, which is recorded with it. Throws InputError without one.
job::NewEntry agreement(const std::string& step, const Arguments& arguments) {
  if (!arguments.has("--live-agreed"))
    throw InputError(step +
                     " is read live: only if you are qualified for it, with insulated probes, one hand at a time, "
                     "somebody with you; if you are and agree to that, say --live-agreed, and it is recorded");
  return {job::EntryForm::agreed,
          job::ContentWriter().text("step", step).text("caution", "live-measurement").content()};
}

/// Arguments of the judging, with the job's meter where none was typed.
Arguments with_meter_of(const job::ServiceCall& call, Arguments arguments) {
  if (arguments.has("--meter")) return arguments;
  for (const job::EvidenceWord& word : call.evidence)
    if (word.option == "--meter") arguments.options["--meter"].push_back(word.word);
  return arguments;
}

/// A test point is read as TESTPOINT=VALUE: what looks like a part and is a point is told so.
void refuse_a_point_without_its_sign(const job::ServiceCall& call, const std::string& name, const Arguments& arguments,
                                     const Environment& environment) {
  if (!call.has_appliance()) return;
  const Appliance appliance = appliance_of(call, environment);
  if (part_named(appliance, name) || !test_point_named(appliance, name)) return;
  const bool has_value = arguments.operands.size() > 1 && arguments.operands[1].rfind("--", 0) != 0;
  throw InputError(ohmwright::quoted(name) + " is a test point; write: ohmwright job read " + name + "=" +
                   (has_value ? printable(arguments.operands[1]) : std::string("VALUE")));
}

class JobReader {
 public:
  JobReader(JobAtHand& job, const Arguments& arguments, Environment& environment, bool tells_what_is_next)
      : job_(job),
        arguments_(with_meter_of(job.call, arguments)),
        environment_(environment),
        happened_(time_happened(arguments)),
        tells_what_is_next_(tells_what_is_next) {}

  /// TESTPOINT[@SETUP]=VALUE, each with the verdict of the part it is of, if it is of one.
  int read_test_points() {
    const JobSearch before(job_.call, arguments_, environment_, JobSearch::Reach::now);
    Appliance appliance = before.appliance();
    for (const std::string& word : arguments_.operands)
      if (!is_stated_by_points(word)) add_test_point(word, appliance);
    return finish();
  }

  /// PART or KIND and readings, in the words of `check`.
  int read_part() {
    const std::string& name = arguments_.operands.front();
    std::optional<Appliance> appliance;
    if (job_.call.has_appliance()) appliance.emplace(appliance_of(job_.call, environment_));
    const std::optional<std::size_t> placed = appliance ? part_named(*appliance, name) : std::nullopt;
    const LoadedKind& kind = placed ? *appliance->parts[*placed].kind : kind_typed(environment_, arguments_.operands);
    RatedPart part = placed && !arguments_.has("--ratings") && !arguments_.has("--control")
                         ? placed_part(*appliance, *placed, job_.call)
                         : rated_part(kind, arguments_.value("--ratings"), arguments_.value("--control"));
    const std::string title = placed ? appliance->parts[*placed].title : part.title;
    const PartCheck check = checked_part(kind, std::move(part), arguments_, environment_);
    const Sentences say(check.units());
    const bool live = std::any_of(check.readings().begin(), check.readings().end(),
                                  [](const Reading& reading) { return reading.supply == Supply::live; });
    if (live) agree(name);
    job::ContentWriter content;
    content.text("place", name)
        .text("title", title.empty() ? std::string(kind.descriptor().title) : title)
        .text("part", placed ? name : std::string(kind.descriptor().id))
        .text("shown", joined({arguments_.operands.begin() + 1, arguments_.operands.end()}))
        .texts("cautions", ids_in(caution_ids(kind.descriptor(), check.readings(), check.verdict().advice)))
        .flag("agreed_live", live);
    add_verdict(check, arguments_, say, content);
    std::vector<job::ContentWriter> safety;
    add_safety_of(check, safety);
    entries_.push_back({job::EntryForm::reading, content.objects("safety", safety).content()});
    pages_.push_back(verdict_page(check.report(arguments_), say, environment_.page));
    outcome_ = exit_code(check.verdict().outcome);
    return finish();
  }

 private:
  void agree(const std::string& step) {
    refuse_to_energise(job_, happened_, step + " is read live, and nothing is read live");
    entries_.push_back(agreement(step, arguments_));
  }

  void add_test_point(const std::string& word, const Appliance& appliance) {
    UnitPreferences units;
    const Meter meter = meter_of_call(job_.call, environment_);
    const locate::TakenReading taken = typed_test_reading(word, TypedReadings{appliance, meter, units});
    const TestPoint& point = appliance.test_points[taken.measurement.test_point];
    const bool live = locate::is_live(appliance, taken.measurement);
    for (const std::string& said : arguments_.operands)
      if (is_stated_by_points(said)) refuse_what_the_point_contradicts(said, point, live);
    if (live) agree(point.id);
    const Arguments words = locate_words_of(job_.call);
    const locate::Site site = typed_site(words, appliance, units);
    const std::optional<PartCheck> check =
        judged_at_test_point(appliance, site, taken, job_.call, units, arguments_, environment_);
    const locate::WorkState work = locate::work_at_arrival(appliance);
    const Sentences say(units);
    job::ContentWriter content;
    content.text("place", point.id)
        .text("title", check ? check->part().title : point.title)
        .text("part", check ? part_read_at(appliance, taken.measurement.test_point) : std::string())
        .text("shown", word.substr(word.find('=') + 1))
        .text("word", word)
        .text("point", point.title)
        .texts("cautions", locate::cautions_of(appliance, work, taken.measurement))
        .flag("agreed_live", live);
    std::vector<job::ContentWriter> safety;
    if (check) {
      add_verdict(*check, arguments_, say, content);
      add_safety_of(*check, safety);
      pages_.push_back(verdict_page(check->report(arguments_), say, environment_.page));
      take_outcome(check->verdict().outcome);
    } else {
      content.text("reads", kept(shown_reading(taken, say)));
    }
    add_leak(appliance, taken, meter, say, safety);
    entries_.push_back({job::EntryForm::reading, content.objects("safety", safety).content()});
  }

  /// A way to the frame is a stop at once, whatever else the reading says.
  void add_leak(const Appliance& appliance, const locate::TakenReading& taken, const Meter& meter, const Sentences& say,
                std::vector<job::ContentWriter>& safety) {
    if (locate::tells_of_leak(appliance, taken, meter)) {
      safety.push_back(safety_row(job::leak_rule, Outcome::out_of_limits));
      stops_.push_back(leak_warning(appliance, taken, say));
      take_outcome(Outcome::out_of_limits);
    } else if (locate::shows_no_leak(appliance, taken, meter)) {
      safety.push_back(safety_row(job::leak_rule, Outcome::undecided));
    }
  }

  /// Of several readings the worst is the answer.
  void take_outcome(Outcome outcome) {
    if (outcome_ == exit_out_of_limits || outcome == Outcome::within_limits) return;
    outcome_ = exit_code(outcome);
  }

  /// Writes all down, then says what was judged and what to do next.
  int finish() {
    for (job::NewEntry& entry : entries_) entry.happened = happened_;
    job_.write(entries_);
    say_which(job_, environment_);
    warn_of_early_time(job_, happened_, environment_);
    for (const std::string& stop : stops_)
      environment_.out << '\n' << paragraph(printable(stop), environment_.page.width);
    for (const std::string& page : pages_) environment_.out << '\n' << page;
    tell_dangers();
    if (!tells_what_is_next_) return outcome_;
    if (!job_.call.replaced.empty()) {
      environment_.out << '\n'
                       << paragraph(Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT(
                                        "A part was replaced. What is still to be proved: ohmwright job verify")),
                                    environment_.page.width);
    } else if (job_.call.has_appliance()) {
      JobSearch now(job_.call, arguments_, environment_, JobSearch::Reach::now);
      environment_.out << standing_page(now, environment_.page);
    }
    return outcome_;
  }

  /// What was found bad before and was not read good since stands beside every reading.
  void tell_dangers() {
    const Sentences say{UnitPreferences{}};
    std::vector<std::string> dangers;
    for (const job::ProofStep& step : job::open_proof(job_.call))
      if (step.is_danger()) dangers.push_back(printable(proof_text(step, say)));
    PageLayout page(environment_.page);
    page.section(say(OHMWRIGHT_TEXT("Not plugged in before")), dangers);
    environment_.out << page.take();
  }

  JobAtHand& job_;
  Arguments arguments_;
  Environment& environment_;
  std::string happened_;
  bool tells_what_is_next_ = true;
  std::vector<job::NewEntry> entries_;
  std::vector<std::string> stops_;
  std::vector<std::string> pages_;
  int outcome_ = exit_done;
};

}  // namespace

namespace {

int read_and_tell(const Arguments& arguments, Environment& environment, bool tells_what_is_next) {
  if (arguments.operands.empty())
    throw InputError(
        "missing: what the meter showed; such as: ohmwright job read TESTPOINT=OL, or ohmwright job read PART 32.1");
  JobAtHand job = job_at_hand(arguments);
  refuse_closed(job);
  JobReader reader(job, arguments, environment, tells_what_is_next);
  const auto first = std::find_if_not(arguments.operands.begin(), arguments.operands.end(), is_stated_by_points);
  if (first == arguments.operands.end())
    throw InputError("missing: what the meter showed, beside " + arguments.operands.front());
  if (first->find('=') != std::string::npos) return reader.read_test_points();
  refuse_a_point_without_its_sign(job.call, *first, arguments, environment);
  return reader.read_part();
}

}  // namespace

int read_for_job(const Arguments& arguments, Environment& environment) {
  return read_and_tell(arguments, environment, true);
}

int read_in_talk(const Arguments& arguments, Environment& environment) {
  return read_and_tell(arguments, environment, false);
}

}  // namespace ohmwright::cli
