#include <algorithm>
#include <chrono>
#include <cstdint>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <ohmwright/cycles/verdicts/outcome_of_log.hpp>
#include <ohmwright/cycles/verdicts/repair.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/log_picture.hpp>
#include <ohmwright/report/log_report.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/repair_report.hpp>
#include <ohmwright/safety/earth_bond.hpp>
#include <ohmwright/verdict/caution.hpp>

#include "appliance/log_ratings.hpp"
#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/appliance.hpp"
#include "job/book_file.hpp"
#include "job/safety.hpp"
#include "job/search.hpp"
#include "job/unproved_page.hpp"
#include "job/worked_part.hpp"
#include "log/files.hpp"

namespace ohmwright::cli {

namespace {

job::NewEntry check_entry(const job::ContentWriter& content) { return {job::EntryForm::checked, content.content()}; }

std::string_view bond_text(const EarthBondVerdict& verdict) {
  if (verdict.outcome == Outcome::within_limits)
    return OHMWRIGHT_TEXT("Earth bond with its cord: {value}, at most {limit}, read with {current}.");
  if (verdict.outcome == Outcome::out_of_limits)
    return OHMWRIGHT_TEXT("Earth bond with its cord: {value}, more than {limit}.");
  return verdict.lacks_current
             ? OHMWRIGHT_TEXT(
                   "Earth bond with its cord: {value}, which proves nothing: a bond is read with {least} or "
                   "more; say with how much it was (--test-current).")
             : OHMWRIGHT_TEXT(
                   "Earth bond with its cord: {value}, too near {limit} to tell; read it again, or say its "
                   "doubt (such as 0.18 ± 0.01 ohm).");
}

/// Who says that an appliance with a protective earth has none says why: its plate may show class II all the same.
void ask_why_no_earth(const JobAtHand& job, const Arguments& arguments, const Environment& environment) {
  if (arguments.has("--because") || !safety_asked(job.call, environment).earth_bond || !job.call.has_appliance())
    return;
  throw InputError(
      "the file of the appliance says that it has a protective earth: read its bond (--earth-bond 0.12ohm "
      "--test-current 10A); where its rating plate shows class II, say so: --earth-bond none --because TEXT");
}

/// An earth that was read bad is there: no word makes an appliance of class II of it.
void refuse_none_beside_a_bad_bond(const JobAtHand& job) {
  const job::Check* read = job::latest(job.call.checks, [](const job::Check& check) {
    return check.form == job::CheckForm::earth_bond && check.result != job::no_earth;
  });
  if (read == nullptr || read->outcome == Outcome::within_limits) return;
  throw InputError(
      "its earth bond was read, and is not within limits (" + printable(read->text) +
      "); mend the earth lead and read it again, or, if that was a slip, take it back first: ohmwright job "
      "correct " +
      read->entry);
}

job::NewEntry earth_bond(const JobAtHand& job, const Arguments& arguments, const Environment& environment,
                         const Sentences& say) {
  const std::string text = arguments.value("--earth-bond");
  job::ContentWriter content;
  content.text("what", name_of(job::CheckForm::earth_bond));
  if (text == "none") {
    refuse_none_beside_a_bad_bond(job);
    ask_why_no_earth(job, arguments, environment);
    const std::string because = arguments.value("--because");
    return check_entry(content.text("outcome", name_of(Outcome::within_limits))
                           .text("result", job::no_earth)
                           .text("text", because.empty() ? say(OHMWRIGHT_TEXT("It has no protective earth (class II)."))
                                                         : say(OHMWRIGHT_TEXT("It has no protective earth: {why}"),
                                                               {{"why", because}})));
  }
  ObservedOptions bare;
  bare.default_unit = Unit::named("ohm", Dimension::resistance);
  const Observed observed = parse_observed(text, Dimension::resistance, bare);
  if (std::holds_alternative<OverRange>(observed))
    return check_entry(content.text("outcome", name_of(Outcome::out_of_limits))
                           .text("text", say(OHMWRIGHT_TEXT("Earth bond with its cord: OL. The earth lead is open: its "
                                                            "case is not earthed at all."))));
  const auto* bond_read = std::get_if<StatedValue>(&observed);
  if (bond_read == nullptr)
    throw InputError("--earth-bond takes a resistance, OL, or none, got " + ohmwright::quoted(text));
  const StatedValue& bond = *bond_read;
  std::optional<StatedValue> current;
  if (arguments.has("--test-current"))
    current = parse_stated_value(arguments.value("--test-current"), Dimension::current);
  const EarthBondVerdict verdict = judge_earth_bond(bond, current);
  return check_entry(content.text("outcome", name_of(verdict.outcome))
                         .text("text", say(bond_text(verdict),
                                           {{"value", say.stated(bond)},
                                            {"limit", AnyQuantity(Dimension::resistance, most_earth_bond_with_cord)},
                                            {"least", AnyQuantity(Dimension::current, least_bond_test_current)},
                                            {"current", current ? say.stated(*current) : std::string("?")}})));
}

/// Refused while insulation or earth bond is not within limits, or what ends the heat was read bad, and without an
/// explicit yes to its caution.
void add_forced_defrost(const JobAtHand& job, const Arguments& arguments, const Environment& environment,
                        const Sentences& say, std::vector<job::NewEntry>& entries) {
  if (!job.call.cools())
    throw InputError(
        "this appliance has no frost, and no defrost to force; what heats in it is read live: ohmwright job "
        "read TESTPOINT=VALUE --live-agreed");
  refuse_at_sealed_system(job.call, environment, "forced-defrost");
  refuse_to_energise(
      job, time_happened(arguments),
      OHMWRIGHT_TEXT("no forced defrost while it is not proved safe to energise:{bars} See: ohmwright job "
                     "verify"));
  refuse_to_heat(
      job, time_happened(arguments),
      OHMWRIGHT_TEXT("no forced defrost while what limits its heat is not proved:{bars} See: ohmwright job verify"),
      environment);
  if (!arguments.has("--live-agreed"))
    throw InputError(
        "a forced defrost is a live step: a proved, unbridged limit, a clear drain, a time limit, and you stay beside "
        "it; "
        "if you are qualified and agree to that, say --live-agreed, and it is recorded");
  entries.push_back(
      {job::EntryForm::agreed,
       job::ContentWriter().text("step", "forced-defrost").text("caution", "live-measurement").content()});
  const std::string result = arguments.value("--forced-defrost");
  const bool ended = result == "ended";
  const std::string_view text = ended ? OHMWRIGHT_TEXT("A forced defrost heated, and ended by itself.")
                                : result == "no-heat"
                                    ? OHMWRIGHT_TEXT("A forced defrost did not heat.")
                                    : OHMWRIGHT_TEXT("A forced defrost heated, and did not end by itself.");
  entries.push_back(check_entry(job::ContentWriter()
                                    .text("what", name_of(job::CheckForm::forced_defrost))
                                    .text("result", result)
                                    .text("outcome", name_of(ended ? Outcome::within_limits : Outcome::out_of_limits))
                                    .text("text", say(text))
                                    .texts("cautions", caution_ids_of_step("forced-defrost"))));
}

/// Why a log proves nothing by its own dates, a sentence; empty: they do not speak against it. One that ends before
/// what was repaired last shows how it was. One that ends later than now has another clock, or is another file. The
/// clock may stand in another zone, or have no date.
std::string_view dates_against(const ReadLog& log, const job::ServiceCall& call) {
  constexpr double day = 86400.0;
  constexpr double millisecond = 1e-3;
  const std::optional<double> start = log.reader.start_second();
  if (!start) return {};
  const double end = *start + log.analysis.coverage.span_second;
  const std::chrono::duration<double> now = std::chrono::system_clock::now().time_since_epoch();
  if (end > now.count() + day)
    return OHMWRIGHT_TEXT(
        "By its own dates the log ends later than now: its clock is wrong, or it is another file. It proves nothing; "
        "set the logger's clock and take another.");
  std::optional<std::int64_t> repaired;
  for (const job::ReplacedPart& part : call.replaced) repaired = std::max(repaired, job::milliseconds_of(part.when));
  if (!repaired || end >= static_cast<double>(*repaired) * millisecond - day) return {};
  return OHMWRIGHT_TEXT(
      "By its own dates the log ends before the last repair: it proves nothing of it. Take one from after "
      "it, or set the logger's clock.");
}

/// Says so below the log's page, and gives what the book keeps of it.
std::string tell_dates_against(std::string_view why, const Environment& environment, std::string& page) {
  const std::string text = Sentences{UnitPreferences{}}(why);
  page += '\n' + paragraph(text, environment.page.width);
  return text;
}

/// Of a log the book keeps so many columns, as wide as it is drawn in a report.
constexpr std::size_t kept_columns = 720;

/// A log from after the repair, compared with one from before it where there is one.
job::NewEntry log_check(const JobAtHand& job, const Arguments& arguments, const Environment& environment,
                        std::string& page) {
  const cycles::LogRatings ratings = log_ratings_over(
      job.call.has_appliance() ? log_ratings_of(appliance_of(job.call, environment)) : cycles::LogRatings{}, arguments,
      environment);
  const cycles::LogReadingSettings settings = typed_reading_settings(arguments);
  const Sentences say{UnitPreferences{}};
  const ReadLog after = read_log(arguments.value("--log"), settings, ratings);
  job::ContentWriter content;
  content.text("what", name_of(job::CheckForm::log)).text("file", arguments.value("--log"));
  if (!arguments.has("--before")) {
    const std::vector<cycles::LogVerdict> verdicts = cycles::judge_log(after.analysis, ratings);
    const LogReport report{after.reader, after.analysis, verdicts};
    const LogContent words = log_content(report, say);
    const bool is_open = after.reader.rows() == 0 || cycles::leaves_a_question(after.analysis, verdicts);
    Outcome outcome = cycles::outcome_of_log(verdicts);
    const std::string_view against = dates_against(after, job.call);
    // What it shows of other days neither proves the repair nor speaks against it.
    if (!against.empty() || (is_open && outcome == Outcome::within_limits)) outcome = Outcome::undecided;
    page = log_page(report, say, environment.page);
    content.json("drawing", drawing_record(drawing_of(report, kept_columns)));
    std::vector<std::string> lines = words.questions;
    lines.insert(lines.end(), words.not_shown.begin(), words.not_shown.end());
    if (!against.empty()) lines.insert(lines.begin(), tell_dates_against(against, environment, page));
    return check_entry(content.text("outcome", name_of(outcome)).text("text", words.headline).texts("lines", lines));
  }
  const ReadLog before = read_log(arguments.value("--before"), settings, ratings);
  const cycles::RepairComparison comparison = cycles::compare_repair(before.analysis, after.analysis, ratings);
  const RepairReport report{before.reader, after.reader, before.analysis, after.analysis, comparison};
  const RepairContent words = repair_content(report, say);
  page = repair_page(report, say, environment.page);
  const std::vector<cycles::LogVerdict> verdicts = cycles::judge_log(after.analysis, ratings);
  content.json("drawing", drawing_record(drawing_of({after.reader, after.analysis, verdicts}, kept_columns)));
  const std::string_view against = dates_against(after, job.call);
  std::vector<std::string> lines = words.unproved;
  if (!against.empty()) lines.insert(lines.begin(), tell_dates_against(against, environment, page));
  return check_entry(content.text("outcome", name_of(against.empty() ? comparison.outcome : Outcome::undecided))
                         .text("text", words.headline)
                         .texts("lines", lines)
                         .rows("figures", words.figures));
}

/// What was checked now, in the order in which it is done: each is in the book before the next is asked whether it may
/// be, so that a bad earth bond bars the forced defrost of the same command.
class Verification {
 public:
  Verification(JobAtHand& job, const Arguments& arguments, Environment& environment)
      : job_(job), arguments_(arguments), environment_(environment), happened_(time_happened(arguments)) {}

