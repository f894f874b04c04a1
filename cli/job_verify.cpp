#include <algorithm>
#include <ostream>

#include <ohmwright/cycles/verdicts/repair.hpp>
#include <ohmwright/job/closing.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/log_report.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/repair_report.hpp>

#include "appliance_log_ratings.hpp"
#include "exit_codes.hpp"
#include "job_actions.hpp"
#include "job_appliance.hpp"
#include "job_book_file.hpp"
#include "log_files.hpp"

namespace ohmwright::cli {

namespace {

job::NewEntry check_entry(const job::ContentWriter& content) {
  return {std::string(job::forms::checked), content.content()};
}

/// A reading of an ordinary meter cannot decide it; who reads it says what it was read with by reading it at all.
job::NewEntry earth_bond(const Arguments& arguments, const Sentences& say) {
  const std::string text = arguments.value("--earth-bond");
  job::ContentWriter content;
  content.text("what", "earth-bond");
  if (text == "none")
    return check_entry(content.text("outcome", name_of(Outcome::within_limits))
                           .text("text", say(OHMWRIGHT_TEXT("It has no protective earth (class II)."))));
  const StatedValue bond = parse_stated_value(text, Dimension::resistance);
  const double ohm = bond.value.value_in_si();
  if (ohm < 0.0) throw InputError("--earth-bond takes a resistance of 0 or more, got " + ohmwright::quoted(text));
  const bool good = ohm + bond.half_width.value_or(0.0) <= job::most_earth_bond_with_cord;
  return check_entry(
      content.text("outcome", name_of(good ? Outcome::within_limits : Outcome::out_of_limits))
          .text("text", say(good ? OHMWRIGHT_TEXT("Earth bond with its cord: {value}, at most {limit}.")
                                 : OHMWRIGHT_TEXT("Earth bond with its cord: {value}, more than {limit}."),
                            {{"value", say.stated(bond)},
                             {"limit", AnyQuantity(Dimension::resistance, job::most_earth_bond_with_cord)}})));
}

/// Refused while insulation or earth bond is not within limits, and without an explicit yes to its caution.
void add_forced_defrost(const JobAtHand& job, const Arguments& arguments, const Sentences& say,
                        std::vector<job::NewEntry>& entries) {
  const std::vector<job::Obstacle> against = job::obstacles(job.call);
  if (!against.empty())
    throw InputError("no forced defrost while it is not proved safe to energise: " +
                     obstacle_text(against.front(), say) + " (ohmwright job verify lists all)");
  if (!arguments.has("--live-agreed"))
    throw InputError(
        "a forced defrost is a live step: a proved, unbridged limit, a clear drain, a time limit, and you stay beside "
        "it; "
        "if you are qualified and agree to that, say --live-agreed, and it is recorded");
  entries.push_back(
      {std::string(job::forms::agreed),
       job::ContentWriter().text("step", "forced-defrost").text("caution", "live-measurement").content()});
  const std::string result = arguments.value("--forced-defrost");
  const bool ended = result == "ended";
  const std::string_view text = ended ? OHMWRIGHT_TEXT("A forced defrost heated, and ended by itself.")
                                : result == "no-heat"
                                    ? OHMWRIGHT_TEXT("A forced defrost did not heat.")
                                    : OHMWRIGHT_TEXT("A forced defrost heated, and did not end by itself.");
  entries.push_back(check_entry(job::ContentWriter()
                                    .text("what", "forced-defrost")
                                    .text("outcome", name_of(ended ? Outcome::within_limits : Outcome::out_of_limits))
                                    .text("text", say(text))
                                    .texts("cautions", std::vector<std::string>{"live-measurement", "do-not-bridge",
                                                                                "water-and-mains", "moving-parts"})));
}

/// Text of a table, as the book keeps it.
std::string rows_json(const std::vector<std::vector<std::string>>& rows) {
  std::string json;
  for (const std::vector<std::string>& row : rows) {
    const std::string object = job::ContentWriter().texts("r", row).content();  // {"r":[…]}
    if (row.empty()) continue;
    json += (json.empty() ? "[" : ",") + object.substr(5, object.size() - 6);
  }
  return json.empty() ? "[]" : json + "]";
}

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
  content.text("what", "log").text("file", arguments.value("--log"));
  if (!arguments.has("--before")) {
    const std::vector<cycles::LogVerdict> verdicts = cycles::judge_log(after.analysis, ratings);
    const LogReport report{after.reader, after.analysis, verdicts};
    const LogContent words = log_content(report, say);
    const bool is_open = after.reader.rows() == 0 || cycles::leaves_a_question(after.analysis, verdicts);
    const Outcome outcome = cycles::asks_for_a_test(verdicts) ? Outcome::out_of_limits
                            : is_open                         ? Outcome::undecided
                                                              : Outcome::within_limits;
    page = log_page(report, say, environment.page);
    std::vector<std::string> lines = words.questions;
    lines.insert(lines.end(), words.not_shown.begin(), words.not_shown.end());
    return check_entry(content.text("outcome", name_of(outcome)).text("text", words.headline).texts("lines", lines));
  }
  const ReadLog before = read_log(arguments.value("--before"), settings, ratings);
  const cycles::RepairComparison comparison = cycles::compare_repair(before.analysis, after.analysis, ratings);
  const RepairReport report{before.reader, after.reader, before.analysis, after.analysis, comparison};
  const RepairContent words = repair_content(report, say);
  page = repair_page(report, say, environment.page);
  return check_entry(content.text("outcome", name_of(comparison.outcome))
                         .text("text", words.headline)
                         .texts("lines", words.unproved)
                         .json("figures", rows_json(words.figures)));
}

bool was_checked(const job::ServiceCall& call, std::string_view what) {
  return std::any_of(call.checks.begin(), call.checks.end(),
                     [&](const job::Check& check) { return check.what == what; });
}

/// What is still to be proved, and how.
void write_unproved(const JobAtHand& job, const Sentences& say, Environment& environment) {
  PageLayout page(environment.page);
  std::vector<std::string> against;
  for (const job::Obstacle& obstacle : job::obstacles(job.call)) against.push_back(obstacle_text(obstacle, say));
  page.section(say(OHMWRIGHT_TEXT("Do not energise it, nor call it repaired, before")), against);
  std::vector<std::string> unproved;
  if (!was_checked(job.call, "forced-defrost"))
    unproved.push_back(
        say(OHMWRIGHT_TEXT("a forced defrost: ohmwright job verify --forced-defrost ended --live-agreed")));
  if (!was_checked(job.call, "log"))
    unproved.push_back(say(OHMWRIGHT_TEXT(
        "a log over some days: ohmwright job verify --before BEFORE.csv --log AFTER.csv (ohmwright job wait log)")));
  page.section(say(OHMWRIGHT_TEXT("Still unproved")), unproved);
  if (against.empty() && unproved.empty())
    page.block(say(OHMWRIGHT_TEXT("All is proved that can be: ohmwright job close repaired")));
  environment.out << page.take();
}

}  // namespace

int verify_job(const Arguments& arguments, Environment& environment) {
  if (arguments.has("--before") && !arguments.has("--log"))
    throw InputError("--before needs --log beside it: the log from after the repair");
  JobAtHand job = job_at_hand(arguments);
  refuse_closed(job);
  const Sentences say{UnitPreferences{}};
  std::vector<job::NewEntry> entries;
  std::string page;
  if (arguments.has("--earth-bond")) entries.push_back(earth_bond(arguments, say));
  if (arguments.has("--forced-defrost")) add_forced_defrost(job, arguments, say, entries);
  if (arguments.has("--log")) entries.push_back(log_check(job, arguments, environment, page));
  for (job::NewEntry& entry : entries) entry.happened = time_happened(arguments);
  if (!entries.empty()) job.write(entries);
  say_which(job, environment);
  if (!page.empty()) environment.out << '\n' << page;
  if (!entries.empty() && !job.call.checks.empty() && page.empty())
    environment.out << paragraph(job.call.checks.back().text, environment.page.width);
  write_unproved(job, say, environment);
  return entries.empty() || job.call.checks.empty() ? exit_done : exit_code(job.call.checks.back().outcome);
}

}  // namespace ohmwright::cli
