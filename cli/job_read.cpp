#include <algorithm>
#include <ostream>
#include <span>

#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/document/verdict_record.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/verdict_content.hpp>
#include <ohmwright/safety/safe_to_energise.hpp>

#include "exit_codes.hpp"
#include "job_actions.hpp"
#include "job_appliance.hpp"
#include "job_book_file.hpp"
#include "job_next_page.hpp"
#include "job_reading_judged.hpp"
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

/// What was read of insulation and earth bond. That they were not read is no finding about them.
std::vector<job::ContentWriter> safety_of(const PartCheck& check) {
  std::vector<job::ContentWriter> all;
  for (const Finding& finding : check.verdict().findings) {
    const RuleDescriptor& rule = check.kind().descriptor().rules[finding.rule];
    if (!tells_safe_to_energise(rule.id) || finding.outcome == Outcome::silent) continue;
    if (finding.outcome != Outcome::undecided || is_read(rule.id, check.readings()))
      all.push_back(job::ContentWriter().text("rule", rule.id).text("outcome", name_of(finding.outcome)));
  }
  return all;
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
      .objects("safety", safety_of(check));
  if (check.verdict().probability_within) content.number("probability", *check.verdict().probability_within);
}

std::vector<std::string> ids_in(const std::vector<std::string_view>& views) { return {views.begin(), views.end()}; }

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : " ") + word;
  return all;
}

/// The explicit yes to a live step, which is recorded with it. Throws InputError without one.
job::NewEntry agreement(const std::string& step, const Arguments& arguments) {
  if (!arguments.has("--live-agreed"))
    throw InputError(step +
                     " is read live: only if you are qualified for it, with insulated probes, one hand at a time, "
                     "somebody with you; if you are and agree to that, say --live-agreed, and it is recorded");
  return {std::string(job::forms::agreed),
          job::ContentWriter().text("step", step).text("caution", "live-measurement").content()};
}

/// Arguments of the judging, with the job's meter where none was typed.
Arguments with_meter_of(const job::ServiceCall& call, Arguments arguments) {
  if (arguments.has("--meter")) return arguments;
  for (const job::EvidenceWord& word : call.evidence)
    if (word.option == "--meter") arguments.options["--meter"].push_back(word.word);
  return arguments;
}

class JobReader {
 public:
  JobReader(JobAtHand& job, const Arguments& arguments, Environment& environment)
      : job_(job), arguments_(with_meter_of(job.call, arguments)), environment_(environment) {}

  /// TESTPOINT[@SETUP]=VALUE, each with the verdict of the part it is of, if it is of one.
  int read_test_points() {
    const JobSearch before(job_.call, arguments_, environment_, JobSearch::Reach::now);
    Appliance appliance = before.appliance();
    for (const std::string& word : arguments_.operands) add_test_point(word, appliance);
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
    if (live) entries_.push_back(agreement(name, arguments_));
    job::ContentWriter content;
    content.text("place", name)
        .text("title", title.empty() ? std::string(kind.descriptor().title) : title)
        .text("part", placed ? name : std::string())
        .text("shown", joined({arguments_.operands.begin() + 1, arguments_.operands.end()}))
        .texts("cautions", ids_in(caution_ids(kind.descriptor(), check.readings(), check.verdict().advice)))
        .flag("agreed_live", live);
    add_verdict(check, arguments_, say, content);
    entries_.push_back({std::string(job::forms::reading), content.content()});
    pages_.push_back(verdict_page(check.report(arguments_), say, environment_.page));
    outcome_ = exit_code(check.verdict().outcome);
    return finish();
  }

 private:
  void add_test_point(const std::string& word, const Appliance& appliance) {
    UnitPreferences units;
    const Meter meter = meter_of_call(job_.call, environment_);
    const locate::TakenReading taken = typed_test_reading(word, TypedReadings{appliance, meter, units});
    const TestPoint& point = appliance.test_points[taken.measurement.test_point];
    const bool live = locate::is_live(appliance, taken.measurement);
    if (live) entries_.push_back(agreement(point.id, arguments_));
    const Arguments words = locate_words_of(job_.call, 0, job_.entries.size());
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
        .texts("cautions", locate::cautions_of(appliance, work, taken.measurement))
        .flag("agreed_live", live);
    if (check) {
      add_verdict(*check, arguments_, say, content);
      pages_.push_back(verdict_page(check->report(arguments_), say, environment_.page));
      outcome_ = exit_code(check->verdict().outcome);
    }
    entries_.push_back({std::string(job::forms::reading), content.content()});
  }

  /// Writes all down, then says what was judged and what to do next.
  int finish() {
    const std::string happened = time_happened(arguments_);
    for (job::NewEntry& entry : entries_) entry.happened = happened;
    job_.write(entries_);
    say_which(job_, environment_);
    for (const std::string& page : pages_) environment_.out << '\n' << page;
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

  JobAtHand& job_;
  Arguments arguments_;
  Environment& environment_;
  std::vector<job::NewEntry> entries_;
  std::vector<std::string> pages_;
  int outcome_ = exit_done;
};

}  // namespace

int read_for_job(const Arguments& arguments, Environment& environment) {
  if (arguments.operands.empty())
    throw InputError(
        "missing: what the meter showed; such as: ohmwright job read TESTPOINT=OL, or ohmwright job read PART 32.1");
  JobAtHand job = job_at_hand(arguments);
  refuse_closed(job);
  JobReader reader(job, arguments, environment);
  const std::string& first = arguments.operands.front();
  return first.find('=') != std::string::npos ? reader.read_test_points() : reader.read_part();
}

}  // namespace ohmwright::cli