  void take() {
    say_which(job_, environment_);
    warn_of_early_time(job_, happened_, environment_);
    if (arguments_.has("--earth-bond")) write({earth_bond(job_, arguments_, environment_, say_)});
    if (arguments_.has("--forced-defrost")) {
      std::vector<job::NewEntry> entries;
      add_forced_defrost(job_, arguments_, environment_, say_, entries);
      write(std::move(entries));
    }
    if (!arguments_.has("--log")) return;
    std::string page;
    const job::NewEntry entry = log_check(job_, arguments_, environment_, page);
    environment_.out << '\n' << page;
    write({entry}, false);
  }

  /// The worst of what was checked and of what stands against it.
  int exit() const {
    int worst = job::open_proof(job_.call).empty() ? exit_done : exit_undecided;
    if (failed_ || !job::bars_to_energising(job_.call).empty()) worst = exit_out_of_limits;
    return worst;
  }

 private:
  void write(std::vector<job::NewEntry> entries, bool tell = true) {
    for (job::NewEntry& entry : entries) entry.happened = happened_;
    job_.write(entries);
    const job::Check& check = job_.call.checks.back();
    failed_ = failed_ || check.outcome == Outcome::out_of_limits;
    if (tell) environment_.out << paragraph(printable(check.text), environment_.page.width);
  }

  JobAtHand& job_;
  const Arguments& arguments_;
  Environment& environment_;
  std::string happened_;
  Sentences say_{UnitPreferences{}};
  bool failed_ = false;
};

int verify_and_tell(const Arguments& arguments, Environment& environment, bool lists_what_is_left) {
  if (arguments.has("--before") && !arguments.has("--log"))
    throw InputError("--before needs --log beside it: the log from after the repair");
  if (arguments.has("--test-current") && !arguments.has("--earth-bond"))
    throw InputError("--test-current needs --earth-bond beside it: what was read with that current");
  JobAtHand job = job_at_hand(arguments);
  refuse_closed(job);
  Verification verification(job, arguments, environment);
  verification.take();
  if (lists_what_is_left)
    write_unproved(job.call, stops_at_sealed_system(job.call, arguments, environment), environment.page, environment);
  return verification.exit();
}

}  // namespace

int verify_job(const Arguments& arguments, Environment& environment) {
  return verify_and_tell(arguments, environment, true);
}

int verify_in_talk(const Arguments& arguments, Environment& environment) {
  return verify_and_tell(arguments, environment, false);
}

}  // namespace ohmwright::cli
